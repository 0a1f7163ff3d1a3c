"""Lengths as they are typed: feet, inches, metres; junk is refused; what a form shows gives the same back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio import lengths


@pytest.mark.parametrize(
    ("typed", "metres"),
    [("4 ft 6 in", 1.3716), ("54 in", 1.3716), ("4'6\"", 1.3716), ("4' 6", 1.3716), ("4.5", 1.3716),
     ("4.5 feet", 1.3716),
     ("4 ft 6 1/2 in", 1.3843), ("3 ft 1/2 in", 0.9271), ("1/2 in", 0.0127),
     ("137 cm", 1.37), ("1,37 m", 1.37), ("-2 ft", -0.6096), ("0 in", 0.0)],
)  # fmt: skip
def test_a_length_is_read_as_it_is_said(typed: str, metres: float) -> None:
    assert lengths.parse(typed, "imperial") == metres  # 0.3048 and 0.0254 m, exact by definition


def test_a_bare_number_is_in_the_house_s_own_unit() -> None:
    assert lengths.parse("2", "metric") == 2.0
    assert lengths.parse("2", "imperial") == 0.6096


@pytest.mark.parametrize(
    "typed",
    ["", "far", "4 ft 6 ft", "4 in 6 ft", "6 7", "4 ft 6 1/0 in", "1/2", "1/2 1/2 in", "ft", "4 miles", "1e3", "nan",
     "4 ft x"],
)  # fmt: skip
def test_what_is_no_length_is_refused(typed: str) -> None:
    with pytest.raises(lengths.NoLength):
        lengths.parse(typed, "imperial")


@given(st.integers(0, 1_000_000).map(lambda n: n / 10_000), st.sampled_from(["metric", "imperial"]))
def test_what_a_form_shows_is_read_as_the_same(metres: float, units: str) -> None:
    assert lengths.parse(lengths.shown(metres, units), units) == metres
