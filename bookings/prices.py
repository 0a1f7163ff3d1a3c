"""Fees by a studio's terms. Belongs here: what moving, cancelling or staying away costs and how much is asked
beforehand, as plain values. Pure: no database, no clock, no framework. Not here: what was paid (`accounts`)."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

NOTHING = Decimal(0)
HOLD_HOURS = 48  # where no terms say otherwise; common practice, no source
# Currencies that are not counted in hundredths (ISO 4217; value from memory).
_WHOLE = {
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF",
}  # fmt: skip
_THOUSANDTHS = {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"}


@dataclass(frozen=True)
class Notice:
    """With less than `hours` of notice, this share of the fee."""

    hours: int
    percent: Decimal


@dataclass(frozen=True)
class Terms:
    """What a studio and a client agree for one booking."""

    name: str
    valid_from: date
    move: tuple[Notice, ...] = ()
    cancel: tuple[Notice, ...] = ()
    no_show_percent: Decimal = NOTHING
    deposit_percent: Decimal = NOTHING
    deposit_amount: Decimal = NOTHING
    hold_hours: int = HOLD_HOURS
    late_minutes: int = 20
    no_show_minutes: int = 30
    words: str = ""


@dataclass(frozen=True)
class Dated:
    """A price from one day on."""

    from_day: date
    amount: Decimal


Rule = Callable[[Terms | None, Decimal | None, Decimal, str], Decimal]


def places(currency: str) -> int:
    """How many digits a currency has behind the point."""
    return 0 if currency in _WHOLE else 3 if currency in _THOUSANDTHS else 2


def rounded(amount: Decimal, currency: str) -> Decimal:
    """To the smallest coin, the half upwards."""
    return amount.quantize(Decimal(1).scaleb(-places(currency)), ROUND_HALF_UP)


def price_on(prices: Iterable[Dated], day: date) -> Decimal | None:
    """The price of a sitting on that day; None before the first."""
    begun = [price for price in prices if price.from_day <= day]
    return max(begun, key=lambda price: price.from_day).amount if begun else None


def notice_hours(now: datetime, starts_at: datetime) -> Decimal:
    """Hours that really pass from `now` to the start, whatever the clocks on the wall do; negative once it began."""
    left = starts_at - now
    microseconds = (left.days * 86_400 + left.seconds) * 1_000_000 + left.microseconds
    return Decimal(microseconds) / Decimal(3_600_000_000)


def share(rules: Sequence[Notice], hours: Decimal) -> Decimal:
    """The percent of the fee with that much notice: just as many hours as a rule names are enough to escape it."""
    met = [rule for rule in rules if hours < rule.hours]
    return min(met, key=lambda rule: rule.hours).percent if met else NOTHING


def fee_to_move(terms: Terms | None, fee: Decimal | None, notice_hours: Decimal, currency: str = "") -> Decimal:
    """What moving a confirmed sitting costs; nothing where no terms or no fee were agreed."""
    return _part(fee, share(terms.move, notice_hours), currency) if terms else NOTHING


def fee_to_cancel(terms: Terms | None, fee: Decimal | None, notice_hours: Decimal, currency: str = "") -> Decimal:
    """What cancelling a confirmed sitting costs."""
    return _part(fee, share(terms.cancel, notice_hours), currency) if terms else NOTHING


def fee_of_no_show(terms: Terms | None, fee: Decimal | None, currency: str = "") -> Decimal:
    return _part(fee, terms.no_show_percent, currency) if terms else NOTHING


def deposit(terms: Terms | None, fee: Decimal | None, currency: str = "") -> Decimal:
    """What is asked before a hold is firm: the amount, or the share of the fee, whichever the terms name; never more
    than the fee."""
    if terms is None or not fee:
        return NOTHING
    return min(terms.deposit_amount or _part(fee, terms.deposit_percent, currency), fee)


def _part(fee: Decimal | None, percent: Decimal, currency: str) -> Decimal:
    return rounded((fee or NOTHING) * percent / 100, currency)


def frozen(terms: Terms) -> dict[str, Any]:
    """Terms as they are kept with a booking: text and whole numbers alone, so that no digit of an amount is lost."""
    return {
        "name": terms.name,
        "valid_from": terms.valid_from.isoformat(),
        "move": [[rule.hours, str(rule.percent)] for rule in terms.move],
        "cancel": [[rule.hours, str(rule.percent)] for rule in terms.cancel],
        "no_show_percent": str(terms.no_show_percent),
        "deposit_percent": str(terms.deposit_percent),
        "deposit_amount": str(terms.deposit_amount),
        "hold_hours": terms.hold_hours,
        "late_minutes": terms.late_minutes,
        "no_show_minutes": terms.no_show_minutes,
        "words": terms.words,
    }


def thawed(kept: Mapping[str, Any]) -> Terms | None:
    """Terms as they were kept with a booking; None where there were none."""
    if not kept:
        return None
    return Terms(
        name=kept["name"],
        valid_from=date.fromisoformat(kept["valid_from"]),
        move=notices(kept["move"]),
        cancel=notices(kept["cancel"]),
        no_show_percent=Decimal(kept["no_show_percent"]),
        deposit_percent=Decimal(kept["deposit_percent"]),
        deposit_amount=Decimal(kept["deposit_amount"]),
        hold_hours=kept["hold_hours"],
        late_minutes=kept["late_minutes"],
        no_show_minutes=kept["no_show_minutes"],
        words=kept["words"],
    )


def notices(rows: Iterable[Sequence[Any]]) -> tuple[Notice, ...]:
    """Rules as they are kept, in order of their hours."""
    return tuple(sorted((Notice(int(hours), Decimal(percent)) for hours, percent in rows), key=lambda rule: rule.hours))
