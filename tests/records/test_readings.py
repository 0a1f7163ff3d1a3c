"""Readings as typed: what means the same, what asks back, and how far a reading lies from its target."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.records.readings import (
    FULL_STOPS,
    Unclear,
    difference,
    in_words,
    parse_reading,
    shown_stops,
    stops_of,
)

SAME = ("5.6 6", "5.6 +0.6", "f/5.6 6/10", "f5.6 +.6", "5,6 +0,6", " F/5.6  + 0.6 ", "5.6 +6", "f 5.6 6")


@pytest.mark.parametrize("text", SAME)
def test_every_way_of_typing_a_reading_means_the_same(text: str) -> None:
    # f/5.6 is five stops from f/1 (values.md E32, E33), six tenths more is 5.6 stops
    assert parse_reading(text) == Decimal("5.6")


UNCLEAR = ("5.66", "5.6.6", "", "f/", "eight", "5.6 12", "5.6 +1.2", "8 0.3 4", "56", "3", "7.1 +0.2")


@pytest.mark.parametrize("text", UNCLEAR)
def test_what_could_be_read_in_two_ways_asks_back(text: str) -> None:
    with pytest.raises(Unclear, match=r"Type|Tenths"):
        parse_reading(text)


def test_a_third_stop_is_taken_as_its_exact_value_to_a_tenth() -> None:
    # f/7.1 is 2^(17/6) = 7.127, 5.67 stops (values.md E37)
    assert parse_reading("7.1") == Decimal("5.7")
    assert parse_reading("f/9") == Decimal("6.3")


@given(st.sampled_from(FULL_STOPS), st.integers(0, 9))
def test_what_a_meter_shows_is_read_back(stop: str, tenth: int) -> None:
    typed = parse_reading(f"{stop} +0.{tenth}")
    assert parse_reading(shown_stops(typed)) == typed


def test_feature_48_a_reading_beside_its_target_shows_the_difference() -> None:
    # job.md section 8, row 48: 5.6 +0.8 against 8 shows -0.2
    assert difference(parse_reading("5.6 +0.8"), stops_of(8.0)) == Decimal("-0.2")
    assert in_words(Decimal("-0.2"), Decimal("0.2")) == "-0.2 stop, under: within tolerance"
    assert in_words(Decimal("0.3"), Decimal("0.2")) == "+0.3 stop, over: outside tolerance"
    assert in_words(Decimal("0.0"), Decimal("0.2")) == "on target"
