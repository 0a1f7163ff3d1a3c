"""Background tone against CIE lightness as published and against grey scales."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import background
from tests.light.published import Published, params


@pytest.mark.parametrize("row", params("background", "lightness"))
def test_lightness_is_the_published_one(row: Published) -> None:
    # L20 colour library doctest; L21 middle grey; L24 24-patch chart, its luminances printed to 0.01 %
    tolerance = 5e-7 if row.id == "L20" else 0.02
    assert background.lightness(row.inputs["Y"] / 100) == pytest.approx(row.value, abs=tolerance)


@pytest.mark.parametrize("row", params("background", "ground"))
def test_a_ground_shows_the_lightness_of_its_light(row: Published) -> None:
    found = background.ground_lightness(row.inputs["rho"], row.inputs["s"])
    # L26-L28, to half a digit; 28.5 for white at -4 is rounded twice (CIE gives 28.446), hence 0.005 more
    assert found == pytest.approx(row.value, abs=0.055)


@pytest.mark.parametrize("row", params("background", "stops to clip"))
def test_a_ground_turns_white_at_the_published_excess(row: Published) -> None:
    found = background.stops_for_lightness(row.inputs["rho"], 100.0)
    assert found == pytest.approx(row.value, abs=row.half_digit)  # L29, L30
    assert background.ground_lightness(row.inputs["rho"], row.value + 1) == 100


@given(st.floats(0, 100))
def test_lightness_and_luminance_undo_each_other(level: float) -> None:
    assert background.lightness(background.relative_luminance(level)) == pytest.approx(level, abs=1e-9)


def test_the_dark_toe_meets_the_root_without_a_step() -> None:
    # CIE 1976: the straight part ends at L* = 8 (kappa epsilon = 8 exactly)
    assert background.relative_luminance(8.0) == pytest.approx(216 / 24389, rel=1e-12)
    assert background.lightness(0.001) == pytest.approx(24389 / 27 * 0.001, rel=1e-12)


@given(st.floats(0.03, 0.9), st.floats(-4, 0))
def test_the_stops_for_a_lightness_show_it(reflectance: float, stops: float) -> None:
    shown = background.ground_lightness(reflectance, stops)
    assert background.stops_for_lightness(reflectance, shown) == pytest.approx(stops, abs=1e-9)


def test_tones_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="relative_luminance"):
        background.lightness(-0.1)
    with pytest.raises(ValueError, match="lightness"):
        background.relative_luminance(-1.0)
    with pytest.raises(ValueError, match="reflectance"):
        background.ground_lightness(-0.1, 0.0)
    with pytest.raises(ValueError, match="reflectance"):
        background.stops_for_lightness(0.0, 50.0)
    assert background.stops_for_lightness(0.5, 0.0) == float("-inf")
