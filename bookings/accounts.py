"""What a sitting costs and what was paid. Belongs here: adding up its account, its deposit, and what a change would
cost by its own terms. Not here: writing an entry (`actions.money`), the arithmetic of a fee (`prices`)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import prices, wording
from bookings.models import Charge, Payment, Sitting, Trust
from bookings.models.sittings import FIRM


@dataclass(frozen=True)
class Account:
    """One sitting's money; `balance` is what is still to be paid, below nothing what is to be refunded."""

    sitting: Sitting
    charges: Sequence[Charge]
    payments: Sequence[Payment]

    @property
    def currency(self) -> str:
        return self.sitting.currency

    @property
    def due(self) -> Decimal:
        return sum((charge.amount for charge in self.charges), Decimal(0))

    @property
    def paid(self) -> Decimal:
        return sum((payment.amount for payment in self.payments), Decimal(0))

    @property
    def balance(self) -> Decimal:
        return self.due - self.paid

    @property
    def to_refund(self) -> Decimal:
        return max(-self.balance, Decimal(0))

    @property
    def deposit(self) -> Decimal:
        return self.sitting.deposit

    @property
    def deposit_missing(self) -> Decimal:
        return max(self.deposit - self.paid, Decimal(0))


def of(sitting: Sitting) -> Account:
    return of_many([sitting])[sitting.pk]


def of_many(sittings: Iterable[Sitting]) -> dict[int, Account]:
    """Accounts by the sittings' keys, in two queries however many there are."""
    rows = {sitting.pk: sitting for sitting in sittings}
    charges: dict[int, list[Charge]] = defaultdict(list)
    payments: dict[int, list[Payment]] = defaultdict(list)
    for charge in Charge.objects.filter(sitting__in=rows):
        charges[charge.sitting_id].append(charge)
    for payment in Payment.objects.filter(sitting__in=rows).select_related("by", "corrected_by", "corrects"):
        payments[payment.sitting_id].append(payment)
    return {pk: Account(sitting, charges[pk], payments[pk]) for pk, sitting in rows.items()}


@dataclass(frozen=True)
class Deposit:
    """How the deposit of a sitting stands: `is_settled` when nobody need ask for it."""

    words: str
    is_settled: bool


def deposit_of(account: Account, today: date) -> Deposit:
    """In words with a shape, for lists: "paid", "missing: GBP 45.00", "waived by HV", "3 days past"."""
    trust = trust_of(account.sitting)
    if not account.deposit:
        return Deposit(_("none asked"), True)
    if not account.deposit_missing:
        return Deposit(_("paid"), True)
    if trust is not None and trust.until is None:
        return Deposit(_("waived by %(who)s") % {"who": trust.by.short}, True)
    missing = wording.money(account.deposit_missing, account.currency)
    if trust is None or trust.until is None:
        return Deposit(_("missing: %(amount)s") % {"amount": missing}, False)
    past = (today - trust.until).days
    if past > 0:
        words = ngettext("%(n)d day past: %(amount)s", "%(n)d days past: %(amount)s", past)
        return Deposit(words % {"n": past, "amount": missing}, False)
    return Deposit(_("on trust until %(day)s") % {"day": wording.date(trust.until)}, True)


def trust_of(sitting: Sitting) -> Trust | None:
    """On what it was confirmed without its deposit; no query where the sitting was read `with_people`."""
    return getattr(sitting, "trust", None)


def fee_to_move(sitting: Sitting, now: datetime) -> Decimal:
    """What moving it now to another time costs by its own terms."""
    return _fee(prices.fee_to_move, sitting, now)


def fee_to_cancel(sitting: Sitting, now: datetime) -> Decimal:
    return _fee(prices.fee_to_cancel, sitting, now)


def fee_of_no_show(sitting: Sitting) -> Decimal:
    return prices.fee_of_no_show(sitting.agreed, sitting.fee, sitting.currency)


def _fee(rule: prices.Rule, sitting: Sitting, now: datetime) -> Decimal:
    if sitting.stage not in FIRM:  # before that nothing is agreed, after it nothing can be moved or cancelled
        return prices.NOTHING
    return rule(sitting.agreed, sitting.fee, prices.notice_hours(now, sitting.starts_at), sitting.currency)
