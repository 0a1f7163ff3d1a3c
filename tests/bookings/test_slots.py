"""Spans, gaps and the next free time, as laws that hold for any day."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from functools import reduce
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bookings.slots import Need, Span, Starts, Want, common, gaps, merged, next_start, overlaps, sitting_spans

DAY = datetime(2026, 12, 3, tzinfo=UTC)


def minute(number: int) -> datetime:
    return DAY + timedelta(minutes=number)


def span(first: int, last: int) -> Span:
    return Span(minute(first), minute(last))


def minutes_of(spans: list[Span]) -> set[int]:
    """The minutes covered, told one by one: the long way round."""
    return {number for one in spans for number in range(int((one.starts_at - DAY) / M), int((one.ends_at - DAY) / M))}


M = timedelta(minutes=1)
spans = st.builds(lambda first, length: span(first, first + length), st.integers(0, 300), st.integers(1, 90))
many = st.lists(spans, max_size=8)


def test_a_span_must_end_after_it_starts() -> None:
    with pytest.raises(ValueError, match="expected the end after the start"):
        span(10, 10)


def test_spans_that_only_touch_do_not_overlap() -> None:
    assert not overlaps(span(0, 60), span(60, 90))
    assert overlaps(span(0, 61), span(60, 90))


@given(spans, spans)
def test_two_spans_overlap_when_they_share_a_minute(one: Span, other: Span) -> None:
    assert overlaps(one, other) == bool(minutes_of([one]) & minutes_of([other]))
    assert overlaps(one, other) == overlaps(other, one)


@given(many)
def test_merging_keeps_every_minute_and_leaves_no_two_that_touch(busy: list[Span]) -> None:
    found = merged(busy)
    assert minutes_of(found) == minutes_of(busy)
    assert all(one.ends_at < other.starts_at for one, other in pairwise(found))


@given(many, spans)
def test_gaps_are_just_what_is_not_busy(busy: list[Span], within: Span) -> None:
    assert minutes_of(gaps(busy, within)) == minutes_of([within]) - minutes_of(busy)


@given(
    st.lists(st.tuples(st.integers(-60, 60), st.integers(1, 90), many), min_size=1, max_size=4), st.integers(60, 300)
)
def test_the_next_start_suits_everything_that_is_wanted(things: list[tuple[int, int, list[Span]]], start: int) -> None:
    wants = [Want(span(start + first, start + first + length), busy) for first, length, busy in things]
    found = int((next_start(wants, minute(start)) - DAY) / M)

    def suits(n: int) -> bool:
        return all(not minutes_of(busy) & set(range(n + first, n + first + length)) for first, length, busy in things)

    assert found == next(n for n in range(start, 2000) if suits(n))


def test_set_up_and_strike_lie_around_the_sitting_and_the_photographer_comes_a_quarter_before() -> None:
    found = sitting_spans(minute(600), minutes=75, setup_minutes=60, strike_minutes=30)
    assert found.sitting == span(600, 675)
    assert found.whole == span(540, 705)
    assert found.photographer == span(585, 675)


def test_a_sitting_over_the_change_of_the_clocks_lasts_its_real_minutes() -> None:
    # Clocks in London go from 02:00 back to 01:00 on 25 October 2026: half past midnight and two hours is 01:30.
    starts_at = datetime(2026, 10, 25, 0, 30, tzinfo=ZoneInfo("Europe/London"))
    found = sitting_spans(starts_at, minutes=120, setup_minutes=0, strike_minutes=0)
    assert found.sitting.length == timedelta(minutes=120)
    assert found.sitting.ends_at.astimezone(ZoneInfo("Europe/London")).strftime("%H:%M") == "01:30"


def starts(needs: list[Need]) -> list[Starts]:
    return reduce(common, (need.starts for need in needs))


needs = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 60), many), min_size=1, max_size=3)


@given(needs)
def test_starts_are_just_the_minutes_at_which_all_that_is_needed_is_free(
    things: list[tuple[int, int, list[Span]]],
) -> None:
    found = starts([Need(before * M, after * M, free) for before, after, free in things])
    offered = {n for one in found for n in range(int((one.first - DAY) / M), int((one.last - DAY) / M) + 1)}

    def suits(n: int) -> bool:
        return all(set(range(n - before, n + after)) <= minutes_of(free) for before, after, free in things)

    # With nothing before and nothing after it a sitting takes no minute: asked of real ones only.
    if all(before + after for before, after, _free in things):
        assert offered == {n for n in range(-50, 500) if suits(n)}
    assert all(one.last < other.first for one, other in pairwise(found))


def test_a_gap_that_fits_exactly_has_one_start() -> None:
    [only] = starts([Need(30 * M, 90 * M, [span(0, 120)])])
    assert (only.first, only.last) == (minute(30), minute(30))
    assert starts([Need(30 * M, 91 * M, [span(0, 120)])]) == []
