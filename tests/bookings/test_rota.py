"""Order and times of a rota, and how late it gets: held against the trade's own rules, a table of figures computed
elsewhere, and days played out by lot."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from statistics import mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings import rota, rota_forecast
from bookings.objections import catch_up_minutes, needed_minutes
from bookings.rota import Person, Times
from bookings.rota_forecast import Queued
from bookings.slots import overlaps

START = datetime(2026, 12, 3, 11, 30, tzinfo=UTC)
MINUTE = timedelta(minutes=1)
MARROWFIELD = [
    Person("Corin", part="leader"), Person("Delphine", part="leader"), Person("Ambrose", together=True),
    Person("Nell", steady=True), Person("Osric", floor=True), Person("Thandie"), Person("Willem", part="reference"),
    Person("Sunniva"), Person("Rafe"), Person("Imogen", together=True), Person("Jabari"), Person("Lotta"),
    Person("Piran"), Person("Mirela"),
]  # fmt: skip


def at(hour: int, minute: int = 0) -> datetime:
    return START.replace(hour=hour, minute=minute)


def ordered(people: list[Person], **times: object) -> tuple[list[str], list[str]]:
    """Names in their order, and the codes of what is not as it should be."""
    table = rota.timetable(len(people), Times(START, **times))  # type: ignore[arg-type]
    line = rota.order(people, table)
    return [one.name for one in line], [one.code for one in rota.deviations(line, table)]


def numbered(count: int) -> list[Person]:
    return [Person(f"P{n}") for n in range(1, count + 1)]


def test_fourteen_headshots_take_what_the_demo_booked_with_gaps_after_five_and_ten() -> None:
    table = rota.timetable(14, Times(START))
    assert (table.ends_at - START) / MINUTE == 160
    assert table.before_gaps == [5, 10]


@pytest.mark.parametrize("people", range(1, 61))
def test_a_rota_without_lunch_is_as_long_as_the_desk_is_told_to_book(people: int) -> None:
    length = (rota.timetable(people, Times(START)).ends_at - START) / MINUTE
    assert length == needed_minutes(people, 0, in_turn=True) + catch_up_minutes(people)


def test_the_order_of_the_day_is_the_trade_s_own() -> None:
    names, wrong = ordered(MARROWFIELD)
    assert names[:5] == ["Nell", "Willem", "Corin", "Delphine", "Osric"]  # the floor is cleared before the gap
    assert names[5:7] == ["Ambrose", "Imogen"]
    assert wrong == []


def test_who_is_at_ease_goes_first_and_who_wants_no_hurry_just_before_lunch() -> None:
    people = [*numbered(10), Person("Shy", unhurried=True), Person("Eager", part="first"), Person("L", part="leader")]
    names, wrong = ordered(people, lunch_at=at(12, 50))
    assert (names[0], names[2], names[6]) == ("Eager", "L", "Shy")
    assert wrong == ["nobody_reference"]


def test_every_departure_from_the_order_is_said() -> None:
    leaders = [Person(f"L{n}", part="leader") for n in range(5)]
    people = [*leaders, Person("Shy", unhurried=True), Person("Seven", place=7), Person("Late", part="last")]
    names, wrong = ordered(people)
    assert wrong.count("leader_elsewhere") == 2
    assert {"nobody_first", "nobody_reference", "unhurried_no_lunch"} < set(wrong)
    assert (names[6], names[-1]) == ("Seven", "Late")
    table = rota.timetable(len(people), Times(START))
    as_listed = [one.code for one in rota.deviations(people, table)]
    assert {"leader_elsewhere", "unhurried_no_lunch"} <= set(as_listed)
    for one in rota.deviations(people, table):
        assert "{" not in rota.SENTENCES[one.code].format(**one.values)


people_lists = st.lists(
    st.builds(
        Person, name=st.just(""), part=st.sampled_from(["", "", "", *rota.PARTS]),
        place=st.none() | st.integers(1, 70), steady=st.booleans(), unhurried=st.booleans(), floor=st.booleans(),
        together=st.booleans(),
    ),
    min_size=1, max_size=60,
)  # fmt: skip
all_times = st.builds(
    Times, starts_at=st.just(START), place_minutes=st.integers(2, 30), gap_minutes=st.integers(0, 20),
    gap_after=st.integers(2, 12), lunch_minutes=st.integers(5, 90),
    lunch_at=st.none() | st.integers(-60, 600).map(lambda n: START + n * MINUTE),
)  # fmt: skip


@given(people=people_lists, times=all_times)
@settings(max_examples=150, deadline=None)
def test_everybody_has_one_place_no_two_overlap_and_lunch_is_kept(people: list[Person], times: Times) -> None:
    people = [replace(one, name=f"P{n}") for n, one in enumerate(people)]
    table = rota.timetable(len(people), times)
    line = rota.order(people, table)
    assert sorted(one.name for one in line) == sorted(one.name for one in people)
    assert len(table.places) == len(people)
    assert table.places[0].starts_at >= START
    assert all(before.ends_at <= after.starts_at for before, after in pairwise(table.places))
    assert all(place.length == times.place_minutes * MINUTE for place in table.places)
    between = [*table.gaps, *([table.lunch] if table.lunch else [])]
    assert not any(overlaps(place, free) for place in table.places for free in between)
    if table.lunch is not None:
        assert table.places[-1].starts_at >= table.lunch.ends_at
    rota.deviations(line, table)


# C, computed in job.md (rounded there to a tenth of a minute, the finish to whole minutes), for 20 people in places of
# ten minutes: a quarter about six minutes late, one in twenty not coming.
@pytest.mark.parametrize(
    ("gap", "real", "wait", "late", "worst"), [(0, 9, 3.1, 4, 11), (10, 9, 1.8, None, None), (0, 6, None, None, None)]
)
def test_the_forecast_is_the_one_computed_for_twenty_people(
    gap: int, real: float, wait: float | None, late: float | None, worst: float | None
) -> None:
    found = rota_forecast.expected(rota.timetable(20, Times(START, gap_minutes=gap)), real)
    if wait is not None:
        assert found.mean_wait == pytest.approx(wait, abs=0.05 + 0.01)  # the figure's own rounding, and the grid's
    if late is not None and worst is not None:
        assert found.late == pytest.approx(late, abs=0.5)
        assert found.worst_late == pytest.approx(worst, abs=0.5)
    if real == 6:
        assert found.late < 0  # the day ends in time


def played(table: rota.Timetable, real: float, seed: int, days: int = 2000) -> tuple[float, float]:
    """Mean wait and mean lateness of days drawn by lot from the same assumptions, without the forecast's reckoning."""
    lot, waits, ends = random.Random(seed), [], []
    for _day in range(days):
        free = table.places[0].starts_at
        for place in table.places:
            if lot.random() < rota_forecast.ABSENT_SHARE:
                continue
            late = rota_forecast.LATE_MINUTES if lot.random() < rota_forecast.LATE_SHARE else 0.0
            came = place.starts_at + late * MINUTE
            if rota_forecast.is_lunch_between(table, table.places[table.before_lunch - 1].ends_at, place.starts_at):
                came = max(came, free + table.lunch.length) if place is table.places[table.before_lunch] else came
            begun = max(came, free)
            waits.append((begun - place.starts_at) / MINUTE - late)
            free = begun + max(lot.gauss(real, real * rota_forecast.SCATTER), 1.0) * MINUTE
        ends.append((free - table.ends_at) / MINUTE)
    return mean(waits), mean(ends)


