"""Colour temperatures against textbook values in mired and the trade's spreads."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import colour
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("colour", "mired"))
def test_mired_is_the_textbooks(row: Published) -> None:
    assert colour.mired(row.inputs["K"]) == pytest.approx(row.value, abs=row.half_digit)  # value from memory


def test_an_amber_conversion_shifts_as_much_as_its_filter_is_rated() -> None:
    row = only("colour", "conversion")
    # value from memory: rated 131 mired, whole mired
    assert colour.warmer_mired(row.inputs["to"], row.inputs["from"]) == pytest.approx(row.value, abs=0.5)
    assert colour.shifted_kelvin(row.inputs["from"], row.value) == pytest.approx(row.inputs["to"], abs=5)


@given(st.floats(2000, 12000), st.floats(-40, 200))
def test_a_shift_taken_back_leaves_the_light_as_it_was(kelvin: float, shift: float) -> None:
    there = float(colour.shifted_kelvin(kelvin, shift))
    assert colour.shifted_kelvin(there, -shift) == pytest.approx(kelvin)
    assert colour.warmer_mired(there, kelvin) == pytest.approx(shift, abs=1e-6)


def test_two_cloths_stay_inside_what_the_trade_sees_between_modifiers() -> None:
    row = only("colour", "spread between modifiers")
    kelvin = row.inputs["K"]
    shift = kelvin - float(colour.shifted_kelvin(kelvin, colour.cloth_mired(2)))
    assert 0 < shift < row.value  # S127 (weak)


def test_the_drift_over_all_the_power_is_the_trades() -> None:
    row = only("colour", "spread over power")
    kelvin = row.inputs["K"]
    whole = float(colour.power_spread_mired(kelvin, 7.0, 7.0))
    # S127 (weak): 400 K about 5600 K are 5400 and 5800, 185.2 and 172.4 mired by definition
    assert whole == pytest.approx(1e6 / 5400 - 1e6 / 5800, abs=1e-9)
    assert colour.power_spread_mired(kelvin, 3.5, 7.0) == pytest.approx(whole / 2, rel=0.01)
    assert colour.power_spread_mired(kelvin, 0.0, 7.0) == 0
    assert colour.power_spread_mired(kelvin, 9.0, 7.0) == pytest.approx(whole)


def test_colours_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="kelvin"):
        colour.mired(0)
    with pytest.raises(ValueError, match="leaves no"):
        colour.shifted_kelvin(5600, -200)
    with pytest.raises(ValueError, match="layers"):
        colour.cloth_mired(-1)
    with pytest.raises(ValueError, match="range_stops"):
        colour.power_spread_mired(5600, 1, 0)
