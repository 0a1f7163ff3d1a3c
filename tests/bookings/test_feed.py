"""A person's calendar under a secret address: theirs alone, without clients, over when it is revoked."""

from __future__ import annotations

import pytest
from django.test import Client
from icalendar import Calendar

from bookings.actions import calendars, sittings
from bookings.models import Stage
from studio.models import Profile
from tests import cast
from tests.bookings.agreeing import again, set_clock
from tests.bookings.making import House, at, make_house
from tests.pages import Visitor


@pytest.fixture
def house(db: None, monkeypatch: pytest.MonkeyPatch) -> House:
    set_clock(monkeypatch, at(9, days=-5))
    house = make_house()
    Profile.objects.update(time_zone="Europe/London")
    return house


def fetch(secret: str, **headers: str) -> object:
    return Client().get(f"/calendar/{secret}.ics", headers=headers)


def events(answer: object) -> list[str]:
    calendar = Calendar.from_ical(answer.content)  # type: ignore[attr-defined]
    assert not calendar.errors
    assert all(event["uid"] and event["dtstamp"] for event in calendar.events)
    return [str(event["summary"]) for event in calendar.events]


def test_a_photographer_sees_their_own_by_number_and_kind_and_no_client(house: House) -> None:
    sitting = house.book()
    secret = calendars.make_address(member=house.members["photographer"])
    answer = fetch(secret)
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"  # type: ignore[index]
    assert events(answer) == [f"{sitting.number}, Anniversary couple (held)"]
    assert not [name for name in (b"Askew", b"Ottoline", b"Bertram", b"wedding") if name in answer.content]  # type: ignore[attr-defined]


def test_the_desk_sees_the_house_and_a_stranger_to_the_set_nothing(house: House) -> None:
    house.book()
    assert len(events(fetch(calendars.make_address(member=house.desk)))) == 1
    idle = cast.make_member("photographer", name="Nell Orrin")
    assert events(fetch(calendars.make_address(member=idle))) == []


def test_unchanged_it_is_not_sent_again_and_a_move_shows_at_once(house: House) -> None:
    sitting = house.book()
    secret = calendars.make_address(member=house.desk)
    mark = fetch(secret)["ETag"]  # type: ignore[index]
    assert fetch(secret, if_none_match=mark).status_code == 304  # type: ignore[attr-defined]
    sittings.change_stage(by=house.desk, sitting=again(sitting), to=Stage.CONFIRMED)
    assert fetch(secret, if_none_match=mark).status_code == 200  # type: ignore[attr-defined]
    sittings.change_stage(by=house.desk, sitting=again(sitting), to=Stage.CANCELLED, note="rang")
    assert events(fetch(secret)) == []


def test_it_takes_as_many_queries_for_many_as_for_one(house: House, django_assert_num_queries: object) -> None:
    secret = calendars.make_address(member=house.members["photographer"])
    for n in range(3):
        house.book(starts_at=at(9, 30, days=n))
    with django_assert_num_queries(4):  # type: ignore[operator]
        fetch(secret)


def test_revoked_replaced_or_guessed_it_shows_nothing(house: House) -> None:
    first = calendars.make_address(member=house.desk)
    second = calendars.make_address(member=house.desk)
    assert [fetch(one).status_code for one in (first, second, "x" * 32, second.swapcase())] == [404, 200, 404, 404]  # type: ignore[attr-defined]
    calendars.revoke_address(member=house.desk)
    assert fetch(second).status_code == 404  # type: ignore[attr-defined]


def test_whoever_has_left_the_house_sees_nothing(house: House) -> None:
    secret = calendars.make_address(member=house.desk)
    house.desk.active = False
    house.desk.save()
    assert fetch(secret).status_code == 404  # type: ignore[attr-defined]


def test_a_member_makes_copies_and_revokes_their_own(house: House) -> None:
    visitor = Visitor(cast.client_of(house.desk))
    visitor.open("/diary/")
    visitor.follow("My sittings in a telephone's calendar")
    page = visitor.press("Make an address")
    address = page.html.split('id="address" value="')[1].split('"')[0]
    assert Client().get(address.removeprefix("http://127.0.0.1:8000")).status_code == 200
    assert address not in visitor.open("/calendar/").html
    visitor.press("Revoke the address")
    assert Client().get(address.removeprefix("http://127.0.0.1:8000")).status_code == 404
