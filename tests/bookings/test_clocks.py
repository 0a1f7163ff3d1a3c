"""The two clocks as plain values: what they run, and what that does to a promise."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bookings import clocks
from bookings.clocks import CLIENT, STILL, STUDIO, Turn

BEGUN = datetime(2027, 5, 3, 15, tzinfo=UTC)  # a Monday
LONDON = ZoneInfo("Europe/London")


def weekdays(day: date) -> bool:
    return day.weekday() < 5


def promised(turns: list[Turn], now: datetime, days: int = 5) -> date | None:
    return clocks.promised(turns, days=days, now=now, zone=UTC, is_open=weekdays)


def later(days: float) -> datetime:
    return BEGUN + timedelta(days=days)


def test_the_promise_is_the_last_of_the_days_the_house_is_open() -> None:
    assert promised([Turn(BEGUN, "deliver")], BEGUN) == date(2027, 5, 10)  # Tuesday to Friday, and Monday


def test_while_it_waits_for_the_client_the_promise_moves_on_day_by_day() -> None:
    turns = [Turn(BEGUN, "choose")]
    assert [promised(turns, later(n)) for n in (0, 1, 2)] == [date(2027, 5, n) for n in (10, 11, 12)]


def test_days_used_before_a_question_still_count_after_the_answer() -> None:
    turns = [Turn(BEGUN, "deliver"), Turn(later(2), "answer"), Turn(later(9), "deliver")]
    # Tuesday and Wednesday were the studio's; asked on Wednesday at three, answered on Wednesday of the week after.
    assert promised(turns, later(9)) == date(2027, 5, 17)
    assert clocks.used(turns, now=later(9), zone=UTC, is_open=weekdays) == 2


def test_an_answer_on_the_same_day_costs_the_client_nothing() -> None:
    turns = [Turn(BEGUN, "deliver"), Turn(later(0.75), "answer"), Turn(later(0.8), "deliver")]
    assert promised(turns, later(0.8)) == promised(turns[:1], BEGUN)


def test_a_house_that_never_opens_promises_nothing() -> None:
    turns = [Turn(BEGUN, "deliver")]
    assert clocks.promised(turns, days=1, now=BEGUN, zone=UTC, is_open=lambda day: False) is None


def test_days_begin_at_midnight_of_the_studio() -> None:
    eve = datetime(2027, 5, 3, 23, 30, tzinfo=UTC)  # half past midnight of the 4th in London
    assert clocks.promised([Turn(eve, "deliver")], days=1, now=eve, zone=LONDON, is_open=weekdays) == date(2027, 5, 5)


@pytest.mark.parametrize("what", clocks.WHOSE)
def test_each_thing_that_is_waited_for_is_somebody_s_move(what: str) -> None:
    assert Turn(BEGUN, what).whose in (CLIENT, STUDIO, STILL)


minutes = st.integers(min_value=0, max_value=60 * 24 * 40)
histories = st.lists(st.tuples(minutes, st.sampled_from(sorted(clocks.WHOSE))), min_size=1, max_size=8)


def turned(history: list[tuple[int, str]]) -> list[Turn]:
    first = min(at for at, _what in history)
    return [Turn(BEGUN + timedelta(minutes=at - first), what) for at, what in sorted(history)]


@settings(max_examples=150, deadline=None)
@given(histories, minutes)
def test_what_the_clocks_ran_and_stood_is_what_went_by(history: list[tuple[int, str]], at: int) -> None:
    turns, now = turned(history), BEGUN + timedelta(minutes=at)
    parts = [clocks.ran(turns, whose, now) for whose in (CLIENT, STUDIO, STILL)]
    assert all(part >= timedelta(0) for part in parts)
    assert sum(parts, timedelta(0)) == now - turns[0].at


@settings(max_examples=150, deadline=None)
@given(histories, minutes, minutes, minutes, st.integers(1, 40))
def test_no_wait_for_the_client_brings_the_promise_nearer(
    history: list[tuple[int, str]], at: int, start: int, length: int, days: int
) -> None:
    """Any stretch of any history given to the client instead."""
    turns, now = turned(history), BEGUN + timedelta(minutes=at)
    begin = BEGUN + timedelta(minutes=start)
    end = begin + timedelta(minutes=length)
    before = promised(turns, now, days)
    after = [turn for turn in turns if turn.at >= end]
    during = [turn for turn in turns if turn.at < end]
    resumes = [Turn(end, during[-1].what)] if during else []
    waited = [*(turn for turn in turns if turn.at < begin), Turn(begin, "answer"), *resumes, *after]
    if begin < turns[0].at:
        waited = turns  # before it was photographed nothing is waited for
    moved = promised(waited, now, days)
    assert before is not None
    assert moved is not None
    assert moved >= before


@settings(max_examples=60, deadline=None)
@given(histories, minutes, st.integers(0, 30), st.integers(1, 40))
def test_a_promise_never_comes_nearer_as_time_goes_by(
    history: list[tuple[int, str]], at: int, hours: int, days: int
) -> None:
    turns, now = turned(history), BEGUN + timedelta(minutes=at)
    known = [turn for turn in turns if turn.at <= now] or turns[:1]
    first, then = promised(known, now, days), promised(known, now + timedelta(hours=hours), days)
    assert first is not None
    assert then is not None
    assert then >= first
