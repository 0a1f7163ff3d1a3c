"""Numbers of papers about money run without a gap: after a failure, and with many at once. On both databases."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection

from bookings.actions import bills, money
from bookings.models import Item, ItemPrice, Payment, Sitting
from bookings.models.numbers import NumberSeries
from bookings.refusals import Refusal
from tests.bookings.agreeing import agree
from tests.bookings.making import House, at, make_house

AT_ONCE = 16


class Broken(Exception):
    """What stops in the middle."""


@pytest.fixture
def shop(transactional_db: None) -> House:
    """Kept for good, with an item for sale."""
    house = make_house()
    agree(house)
    item = Item.objects.create(name="Wall print", kind="print")
    ItemPrice.objects.create(item=item, from_day=date(2020, 1, 1), amount=Decimal(90))
    return house


def pay(house: House, sitting: Sitting) -> int:
    return money.take(by=house.desk, sitting=sitting, kind="deposit", amount=Decimal(45), method="cash").receipt


def quote(house: House, sitting: Sitting) -> int:
    wanted = [(Item.objects.get(name="Wall print"), 1)]
    return int(bills.quote(by=house.desk, sitting=sitting, wanted=wanted, valid_until=date(2099, 1, 1)).number)


def invoice(house: House, sitting: Sitting) -> int:
    bills.charge_item(by=house.desk, sitting=sitting, item=Item.objects.get(name="Wall print"), count=1)
    return int(bills.invoice(by=house.desk, sitting=sitting).number)


MAKERS = [(pay, "receipts"), (quote, "quotes"), (invoice, "invoices")]


def breaks_after_drawing(patch: pytest.MonkeyPatch) -> list[int]:
    """Let the next number be drawn and everything stop there; what was drawn."""
    drawn: list[int] = []
    take: Callable[[str], int] = NumberSeries.take

    def drawn_in_vain(name: str) -> int:
        drawn.append(take(name))
        raise Broken

    patch.setattr(NumberSeries, "take", drawn_in_vain)
    return drawn


@pytest.mark.parametrize(("make", "series"), MAKERS)
def test_a_number_drawn_by_what_fails_goes_to_the_next(make: Any, series: str, shop: House) -> None:
    sitting = shop.book()
    assert make(shop, sitting) == 1
    with pytest.MonkeyPatch.context() as patch:
        drawn = breaks_after_drawing(patch)
        with pytest.raises(Broken):
            make(shop, sitting)
    assert drawn == [2]
    assert NumberSeries.objects.get(name=series).last == 1
    assert make(shop, sitting) == 2


def test_a_receipt_whose_confirmation_fails_leaves_neither_money_nor_a_gap(
    shop: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    sitting = shop.book()
    with monkeypatch.context() as patch:
        patch.setattr("bookings.actions.correspondence.confirm", lambda *_, **__: (_ for _ in ()).throw(Broken))
        with pytest.raises(Broken):
            pay(shop, sitting)
    assert not Payment.objects.exists()
    assert Sitting.objects.get().stage == "held"
    assert pay(shop, sitting) == 1


@pytest.mark.parametrize(("make", "series"), MAKERS)
def test_sixteen_at_once_number_papers_without_a_gap(make: Any, series: str, shop: House) -> None:
    sittings = [shop.book(starts_at=at(9, 30, days=n)) for n in range(4)]
    unpriced = Item.objects.create(name="Album", kind="print")

    def act(n: int) -> int | None:
        try:
            if n % 4 == 3:  # every fourth asks for what is refused
                bills.quote(by=shop.desk, sitting=sittings[3], wanted=[(unpriced, 1)], valid_until=date.max)
            return int(make(shop, sittings[n % 4]))
        except Refusal:
            return None
        finally:
            connection.close()

    with ThreadPoolExecutor(AT_ONCE) as many:
        found = sorted(number for number in many.map(act, range(AT_ONCE)) if number is not None)
    assert found == list(range(1, len(found) + 1))
    assert len(found) >= (3 if series == "invoices" else 12)
    assert NumberSeries.objects.get(name=series).last == len(found)
