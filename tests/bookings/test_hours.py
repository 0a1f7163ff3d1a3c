"""Opening hours, working hours and days off: kept by the owner, read by the bookings."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from django.db import IntegrityError, connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext

from bookings import hours
from bookings.models import Sitting
from bookings.objections import objections
from studio.models import DaysOff, Week, WeekDay
from tests import cast
from tests.bookings.making import House, at
from tests.studio.forms import opened

THURSDAY = date(2026, 12, 3)
LONDON = ZoneInfo("Europe/London")


def week_of(member_id: int | None, **times: tuple[int, int]) -> Week:
    """A week with these days, as `thursday=(10, 16)`."""
    week = Week.objects.create(member_id=member_id)
    names = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    for name, (start, end) in times.items():
        WeekDay.objects.create(
            week=week, weekday=names.index(name), from_time=time(start), to_time=time(end % 24)
        )
    return week


def sitting(house: House, **changes: object) -> Sitting:
    values = {
        "kind": house.kind, "room": house.room, "photographer": house.members["photographer"],
        "assistant": house.members["assistant"], "starts_at": at(9, 30), "minutes": 75,
        "setup_minutes": 30, "strike_minutes": 15,
    }  # fmt: skip
    return Sitting(**(values | changes))


def codes(row: Sitting, ages: list[float | None]) -> list[str]:
    return [one.code for one in objections(hours.asked_of(row, ages))]


def test_out_of_the_box_the_house_is_open_monday_to_saturday(house: House) -> None:
    table = hours.timetable(date(2026, 11, 30), date(2026, 12, 6), [], UTC)
    spans = table.open(date(2026, 11, 30), date(2026, 12, 6))
    assert [(span.starts_at.day, span.starts_at.hour, span.ends_at.hour) for span in spans] == [
        (30, 8, 19), (1, 8, 19), (2, 8, 19), (3, 8, 19), (4, 8, 19), (5, 8, 19)
    ]  # fmt: skip
    assert codes(sitting(house), [66, 70]) == []
    assert codes(sitting(house, starts_at=at(9, 30, days=3)), [66, 70]) == ["closed"]


def test_people_without_hours_work_as_the_house_and_others_as_they_say(house: House) -> None:
    tobiah, ines = house.members["photographer"], house.members["assistant"]
    week_of(None, thursday=(9, 24))
    week_of(ines.pk, thursday=(10, 16))
    table = hours.timetable(THURSDAY, THURSDAY, [tobiah.pk, ines.pk], UTC)
    assert table.working(tobiah.pk, THURSDAY, THURSDAY) == table.open(THURSDAY, THURSDAY)
    assert table.open(THURSDAY, THURSDAY)[0].ends_at == datetime(2026, 12, 4, tzinfo=UTC)
    assert codes(sitting(house), [66, 70]) == [f"off_{ines.pk}"]
    assert codes(sitting(house, assistant=None), [66, 70]) == []
    assert codes(sitting(house, starts_at=at(22)), [66, 70]) == [f"off_{ines.pk}"]


def test_days_off_count_from_midnight_to_midnight_of_the_studio(house: House) -> None:
    row = DaysOff.objects.create(first_day=THURSDAY, last_day=THURSDAY, words="a funeral in town")
    [one] = objections(hours.asked_of(sitting(house), [66, 70]))
    assert (one.code, one.sentence) == ("closed", "The house is closed then: a funeral in town.")
    assert codes(sitting(house, starts_at=at(9, 30, days=1)), [66, 70]) == []
    row.member = house.members["photographer"]
    row.save()
    assert codes(sitting(house), [66, 70]) == [f"off_{row.member.pk}"]


def test_opening_hours_follow_the_clock_on_the_wall_over_its_changes(house: House) -> None:
    week_of(None, saturday=(8, 19), sunday=(1, 4))
    spring = hours.timetable(date(2027, 3, 27), date(2027, 3, 28), [], LONDON)
    [saturday, sunday] = spring.open(spring.first, spring.last)
    assert saturday.starts_at.hour == 8  # GMT
    assert sunday.length.total_seconds() == 2 * 3600  # 02:00 is not there
    autumn = hours.timetable(date(2026, 10, 25), date(2026, 10, 25), [], LONDON)
    [sunday] = autumn.open(autumn.first, autumn.last)
    assert sunday.length.total_seconds() == 4 * 3600  # 01:00 is there twice
    assert [one.tzinfo for one in (sunday.starts_at, sunday.ends_at)] == [UTC, UTC]


def test_what_is_asked_costs_four_queries_at_most(house: House) -> None:
    for member in house.members.values():
        week_of(member.pk, thursday=(8, 19))
        DaysOff.objects.create(member=member, first_day=date(2026, 12, 24), last_day=date(2026, 12, 26))
    row = sitting(house)
    with CaptureQueriesContext(connection) as queries:
        hours.asked_of(row, [66, 70])
    assert len(queries) <= 4


def test_the_database_keeps_one_week_of_the_house_and_days_in_order(house: House) -> None:
    Week.objects.create()
    with pytest.raises(IntegrityError), transaction.atomic():
        Week.objects.create()
    with pytest.raises(IntegrityError), transaction.atomic():
        DaysOff.objects.create(first_day=THURSDAY, last_day=date(2026, 12, 2))


@pytest.fixture
def owner(house: House) -> Client:
    return cast.client_of(house.members["owner"])


def test_the_owner_changes_the_opening_hours(owner: Client) -> None:
    form = opened(owner, "/studio/hours/week/")
    assert (form["from_0"], form["to_0"], form["from_6"]) == ("08:00", "19:00", "")
    assert owner.post("/studio/hours/week/", form | {"from_6": "10:00", "to_6": "00:00"}).status_code == 302
    assert Week.objects.get().hours[6] == (time(10), time())
    page = owner.get("/studio/hours/").content.decode()
    assert "10:00\N{EN DASH}00:00" in page
    assert hours.timetable(THURSDAY, date(2026, 12, 6), [], UTC).open(date(2026, 12, 6), date(2026, 12, 6))


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"to_0": ""}, "Give both times, or neither on a day that is free."),
        ({"from_0": ""}, "Give both times, or neither on a day that is free."),
        ({"to_0": "08:00"}, "This is not after the beginning."),
        ({"from_0": "eight"}, "Enter a valid time."),
    ],
)
def test_a_day_that_cannot_be_is_told_and_kept(owner: Client, typed: dict[str, str], said: str) -> None:
    form = opened(owner, "/studio/hours/week/") | {"from_6": "11:11", "to_6": "12:12"} | typed
    page = owner.post("/studio/hours/week/", form).content.decode()
    assert said in page
    assert "11:11" in page
    assert not Week.objects.exists()


def test_two_owners_at_one_week_the_second_sees_what_differs(owner: Client) -> None:
    week_of(None, monday=(9, 17))
    form = opened(owner, "/studio/hours/week/")
    assert owner.post("/studio/hours/week/", form | {"to_0": "18:00"}).status_code == 302
    page = owner.post("/studio/hours/week/", form | {"to_0": "12:00"}).content.decode()
    assert "Somebody else saved this while you had it open." in page
    assert Week.objects.get().hours[0] == (time(9), time(18))


def test_a_member_gets_hours_of_their_own_and_loses_them_again(owner: Client, house: House) -> None:
    ines = house.members["assistant"]
    address = f"/studio/hours/week/{ines.pk}/"
    form = opened(owner, address)
    assert form["from_0"] == "08:00"
    owner.post(address, form | {"from_0": "12:00"})
    assert Week.objects.get(member=ines).hours[0] == (time(12), time(19))
    assert "Monday 12:00\N{EN DASH}19:00" in owner.get("/studio/hours/").content.decode()
    owner.post(f"{address}as-the-house/")
    assert not Week.objects.exists()


def test_days_off_are_entered_changed_and_taken_out(owner: Client, house: House) -> None:
    form = opened(owner, "/studio/hours/off/new/")
    form |= {"member": "", "first_day": "2026-12-24", "last_day": "2027-01-02", "words": "between the years"}
    assert owner.post("/studio/hours/off/new/", form).status_code == 302
    row = DaysOff.objects.get()
    assert "between the years" in owner.get("/studio/hours/").content.decode()
    address = f"/studio/hours/off/{row.pk}/"
    form = opened(owner, address)
    owner.post(address, form | {"last_day": "2027-01-03"})
    row.refresh_from_db()
    assert row.last_day == date(2027, 1, 3)
    page = owner.post(address, form | {"remove": "1"}).content.decode()  # opened before it was changed
    assert "Somebody else saved this while you had it open." in page
    assert owner.post(address, opened(owner, address) | {"remove": "1"}).status_code == 302
    assert not DaysOff.objects.exists()


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"last_day": "2026-12-23"}, "The last day comes before the first."),
        ({"first_day": "1999-12-31"}, "Give a day between 2000 and 2100."),
        ({"last_day": "2026-02-29"}, "Enter a valid date."),
        ({"words": "a" * 81}, "at most 80 characters"),
        ({"member": "999"}, "Select a valid choice."),
    ],
)
def test_days_off_that_cannot_be_are_told(owner: Client, typed: dict[str, str], said: str) -> None:
    form = opened(owner, "/studio/hours/off/new/") | {"first_day": "2026-12-24", "last_day": "2026-12-24"}
    assert said in owner.post("/studio/hours/off/new/", form | typed).content.decode()
    assert not DaysOff.objects.exists()
