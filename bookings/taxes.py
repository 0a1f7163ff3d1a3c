"""Tax of a line, as plain values. Belongs here: which rule holds for a kind of item, a place and a day, and what it
comes to. Pure: no database, no clock, no framework. The rules are the studio's own entries: nothing here knows any
law."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from bookings.prices import NOTHING, rounded

ANYWHERE = ""
HUNDRED = Decimal(100)


@dataclass(frozen=True)
class Rule:
    """What one kind of item is taxed at in one place from one day on; `included` where the price holds it already."""

    item_kind: str
    place: str
    from_day: date
    percent: Decimal
    included: bool
    words: str


@dataclass(frozen=True)
class Taxed:
    """A line with its tax: `amount` is what is paid, `tax` the part of it that is tax."""

    amount: Decimal
    tax: Decimal
    percent: Decimal = NOTHING
    words: str = ""


def rule_on(rules: Iterable[Rule], item_kind: str, place: str, day: date) -> Rule | None:
    """The rule in force: that of the place itself before that of anywhere, of each the latest begun."""
    begun = [r for r in rules if r.item_kind == item_kind and r.from_day <= day and r.place in (place, ANYWHERE)]
    return max(begun, key=lambda r: (r.place == place and place != ANYWHERE, r.from_day), default=None)


def taxed(base: Decimal, rule: Rule | None, currency: str, *, exempt: str = "", keep_amount: bool = False) -> Taxed:
    """A price with its tax, to the smallest coin. An exempt client pays the price without it.

    `keep_amount`: the amount was agreed and is paid as it is, whatever part of it is tax.
    """
    base = rounded(base, currency)
    if rule is None:
        return Taxed(base, NOTHING)
    inside = rounded(base * rule.percent / (HUNDRED + rule.percent), currency)
    if exempt:
        return Taxed(base if keep_amount or not rule.included else base - inside, NOTHING, NOTHING, exempt)
    if rule.included or keep_amount:
        return Taxed(base, inside, rule.percent, rule.words)
    tax = rounded(base * rule.percent / HUNDRED, currency)
    return Taxed(base + tax, tax, rule.percent, rule.words)