@pytest.mark.parametrize(("gap", "real", "lunch"), [(0, 9, None), (10, 9, None), (10, 10.5, (13, 0))])
def test_the_forecast_is_what_days_drawn_by_lot_come_to(
    gap: int, real: float, lunch: tuple[int, int] | None
) -> None:
    times = Times(START, gap_minutes=gap, lunch_at=at(*lunch) if lunch else None)
    table = rota.timetable(20, times)
    wait, late = played(table, real, seed=20)
    found = rota_forecast.expected(table, real)
    # 2,000 days: the waits of one day hang together (about 3 minutes apart), so their mean is sure to 3 / sqrt(2000),
    # 0.07; three times that, and a quarter of a minute for the grid.
    assert found.mean_wait == pytest.approx(wait, abs=0.45)
    assert found.late == pytest.approx(late, abs=0.6)


def test_on_the_day_nobody_begins_early_gaps_catch_up_and_lunch_is_kept_whole() -> None:
    table = rota.timetable(8, Times(START, gap_after=3, lunch_at=at(12, 40), lunch_minutes=30))
    assert table.lunch is not None
    queue = [Queued(place.starts_at, place.starts_at >= table.lunch.ends_at) for place in table.places]

    def stands(*to_come: Queued, now: datetime, **more: datetime) -> tuple[datetime, ...]:
        minutes = 10.0
        return rota_forecast.as_it_stands(to_come, now=now, minutes=minutes, lunch=table.lunch, **more).starts

    assert stands(*queue, now=START) == tuple(place.starts_at for place in table.places)
    late = rota_forecast.as_it_stands(queue, now=at(11, 38), minutes=10, lunch=table.lunch)
    assert late.late(queue) == [8, 8, 8, 0, 0, 0, 0, 0]
    after = Queued(at(13, 10), after_lunch=True)
    assert stands(after, now=at(12, 45), since=at(12, 40)) == (at(13, 20),)  # lunch begins at 12:50
    assert stands(after, now=at(12, 55), free_since=at(12, 50)) == (at(13, 20),)
    assert stands(after, now=at(12, 55), free_since=at(12, 35)) == (at(13, 10),)
    assert stands(after, now=at(13, 15)) == (at(13, 15),)


def test_the_pace_of_today_counts_more_the_more_of_it_was_seen() -> None:
    assert rota_forecast.pace(9, []) == 9
    assert 9 < rota_forecast.pace(9, [12]) < rota_forecast.pace(9, [12] * 6) < 12
