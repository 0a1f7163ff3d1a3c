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

from bookings import calendar
from bookings.actions import sittings
from bookings.models import Client
from studio.access import EVERY_ROLE
from studio.models import Profile
from tests import cast
from tests.bookings.making import House, at

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
    assert lane(house, "Long Room")[0] == ("gap", "06:00-06:20", 0, 1)
    assert lane(house, "Long Room")[-1] == ("sitting", "22:30-00:00", 66, 6)


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
    offered = f'href="/sittings/new/?room={house.room.pk}&amp;day=2026-12-03&amp;at=11:00"'
    assert (offered in page) == (role == "front_desk")
    assert ('href="?day=2026-12-02"' in page, 'href="?day=2026-12-04"' in page) == (True, True)


def test_a_gap_too_short_for_a_sitting_is_not_offered(house: House) -> None:
    house.book(starts_at=at(8, 50), setup_minutes=20)
    page = cast.client_of(house.desk).get("/diary/", DAY).content.decode()
    assert "free 08:00 to 08:30" not in page
    assert "free 10:20 to 19:00" in page


def test_a_cancelled_sitting_leaves_the_diary(house: House) -> None:
    sittings.change_stage(by=house.desk, sitting=house.book(), to="cancelled", note="moved away")
    assert "Nothing is booked on this day." in cast.client_of(house.desk).get("/diary/", DAY).content.decode()


def test_now_is_an_ink_rule_with_the_time_on_it(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("studio.clock.now", lambda: at(12, 20))
    page = cast.client_of(house.desk).get("/diary/").content.decode()
    assert re.search(r'class="now from-17 for-1"><span>12:20<', page)


def test_rows_of_the_page_have_their_rule_in_the_style_sheet() -> None:
    css = Path(finders.find("bookings/diary.css")).read_text(encoding="utf-8")
    assert all(f".from-{n} {{" in css and f".for-{n + 1} {{" in css for n in range(100))


@pytest.mark.parametrize("junk", ["", "x", "2026-12-40", "0001-01-01", "9999-12-31", "\x00", "2026-W01-1", "9" * 40])
def test_a_day_that_is_none_is_today(house: House, junk: str) -> None:
    assert cast.client_of(house.desk).get("/diary/", {"day": junk}).status_code == 200


def test_a_full_day_asks_the_database_no_more_often_than_an_empty_one(house: House) -> None:
    browser = cast.client_of(house.desk)

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            browser.get("/diary/", DAY)
        return len(queries)

    empty = asked()
    changes: list[dict[str, Any]] = [
        {"client": Client(name=f"Client {n}"), "starts_at": at(8 + 2 * n, 30)} for n in range(5)
    ]
    for change in changes:
        house.book(minutes=60, **change)
    assert asked() == empty <= 9
