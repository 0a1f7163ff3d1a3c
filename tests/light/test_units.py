"""Stops, directions and rounding against definitions and the set's frame."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import units
from tests.light.published import Published, params


@pytest.mark.parametrize("row", params("exposure", "stops of a ratio"))
def test_a_ratio_of_light_is_worth_its_stops(row: Published) -> None:
    # E46 filter of 6.25 % and F11 forum figures, printed to two decimals of the ratio (1 %: 0.01 stop)
    assert units.stops(row.inputs["ratio"]) == pytest.approx(row.value, abs=0.01)


def test_no_light_is_endless_stops_down() -> None:
    assert units.stops(0.0) == -np.inf


@given(st.floats(-40, 40))
def test_stops_and_ratio_undo_each_other(count: float) -> None:
    assert units.stops(units.ratio(count)) == pytest.approx(count, abs=1e-12)


def test_a_negative_ratio_is_refused() -> None:
    with pytest.raises(ValueError, match="ratio"):
        units.stops(-1.0)


def test_bearings_turn_to_camera_right_and_heights_rise() -> None:
    # the frame of design.md section 5: +x camera right, +y up, +z to the camera
    found = units.direction(np.array([0, 90, -90, 180, 0]), np.array([0, 0, 0, 0, 90]))
    expected = [[0, 0, 1], [1, 0, 0], [-1, 0, 0], [0, 0, -1], [0, 1, 0]]
    np.testing.assert_allclose(found, expected, atol=1e-15)


def test_a_bearing_broadcasts_over_heights() -> None:
    assert units.direction(30.0, np.zeros((4, 2))).shape == (4, 2, 3)


@given(st.floats(-179.9, 180), st.floats(-89, 89))
def test_a_direction_gives_its_angles_back(bearing: float, height: float) -> None:
    towards = units.direction(bearing, height)
    assert np.linalg.norm(towards) == pytest.approx(1, abs=1e-14)
    assert units.bearing_deg(towards) == pytest.approx(bearing, abs=1e-9)
    assert units.height_deg(towards) == pytest.approx(height, abs=1e-9)


def test_straight_behind_is_plus_180_even_from_minus_zero() -> None:
    assert units.bearing_deg([-0.0, 0.0, -1.0]) == 180


def test_a_vector_is_brought_to_length_one() -> None:
    # 3-4-5 triangle
    np.testing.assert_allclose(units.unit([[3, 0, 4], [0, 2, 0]]), [[0.6, 0, 0.8], [0, 1, 0]], atol=1e-15)


def test_a_vector_without_length_has_no_direction() -> None:
    with pytest.raises(ValueError, match="length"):
        units.unit([0.0, 0.0, 0.0])


@pytest.mark.parametrize(
    ("value", "step", "expected"),
    [
        (2.35, 0.05, 2.35),
        (2.325, 0.05, 2.35),
        (-2.325, 0.05, -2.35),
        (0.15, 0.1, 0.2),
        (2.5, 5, 5.0),
        (-37.4, 5, -35.0),
        (0.4, 0.3, 0.3),
        (7.0, 0.7, 7.0),
    ],
)
def test_rounding_lands_on_the_number_one_would_type(value: float, step: float, expected: float) -> None:
    found = units.round_to(value, step)
    assert found == expected  # exact on purpose: no binary dust on paper
    assert isinstance(found, float)


def test_a_small_minus_rounds_to_plain_nought() -> None:
    found = units.round_to(np.array([-0.01, 0.01]), 0.05)
    assert not np.signbit(found).any()


@given(st.floats(-1e4, 1e4), st.sampled_from([0.05, 0.1, 0.5, 1.0, 2.0, 5.0]))
def test_rounding_moves_by_half_a_step_at_most_and_stays(value: float, step: float) -> None:
    found = units.round_to(value, step)
    assert abs(found - value) <= step * 0.5000001
    assert units.round_to(found, step) == found
    assert units.round_to(-value, step) == -found


def test_a_step_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="step"):
        units.round_to(1.0, 0.0)


@pytest.mark.parametrize(
    # 1 in = 0.0254 m (international inch): 2.36 m = 92.9 in, 1.8288 m = 6 ft
    ("metres", "text"),
    [
        (2.36, "7 ft 8 in"),
        (1.8288, "6 ft 0 in"),
        (0.0, "0 ft 0 in"),
        (-0.41, "-1 ft 4 in"),
        (0.3, "1 ft 0 in"),
    ],
)
def test_a_tape_in_feet_reads_to_two_inches(metres: float, text: str) -> None:
    assert units.feet_and_inches(metres) == text
