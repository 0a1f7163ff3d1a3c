"""Next free times: room, people and hours together, and what stands in the way."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from bookings import fits
from bookings.fits import Found, Search
from bookings.models import Claim, Client, ResourceKind
from studio.models import DaysOff, Profile
from tests import cast
from tests.bookings.making import House, at
from tests.bookings.test_hours import week_of

NOW = at(7)
LONDON = ZoneInfo("Europe/London")


@pytest.fixture(autouse=True)
def morning(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("studio.clock.now", lambda: NOW)


def find(house: House, **changes: Any) -> Found:
    """Ninety minutes in the Long Room with Tobiah, on 3 December, but for `changes`."""
    values = {
        "minutes": 90, "setup_minutes": 30, "strike_minutes": 15, "rooms": [house.room],
        "photographers": [house.members["photographer"]], "assistant": None,
        "first": date(2026, 12, 3), "last": date(2026, 12, 3), "weekdays": (),
        "earliest": time(), "latest": time(23, 59), "zone": UTC, "now": NOW,
    }  # fmt: skip
    return fits.find(Search(**(values | changes)))


def times(found: Found) -> list[str]:
    return [f"{fit.start:%d %H:%M}-{fit.latest:%H:%M} {fit.room.name.split()[0]}" for fit in found.fits]


def test_an_empty_day_is_one_gap_with_set_up_and_strike_inside_the_opening_hours(house: House) -> None:
    assert times(find(house)) == ["03 08:30-17:15 Long"]


def test_gaps_lie_around_what_is_booked(house: House) -> None:
    house.book()  # room and assistant 09:00-11:00, photographer 09:15-10:45
    assert times(find(house)) == ["03 11:30-17:15 Long"]
    assert times(find(house, minutes=15, setup_minutes=15)) == ["03 08:15-08:30 Long", "03 11:15-18:30 Long"]
    assert times(find(house, rooms=[house.other_room])) == ["03 11:00-17:15 Garden"]


def test_a_start_is_on_the_quarter_where_it_can_be_and_else_just_fits(house: House) -> None:
    house.book(starts_at=at(8, 37), setup_minutes=7, minutes=20, strike_minutes=3)
    house.book(starts_at=at(11, 49), setup_minutes=19, minutes=20, client=Client(name="Wren Pell"))
    assert times(find(house, minutes=60))[0] == "03 09:30-10:15 Long"
    assert times(find(house, minutes=60, setup_minutes=34))[0] == "03 09:45-10:15 Long"
    assert times(find(house, minutes=85, setup_minutes=34))[0] == "03 09:45-09:50 Long"
    assert times(find(house, minutes=101, setup_minutes=34))[0] == "03 09:34-09:34 Long"


def test_any_room_and_any_photographer_gives_each_room_once(house: House) -> None:
    second = cast.make_member("photographer", name="Orla Finch", short="OF")
    house.book()
    everything = {
        "rooms": [house.room, house.other_room], "photographers": [house.members["photographer"], second]
    }  # fmt: skip
    found = find(house, **everything)
    assert times(found) == ["03 08:30-17:15 Garden", "03 11:30-17:15 Long"]
    assert found.fits[0].photographer == second


def test_the_assistant_is_needed_from_set_up_to_strike_and_is_no_photographer_at_once(house: House) -> None:
    ines = house.members["assistant"]
    week_of(ines.pk, thursday=(10, 16))
    assert times(find(house, assistant=ines)) == ["03 10:30-14:15 Long"]
    tobiah = house.members["photographer"]
    assert find(house, assistant=tobiah).fits == []


def test_weekdays_parts_of_the_day_and_the_present_are_kept_to(house: House) -> None:
    saturdays = find(house, last=date(2027, 1, 31), weekdays={5})
    assert {fit.start.weekday() for fit in saturdays.fits} == {5}
    assert len(saturdays.fits) == 9
    assert times(find(house, earliest=time(12), latest=time(16, 59))) == ["03 12:00-16:59 Long"]
    assert times(find(house, now=at(12, 7))) == ["03 12:15-17:15 Long"]
    assert find(house, now=at(20)).why_not == (
        "Nothing fits on the one day there is: the house is not open long enough."
    )


def test_no_more_than_ten_free_times_are_found_the_earliest_first(house: House) -> None:
    found = find(house, last=date(2027, 6, 1))
    assert len(found.fits) == 10
    assert found.fits == sorted(found.fits, key=lambda fit: fit.start)


def test_what_stands_in_the_way_most_is_said(house: House) -> None:
    span = {"first": date(2026, 12, 5), "last": date(2026, 12, 12), "weekdays": {5}}
    for days in (2, 9):
        house.book(starts_at=at(8, 30, days=days), minutes=600, photographer=house.members["owner"], assistant=None)
    assert find(house, **span).why_not == (
        "Nothing fits on any of 2 days. What stands in the way most: Long Room is taken, on 2 of them."
    )
    DaysOff.objects.create(member=house.members["photographer"], first_day=at(0).date(), last_day=at(0, days=9).date())
    said = find(house, rooms=[house.other_room], **span).why_not
    assert said.endswith("Tobiah Renn is taken or off, on 2 of them.")
    DaysOff.objects.create(first_day=at(0).date(), last_day=at(0, days=9).date())
    assert "the house is not open long enough" in find(house, **span).why_not
    assert find(house, weekdays={6}).why_not == "There is no such weekday between those two days."


def test_room_and_people_that_are_free_at_different_times_are_said_to_be_so(house: House) -> None:
    house.book(starts_at=at(8, 30), minutes=240, photographer=house.members["owner"], assistant=None)
    house.book(
        starts_at=at(13, 15), minutes=240, room=house.other_room, assistant=None, client=Client(name="Wren Pell")
    )
    assert find(house).why_not.endswith("room and people are free at different times.")


def test_a_sitting_may_reach_over_midnight_where_the_house_is_open(house: House) -> None:
    week_of(None, thursday=(18, 24), friday=(0, 3))
    assert times(find(house)) == ["03 18:30-23:59 Long"]
    house.book(starts_at=at(0, 30, days=1), minutes=60, setup_minutes=15, acknowledged=["off_1", "off_2", "off_3"])
    assert times(find(house)) == ["03 18:30-22:30 Long"]


def test_starts_on_the_days_the_clocks_change_are_there(house: House) -> None:
    week_of(None, sunday=(0, 6))
    common = {"zone": LONDON, "minutes": 30, "setup_minutes": 0, "strike_minutes": 0, "now": at(0, days=-300)}
    for day in (date(2026, 10, 25), date(2027, 3, 28)):
        [fit] = find(house, first=day, last=day, **common).fits
        assert fit.start.astimezone(LONDON).replace(tzinfo=None) == datetime.combine(day, time(0, 15))
        an_hour = timedelta(hours=1 if day.month == 10 else -1)
        assert fit.latest - fit.start == timedelta(hours=5, minutes=15) + an_hour


def test_a_year_asks_the_database_no_more_often_than_a_day(house: House) -> None:
    house.book()

    def asked(**changes: Any) -> int:
        with CaptureQueriesContext(connection) as queries:
            find(house, minutes=700, **changes)  # fits nowhere: every day is looked at
        return len(queries)

    one = asked()
    Claim.objects.bulk_create(
        Claim(
            sitting_id=Claim.objects.first().sitting_id,
            resource_kind=ResourceKind.ROOM,
            resource_id=house.room.pk,
            starts_at=at(9, days=number),
            ends_at=at(11, days=number),
        )
        for number in range(1, 360)
    )
    assert asked(last=date(2027, 12, 2)) == one <= 4


PAGE = "/diary/gaps/"
ASKED = {"kind": "", "minutes": "90", "first": "2027-05-01", "last": "2027-05-31", "part": "any", "weekdays": ["5"]}


def test_ninety_minutes_long_room_tobiah_a_saturday_in_may(house: House) -> None:
    browser = cast.client_of(house.desk)
    wish = ASKED | {"room": house.room.pk, "photographer": house.members["photographer"].pk}
    page = browser.get(PAGE, wish).content.decode()
    found = re.findall(r'href="(/sittings/new/\?[^"]+)">([^<]+)<', page)
    assert [words for _address, words in found] == [
        f"Saturday {day} May 2027, 08:30" for day in (1, 8, 15, 22, 29)
    ]
    form = browser.get(found[0][0].replace("&amp;", "&")).content.decode()
    for name, value in (("day", "2027-05-01"), ("time", "08:30"), ("minutes", "90"), ("setup_minutes", "30")):
        assert re.search(rf'name="{name}"[^>]*value="{value}"|value="{value}"[^>]*name="{name}"', form), name


def test_a_kind_fills_its_times(house: House) -> None:
    page = cast.client_of(house.desk).get(PAGE, ASKED | {"kind": house.kind.pk, "minutes": ""}).content.decode()
    assert "minutes=75&amp;setup_minutes=30&amp;strike_minutes=15" in page


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"minutes": ""}, "Say how long, or choose a kind of sitting."),
        ({"minutes": "long"}, "Enter a whole number."),
        ({"last": "2027-04-30"}, "The last day comes before the first."),
        ({"last": "2028-06-01"}, "Look through a year at most."),
        ({"first": "0001-01-01"}, "Give a day between 2000 and 2100."),
        ({"part": "night"}, "Select a valid choice."),
        ({"weekdays": ["9"]}, "Select a valid choice."),
        ({"room": "99999999999999999999"}, "Select a valid choice."),
    ],
)
def test_what_cannot_be_looked_for_is_told(house: House, typed: dict[str, Any], said: str) -> None:
    page = cast.client_of(house.desk).get(PAGE, ASKED | typed)
    assert page.status_code == 200
    assert said in page.content.decode()


def test_nobody_is_looked_for_as_photographer_and_assistant_at_once(house: House) -> None:
    both = cast.make_member("photographer", "assistant", name="Orla Finch", short="OF")
    page = cast.client_of(house.desk).get(PAGE, ASKED | {"photographer": both.pk, "assistant": both.pk})
    assert "Orla Finch is the photographer of this sitting and cannot be its assistant too." in page.content.decode()


def test_it_opens_on_today_or_the_day_of_the_diary(house: House) -> None:
    browser = cast.client_of(house.desk)
    assert 'value="2026-12-03"' in browser.get(PAGE).content.decode()
    assert 'value="2027-02-01"' in browser.get(PAGE, {"from": "2027-02-01"}).content.decode()
    assert 'value="2026-12-03"' in browser.get(PAGE, {"from": "junk"}).content.decode()


def test_the_words_of_a_day_are_in_the_studio_s_zone(house: House) -> None:
    Profile.objects.update(time_zone="Europe/London")
    page = cast.client_of(house.desk).get(PAGE, ASKED).content.decode()
    assert "Saturday 1 May 2027, 08:30" in page
