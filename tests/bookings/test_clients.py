"""Clients and kinds of sitting: their lists and forms."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings.models import Client, Kind
from tests import cast
from tests.bookings.making import House, at

CLIENT = {"name": "Ignace Dorrow", "email": "", "phone": "01632 960777", "note": "rings at noon", "version": 0}
KIND = {
    "name": "Headshots",
    "minutes": 160,
    "setup_minutes": 30,
    "strike_minutes": 15,
    "intent": "even",
    "framing": "head_and_shoulders",
    "background_tone": "mid",
    "delivery_days": "20",
    "ask_back": "occasion",
    "arrive_minutes": "10",
    "balance_days": "0",
    "view": "either",
    "orientation": "upright",
    "active": "on",
    "version": 0,
    "prices-TOTAL_FORMS": 0,
    "prices-INITIAL_FORMS": 0,
}


@pytest.mark.parametrize(
    ("name", "company", "short"),
    [
        ("Ottoline and Bertram Askew", False, "Askew"),
        ("The Pellingham family", False, "Pellingham"),
        ("Marrowfield Joinery", True, "Marrowfield Joinery"),
        ("ignace", False, "ignace"),
    ],
)
def test_a_client_s_short_name_is_what_the_house_says(name: str, company: bool, short: str) -> None:
    assert Client(name=name, is_company=company).short_name == short


def test_the_desk_adds_a_client_and_finds_their_sittings(house: House) -> None:
    desk = cast.client_of(house.desk)
    assert "Ignace Dorrow is saved." in desk.post("/clients/new/", CLIENT, follow=True).content.decode()
    house.book()
    page = desk.get(f"/clients/{house.client.pk}/").content.decode()
    assert "L-0001" in page
    assert "Held. Client" in page


def test_the_first_of_two_who_mend_a_client_wins_and_the_other_s_text_is_kept(house: House) -> None:
    desk, pk = cast.client_of(house.desk), house.client.pk
    desk.post(f"/clients/{pk}/", CLIENT | {"version": 1})
    page = desk.post(f"/clients/{pk}/", CLIENT | {"version": 1, "note": "rings at six"}).content.decode()
    assert "Somebody else saved this while you had it open." in page
    assert "rings at six" in page
    assert Client.objects.get(pk=pk).note == "rings at noon"


def test_the_owner_keeps_the_kinds(house: House) -> None:
    owner = cast.client_of(house.members["owner"])
    owner.post("/kinds/new/", KIND)
    kind = Kind.objects.get(name="Headshots")
    page = owner.post(f"/kinds/{kind.pk}/", KIND | {"version": 7}).content.decode()
    assert "Somebody else saved this" in page
    owner.post(f"/kinds/{kind.pk}/", {key: value for key, value in KIND.items() if key != "active"} | {"version": 1})
    assert not Kind.objects.get(pk=kind.pk).active
    assert "not offered" in owner.get("/kinds/").content.decode()
    assert "Headshots" not in cast.client_of(house.desk).get("/sittings/new/").content.decode()


def test_a_client_nobody_is_is_not_found(house: House) -> None:
    assert cast.client_of(house.desk).get(f"/clients/{'9' * 30}/").status_code == 404


def test_long_lists_ask_the_database_no_more_often(house: House) -> None:
    desk = cast.client_of(house.desk)

    def asked(path: str) -> int:
        with CaptureQueriesContext(connection) as queries:
            desk.get(path)
        return len(queries)

    paths = ["/clients/", f"/clients/{house.client.pk}/"]
    before = [asked(path) for path in paths]
    Client.objects.bulk_create(Client(name=f"Client {n}") for n in range(50))
    for n in range(5):
        house.book(starts_at=at(9, days=n))
    assert [asked(path) for path in paths] == before
    assert max(before) <= 10


def test_the_list_shows_a_page_and_finds_by_a_part_of_the_name(house: House) -> None:
    desk = cast.client_of(house.desk)
    names = [f"Client {n:03d} Vane" for n in range(60)]
    for name in names:
        Client.objects.create(name=name)
    first = desk.get("/clients/").content.decode()
    assert names[0] in first
    assert names[59] not in first
    assert "Page 1 of 2" in first
    assert names[59] in desk.get("/clients/?page=2").content.decode()
    for odd in ("0", "x", "999", "-1", "\uff19"):
        assert desk.get(f"/clients/?page={odd}").status_code == 200
    found = desk.post("/clients/", {"text": "059"}, headers={"X-Fragment": "1"}).content.decode()
    assert "<bdi>Client 059 Vane</bdi>" in found
    assert found.count('class="name"') == 1
    assert "<h1>" not in found
    assert "Nobody known is meant by that." in desk.post("/clients/", {"text": "zz\u202eq"}).content.decode()


def test_the_list_takes_as_many_questions_for_many_as_for_few(
    house: House, django_assert_max_num_queries: Any
) -> None:
    desk = cast.client_of(house.desk)
    for n in range(60):
        Client.objects.create(name=f"Client {n:03d}")
    with django_assert_max_num_queries(9):
        desk.get("/clients/")
