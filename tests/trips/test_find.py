"""Find from every page, as the desk and the others use it."""

from __future__ import annotations

from time import perf_counter
from typing import Any

import pytest

from bookings.actions.sittings import SitterInput
from bookings.models import Client
from tests import cast
from tests.bookings.agreeing import set_clock
from tests.bookings.making import House, at, make_house
from tests.pages import Visitor


@pytest.fixture
def quillbridge(db: None, settings: Any, monkeypatch: pytest.MonkeyPatch) -> House:
    """The Askews in December, the bellfounder in May, among two thousand other clients."""
    settings.SITTING_PANELS = []
    set_clock(monkeypatch, at(8, 50))
    house = make_house()
    house.book()
    bellfounder = Client.objects.create(name="Ignáce Dörrow", phone="01632 960 771")
    house.book(client=bellfounder, starts_at=at(15, days=160), purpose="bell foundry", sitters=[SitterInput("Ignace")])
    Client.objects.bulk_create(Client(name=f"Wren Hollis {n}", phone=f"0{n:06d}") for n in range(2000))
    return house


def test_feature_21_part_of_a_name_digits_a_number_or_a_month_find_the_sitting(quillbridge: House) -> None:
    maud = Visitor(cast.client_of(quillbridge.desk))
    for start in ("/diary/", "/clients/new/", "/sittings/L-0001/", "/arrivals/"):
        maud.open(start)
        for typed in ("dorr", "960771", "L-0002", "l2", "May 2027", "foundry"):
            began = perf_counter()
            page = maud.press("Find", {"Find anything": typed})
            assert perf_counter() - began < 1.0
            assert "/sittings/L-0002/" in [href for _said, href in page.links], typed
    assert "Ignáce Dörrow" in maud.open("/sittings/L-0002/").words


def test_everybody_finds_from_the_page_the_day_begins_with_and_only_what_is_theirs(quillbridge: House) -> None:
    for role, sees in {"photographer": False, "assistant": False, "owner": False, "front_desk": True}.items():
        visitor = Visitor(cast.client_of(quillbridge.members[role]))
        visitor.open("/")
        page = visitor.press("Find", {"Find anything": "dörrow"})
        addresses = [href for _said, href in page.links]
        assert "/sittings/L-0002/" in addresses
        assert any(href.startswith("/clients/") and href[9:10].isdigit() for href in addresses) is sees
        assert visitor.open(next(href for href in addresses if "L-0002" in href)).status == 200


def test_nothing_found_is_said_with_what_find_knows(quillbridge: House) -> None:
    maud = Visitor(cast.client_of(quillbridge.desk))
    maud.open("/diary/")
    assert "Nothing is called that." in maud.press("Find", {"Find anything": "quernstone"}).words
    assert "two letters or more" in maud.open("/find/").words
