"""Tax of a line: the rule of the place and day, and sums that hold to the smallest coin."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from bookings.taxes import Rule, rule_on, taxed

DAY = date(2026, 6, 1)


def rule(percent: str = "20", place: str = "", day: date = DAY, *, included: bool = True, kind: str = "print") -> Rule:
    return Rule(kind, place, day, Decimal(percent), included, "Sales tax")


def test_the_place_s_own_rule_goes_before_that_of_anywhere_and_the_later_before_the_earlier() -> None:
    rules = [rule("20"), rule("7", "NORTH"), rule("8", "NORTH", date(2026, 9, 1)), rule("5", kind="file")]
    assert rule_on(rules, "print", "NORTH", date(2026, 8, 31)).percent == 7
    assert rule_on(rules, "print", "NORTH", date(2026, 9, 1)).percent == 8
    assert rule_on(rules, "print", "SOUTH", date(2026, 9, 1)).percent == 20
    assert rule_on(rules, "print", "", date(2026, 9, 1)).percent == 20
    assert rule_on(rules, "print", "SOUTH", date(2026, 5, 31)) is None
    assert rule_on(rules, "frame", "SOUTH", DAY) is None


def test_included_is_a_part_of_the_price_and_added_comes_on_top() -> None:
    # 120.00 with 20 % in it: 100.00 and 20.00 (definition of a rate included)
    assert (taxed(Decimal(120), rule(), "GBP").amount, taxed(Decimal(120), rule(), "GBP").tax) == (120, 20)
    added = taxed(Decimal("99.99"), rule("7.25", included=False), "USD")
    assert (added.amount, added.tax) == (Decimal("107.24"), Decimal("7.25"))


def test_an_exempt_client_pays_without() -> None:
    assert taxed(Decimal(120), rule(), "GBP", exempt="exempt, 77").amount == 100
    found = taxed(Decimal(120), rule(included=False), "GBP", exempt="exempt, 77")
    assert (found.amount, found.tax, found.words) == (120, 0, "exempt, 77")


def test_an_agreed_amount_is_paid_as_it_is() -> None:
    found = taxed(Decimal(60), rule(included=False), "GBP", keep_amount=True)
    assert (found.amount, found.tax) == (60, 10)


def test_without_a_rule_nothing_is_tax() -> None:
    assert taxed(Decimal("45.00"), None, "GBP").tax == 0


@given(
    base=st.decimals(0, 100_000, places=2),
    percent=st.decimals(0, 100, places=2),
    included=st.booleans(),
    currency=st.sampled_from(["GBP", "JPY", "KWD"]),
)
def test_tax_is_its_percent_of_what_is_left_in_whole_coins(
    base: Decimal, percent: Decimal, included: bool, currency: str
) -> None:
    found = taxed(base, rule(str(percent), included=included), currency)
    coin = {"GBP": Decimal("0.01"), "JPY": Decimal(1), "KWD": Decimal("0.001")}[currency]
    assert found.tax % coin == 0
    assert found.amount % coin == 0
    assert 0 <= found.tax <= found.amount
    share = (found.amount - found.tax) * percent / 100
    assert abs(found.tax - share) <= coin * (1 + percent / 100)  # half a coin each for net and tax
