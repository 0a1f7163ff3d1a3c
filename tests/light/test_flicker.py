"""Flicker against quadrature of the light over the shutter, published safe shutter times and a measured lamp."""

from __future__ import annotations

import numpy as np
import pytest

from shotplans.light import flicker
from tests.light.published import Published, only, params


def by_quadrature(shutter_s: float, hz: float, wave: str, depth: float) -> float:
    """Stops between the brightest and dimmest exposure over 400 starts, each a sum over 4000 moments."""
    start = np.arange(400)[:, None] / 400 / hz
    moment = start + (np.arange(4000) + 0.5)[None, :] / 4000 * shutter_s
    light = 1 + depth * np.cos(2 * np.pi * hz * moment) if wave == "sine" else np.abs(np.sin(np.pi * hz * moment))
    got = light.mean(axis=1)
    return float(np.log2(got.max() / got.min()))


@pytest.mark.parametrize("shutter_s", [1 / 1000, 1 / 250, 1 / 200, 1 / 125, 1 / 60, 1 / 35])
@pytest.mark.parametrize(("hz", "depth"), [(100.0, 0.3), (120.0, 0.9)])
def test_an_exposure_swings_as_the_integral_of_its_light(shutter_s: float, hz: float, depth: float) -> None:
    # 400 starts miss the extreme phase by 1/800 of a period at most: 1e-5 of the swing.
    found = float(flicker.swing_stops(shutter_s, depth, hz))
    assert found == pytest.approx(by_quadrature(shutter_s, hz, "sine", depth), rel=1e-3, abs=1e-6)


@pytest.mark.parametrize("shutter_s", [1 / 200, 1 / 160, 1 / 125, 1 / 80, 1 / 60])
def test_a_light_that_follows_the_rectified_mains_swings_as_two_thirds(shutter_s: float) -> None:
    # Fourier series of |sin|: its first part is 2/3 of its mean; the docstring gives the slack for what is left out.
    found = float(flicker.swing_stops(shutter_s, 2 / 3, 100.0))
    assert found == pytest.approx(by_quadrature(shutter_s, 100.0, "rectified", 1.0), abs=0.1)


@pytest.mark.parametrize("row", params("daylight", "safe shutter"))
def test_published_safe_shutter_times_swing_by_nothing(row: Published) -> None:
    hz = row.inputs["hz"]
    assert np.abs(flicker.safe_shutters_s(hz, 0.05) - row.value).min() < 1e-8  # W30-W34
    assert flicker.swing_stops(row.value, 1.0, hz) == pytest.approx(0.0, abs=1e-6)


def test_a_shutter_time_called_safe_that_is_near_a_whole_flicker_swings_by_little() -> None:
    row = only("daylight", "nearly safe shutter")  # W35: 1/125, in truth 1/128
    assert flicker.swing_stops(row.value, 0.5, row.inputs["hz"]) < 0.1  # a tenth of a stop is what nobody sees


def test_a_measured_lamp_swings_as_one_depth_says_for_both_its_shutter_times() -> None:
    half, whole = (row.values[0] for row in params("daylight", "measured swing"))
    # W36: almost 1 EV at half a flicker fits a depth of 0.5, and the same lamp is even at a whole one (W37).
    assert flicker.swing_stops(half.inputs["shutter"], 0.5, 100.0) == pytest.approx(half.value, abs=0.1)
    assert flicker.swing_stops(whole.inputs["shutter"], 0.5, 100.0) == pytest.approx(whole.value, abs=1e-9)


def test_a_glow_lamp_hardly_swings() -> None:
    row = only("daylight", "depth of incandescent")  # W38
    assert flicker.swing_stops(1e-6, row.value, 100.0) == pytest.approx(np.log2((1 + row.value) / (1 - row.value)))


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="shutter_s"):
        flicker.swing_stops(0.0, 0.5, 100.0)
    with pytest.raises(ValueError, match="within 0 and 1"):
        flicker.swing_stops(0.01, 1.5, 100.0)
    with pytest.raises(ValueError, match="flicker_hz"):
        flicker.safe_shutters_s(0.0, 0.1)
