"""What was promised and has an end. Belongs here: reads of holds that run and of deposits on trust. Not here: doing
anything about them (`actions`)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from bookings import accounts, stages
from bookings.accounts import Account, Deposit
from bookings.models import Sitting, Stage


@dataclass(frozen=True)
class Held:
    """A sitting that is held, with its stage as a sentence."""

    sitting: Sitting
    sentence: str


@dataclass(frozen=True)
class OnTrust:
    account: Account
    deposit: Deposit

    @property
    def sitting(self) -> Sitting:
        return self.account.sitting


def held() -> list[Held]:
    """All that is held, the first to lapse first."""
    rows = Sitting.objects.with_people().filter(stage=Stage.HELD, hold__isnull=False).order_by("hold__expires_at", "pk")
    return [Held(row, stages.sentence(row)) for row in rows]


def on_trust(today: date) -> list[OnTrust]:
    """Sittings confirmed without a deposit that is still missing, the longest past first."""
    trusted = Sitting.objects.taking_place().filter(trust__until__isnull=False)
    rows = trusted.with_people().order_by("trust__until", "pk")
    found = [OnTrust(account, accounts.deposit_of(account, today)) for account in accounts.of_many(rows).values()]
    return [one for one in found if one.account.deposit_missing]
