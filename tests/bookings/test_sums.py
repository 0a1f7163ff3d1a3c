"""Sums of money hold whatever is charged and paid: the tax of a bill is that of its lines, and nothing is lost between
deposit, balance and total."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from bookings import bill_content, taxes
from bookings.accounts import Account
from bookings.models import Charge, Payment
from studio.models import Profile
from tests.bookings.making import at
from tests.bookings.test_taxes import rule

CURRENCIES = {"GBP": 2, "JPY": 0, "KWD": 3}
RATES = st.none() | st.tuples(st.sampled_from(["20", "7.25", "5.5", "19"]), st.booleans())


@st.composite
def bills(draw: Any) -> tuple[str, list[dict[str, Any]]]:
    """Lines as they are charged, some taken back, in one currency."""
    currency = draw(st.sampled_from(sorted(CURRENCIES)))
    lines = []
    for _ in range(draw(st.integers(1, 12))):
        base, rate = draw(st.decimals(0, 10_000, places=CURRENCIES[currency])), draw(RATES)
        found = taxes.taxed(base, rule(rate[0], included=rate[1]) if rate else None, currency)
        sign = -1 if draw(st.booleans()) else 1
        lines.append(bill_content.line(
            base=sign * base, amount=sign * found.amount, tax=sign * found.tax, tax_percent=found.percent,
            tax_words=found.words, label="Wall print", count=1,
        ))  # fmt: skip
    return currency, lines


def sitting_in(currency: str) -> Any:
    client = SimpleNamespace(name="Ottoline Askew", tax_exempt="")
    return SimpleNamespace(
        client=client, agreed=None, number="L-0001", kind=SimpleNamespace(name="Anniversary couple"), starts_at=at(9),
        currency=currency, destination="", deposit=Decimal(0),
    )  # fmt: skip


@given(bill=bills())
def test_the_tax_of_a_bill_is_the_sum_of_its_lines_and_of_its_rates(bill: Any) -> None:
    currency, lines = bill
    content = bill_content.frozen(sitting_in(currency), lines, Profile(studio_name="Lindenmere Portraits"), at(9))
    tax, total = Decimal(content["tax"]), Decimal(content["total"])
    assert tax == sum(Decimal(line["tax"]) for line in content["lines"])
    assert total == sum(Decimal(line["amount"]) for line in content["lines"])
    sums = bill_content.by_tax(content)
    assert sum(row[2] for row in sums) == tax
    assert sum(row[3] for row in sums) == total
    assert all(net + own == gross for _name, net, own, gross in sums)
    assert tax == round(tax, CURRENCIES[currency])  # whole coins, however many lines


AMOUNTS = st.lists(st.decimals(-5_000, 5_000, places=2), max_size=12)


@given(charged=AMOUNTS, paid=AMOUNTS, deposit=st.decimals(0, 3_000, places=2))
def test_deposit_and_balance_are_the_total_for_any_charges_and_payments(
    charged: list[Decimal], paid: list[Decimal], deposit: Decimal
) -> None:
    sitting: Any = SimpleNamespace(currency="GBP", deposit=deposit)
    charges = [Charge(amount=amount) for amount in charged]
    account = Account(sitting, charges, [Payment(amount=amount) for amount in paid])
    assert account.due == sum(charged)
    assert account.paid + account.balance == account.due
    assert account.to_refund == max(-account.balance, Decimal(0))
    missing = account.deposit_missing
    firm = Account(sitting, charges, [*account.payments, Payment(amount=missing)])
    assert firm.deposit_missing == 0
    assert account.paid + missing + firm.balance == account.due
    settled = Account(sitting, charges, [*firm.payments, Payment(amount=firm.balance)])
    assert settled.balance == 0
    assert settled.to_refund == 0
