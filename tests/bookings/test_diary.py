"""The diary: a day of rooms and people on one page."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from django.contrib.staticfiles import finders
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from bookings import calendar
from bookings.actions import sittings
from bookings.models import Client
from studio.access import EVERY_ROLE
from studio.models import DaysOff, Profile
from tests import cast
from tests.bookings.making import House, at
from tests.bookings.test_hours import week_of

DAY = {"day": "2026-12-03"}


def lane(house: House, name: str, *, hour: int = 12) -> list[tuple[str, str, int, int]]:
    """One lane of 3 December as (what, times, row, rows)."""
    day = calendar.day(date(2026, 12, 3), now=at(hour))
    [found] = [one for one in [*day.rooms, *day.people] if one.name == name]
    return [(b.what, f"{b.span.starts_at:%H:%M}-{b.span.ends_at:%H:%M}", b.row, b.rows) for b in found.blocks]


def test_a_room_shows_set_up_sitting_strike_and_the_gaps_between(house: House) -> None:
    house.book()
    assert lane(house, "Long Room") == [
        ("gap", "08:00-09:00", 0, 4),
        ("set-up", "09:00-09:30", 4, 2),
        ("sitting", "09:30-10:45", 6, 5),
        ("strike", "10:45-11:00", 11, 1),
        ("gap", "11:00-19:00", 12, 32),
    ]
    assert lane(house, "Tobiah Renn")[1:3] == [("set-up", "09:15-09:30", 5, 1), ("sitting", "09:30-10:45", 6, 5)]


def test_the_day_reaches_as_far_as_what_is_booked(house: House) -> None:
    house.book(starts_at=at(6, 50), strike_minutes=0)
    house.book(starts_at=at(22, 30), minutes=120)
    assert lane(house, "Long Room")[0] == ("closed", "06:00-06:20", 0, 1)
    assert lane(house, "Long Room")[3:7] == [
        ("gap", "08:05-19:00", 8, 44),
        ("closed", "19:00-22:00", 52, 12),
        ("set-up", "22:00-22:30", 64, 2),
        ("sitting", "22:30-00:00", 66, 6),
    ]


def test_what_crosses_midnight_stands_on_both_days(house: House) -> None:
    house.book(starts_at=at(23), minutes=120, assistant=None)
    assert lane(house, "Long Room")[-1] == ("sitting", "23:00-00:00", 60, 4)
    following = calendar.day(date(2026, 12, 4), now=at(12))
    assert [(b.what, b.row, b.rows) for b in following.rooms[1].blocks][:2] == [("sitting", 0, 4), ("strike", 4, 1)]


def test_the_day_is_shown_as_the_house_is_open_and_closed_time_says_why(house: House) -> None:
    week_of(None, thursday=(10, 16))
    tobiah = house.members["photographer"]
    DaysOff.objects.create(member=tobiah, first_day=at(0).date(), last_day=at(0).date(), words="away")
    assert lane(house, "Long Room") == [("gap", "10:00-16:00", 0, 24)]
    assert lane(house, "Tobiah Renn") == [("closed", "10:00-16:00", 0, 24)]
    page = cast.client_of(house.desk).get("/diary/", DAY).content.decode()
    assert "Open 10:00 to 16:00." in page
    assert "away 10:00" in page
    assert re.search(r"\bfree \d", page)
    DaysOff.objects.create(first_day=at(0).date(), last_day=at(0).date(), words="summer closing")
    page = cast.client_of(house.desk).get("/diary/", DAY).content.decode()
    assert "Closed: summer closing." in page
    assert not re.search(r"\bfree \d", page)  # no time to press
    page = cast.client_of(house.desk).get("/diary/", {"day": "2026-12-04"}).content.decode()
    assert "Closed on this day of the week." in page


def test_a_hold_is_dashed_with_its_end_and_a_second_one_waits_beside_it(house: House) -> None:
    first = house.book()
    house.book(client=Client(name="Juno Tarrant"), behind=first, assistant=None)
    page = cast.client_of(house.desk).get("/diary/", DAY).content.decode()
    end = timezone.localtime(first.hold.expires_at)
    assert f"held until {end:%a} {end.day} {end:%b, %H:%M}" in page
    assert page.count("place 2 behind L-0001") == 2  # the room and the photographer
    assert [what for what, *_ in lane(house, "Long Room")][1:5] == ["set-up", "sitting", "waiting", "strike"]
    assert re.search(r'class="sitting held has-waiting from-6 for-5"', page)
    assert re.search(r'class="sitting held waiting from-6 for-5"', page)


def test_a_hold_that_lapsed_says_so(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    sitting = house.book()
    monkeypatch.setattr("studio.clock.now", lambda: sitting.hold.expires_at)
    assert "the hold lapsed" in cast.client_of(house.desk).get("/diary/", DAY).content.decode()


def test_a_week_goes_from_monday_to_sunday_by_room_person_or_one_of_them(house: House) -> None:
    house.book()
    house.book(starts_at=at(6, 50, days=2), client=Client(name="Wren Pell"), room=house.other_room)
    days = calendar.week(date(2026, 12, 6), now=at(12))
    assert [day.date.day for day in days] == [30, 1, 2, 3, 4, 5, 6]
    assert {(day.span.starts_at.hour, len(day.hours)) for day in days} == {(6, 13)}
    browser = cast.client_of(house.desk)
    rooms = browser.get("/diary/week/", DAY).content.decode()
    assert (rooms.count("<b>Askew</b>"), rooms.count(">Long Room</span></a></h3>")) == (1, 7)
    people = browser.get("/diary/week/", DAY | {"by": "people"}).content.decode()
    assert (people.count("<b>Askew</b>"), people.count(">Tobiah Renn</span></a></h3>")) == (2, 7)
    one = browser.get("/diary/week/", DAY | {"only": f"room-{house.other_room.pk}"}).content.decode()
    assert (one.count("<b>Askew</b>"), one.count("<b>Pell</b>")) == (0, 1)
    assert one.count('title="Pell"><span') == 1, "a narrow lane cuts the name, its title says it whole"
    for junk in ({"by": "both"}, {"by": "\x00"}, {"only": "room-x"}, {"day": "9999-99-99"}):
        assert browser.get("/diary/week/", junk).status_code == 200


@pytest.mark.parametrize("zone", ["Europe/London", "America/New_York", "Australia/Lord_Howe", "Pacific/Apia"])
def test_weeks_in_which_the_clocks_change_are_shown_whole(house: House, zone: str) -> None:
    Profile.objects.update(time_zone=zone)
    week_of(None, sunday=(0, 24), saturday=(8, 19))
    browser = cast.client_of(house.desk)
    for day in ("2027-03-28", "2026-10-25", "2027-03-14", "2026-11-01", "2027-04-04", "2026-10-04"):
        assert browser.get("/diary/week/", {"day": day}).status_code == 200
        assert browser.get("/diary/", {"day": day}).status_code == 200
    with timezone.override(zone):
        lengths = [len(calendar.day(date.fromisoformat(day), now=at(0)).hours) for day in ("2027-03-28", "2026-10-25")]
    assert lengths == {"Europe/London": [23, 25]}.get(zone, [24, 24])


def test_a_day_on_which_the_clocks_change_is_shown_whole(house: House) -> None:
    Profile.objects.update(time_zone="Europe/London")
    browser = cast.client_of(house.desk)
    for day in ("2027-03-28", "2026-10-25"):
        assert browser.get("/diary/", {"day": day}).status_code == 200


@pytest.mark.parametrize("role", EVERY_ROLE)
def test_everybody_sees_names_and_only_the_desk_is_offered_the_gaps(house: House, role: str) -> None:
    house.book()
    page = cast.client_of(house.members[role]).get("/diary/", DAY).content.decode()
    assert "Thursday 3 December 2026" in page
    assert page.count("<b>Askew</b>") == 3
    is_desk = role == "front_desk"
    for asks, row, time in (
        ("room", house.room, "11:30"),  # the gap from 11:00 on, its usual set-up before it
        ("photographer", house.members["photographer"], "11:15"),
        ("assistant", house.members["assistant"], "11:30"),
    ):
        assert (f'href="/sittings/new/?{asks}={row.pk}&amp;day=2026-12-03&amp;at={time}"' in page) == is_desk
    assert ('data-number="L-0001"' in page, "Next free times" in page) == (is_desk, is_desk)
    for day in ("2026-12-02", "2026-12-04"):
        assert f'href="/diary/?day={day}&amp;by=both"' in page


def test_rooms_or_people_are_shown_alone(house: House) -> None:
    house.book()
    browser = cast.client_of(house.desk)
    assert browser.get("/diary/", DAY | {"by": "rooms"}).content.decode().count("<b>Askew</b>") == 1
    assert browser.get("/diary/", DAY | {"by": "people"}).content.decode().count("<b>Askew</b>") == 2
    assert browser.get("/diary/", DAY | {"by": "junk"}).content.decode().count("<b>Askew</b>") == 3


def test_a_gap_too_short_for_a_sitting_is_not_offered(house: House) -> None:
    house.book(starts_at=at(8, 50), setup_minutes=20)
    page = cast.client_of(house.desk).get("/diary/", DAY).content.decode()
    assert "free 08:00 to 08:30" not in page
    assert "free 10:20 to 19:00" in page


def test_a_cancelled_sitting_leaves_the_diary(house: House) -> None:
    sittings.change_stage(by=house.desk, sitting=house.book(), to="cancelled", note="moved away")
    assert "Nothing is booked on this day." in cast.client_of(house.desk).get("/diary/", DAY).content.decode()


def test_now_is_an_ink_rule_in_every_lane_with_its_time_beside_the_hours(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("studio.clock.now", lambda: at(12, 20))
    page = cast.client_of(house.desk).get("/diary/").content.decode()
    hours, lanes = page.split("</ol>", 1)
    assert re.search(r'class="now from-17 for-1"><span>12:20<', hours)
    assert lanes.count('class="now from-17 for-1"') == 4  # two rooms and two people, and no words over what is booked
    assert "<span>12:20<" not in lanes


def test_rows_of_the_page_have_their_rule_in_the_style_sheet() -> None:
    css = Path(finders.find("bookings/diary.css")).read_text(encoding="utf-8")
    assert all(f".from-{n} {{" in css and f".for-{n + 1} {{" in css for n in range(100))


@pytest.mark.parametrize("junk", ["", "x", "2026-12-40", "0001-01-01", "9999-12-31", "\x00", "2026-W01-1", "9" * 40])
def test_a_day_that_is_none_is_today(house: House, junk: str) -> None:
    assert cast.client_of(house.desk).get("/diary/", {"day": junk}).status_code == 200


@pytest.mark.parametrize("address", ["/diary/", "/diary/week/"])
def test_a_full_diary_asks_the_database_no_more_often_than_an_empty_one(house: House, address: str) -> None:
    browser = cast.client_of(house.desk)

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            browser.get(address, DAY)
        return len(queries)

    empty = asked()
    changes: list[dict[str, Any]] = [
        {"client": Client(name=f"Client {n}"), "starts_at": at(8 + 2 * n, 30)} for n in range(5)
    ]
    for change in changes:
        first = house.book(minutes=60, **change)
        house.book(minutes=60, **change | {"client": Client(name="Behind"), "behind": first})
    assert asked() <= empty + 1 <= 14  # the sittings themselves, where there are any


def test_what_is_asked_of_the_claims_is_answered_from_an_index(house: House) -> None:
    """On SQLite, whose planner says what it does; PostgreSQL chooses by its statistics."""
    with CaptureQueriesContext(connection) as queries:
        calendar.week(date(2026, 12, 3), now=at(12))
    [claims] = [one["sql"] for one in queries if 'FROM "bookings_claim"' in one["sql"]]
    waiting = next(one["sql"] for one in queries if '"place" > ' in one["sql"])
    if connection.vendor == "sqlite":
        assert "SEARCH bookings_claim USING INDEX claim_by_time (starts_at>? AND starts_at<?)" in plan(claims)
        indexes = "bookings_sitting USING INDEX (sitting_by_time|sitting_by_stage|sqlite_autoindex|.*hold)"
        assert re.search(indexes, plan(waiting))


def plan(sql: str) -> str:
    with connection.cursor() as cursor:
        cursor.execute(f"EXPLAIN QUERY PLAN {sql}")
        return "\n".join(str(row[-1]) for row in cursor.fetchall())
