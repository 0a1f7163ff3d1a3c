"""Windows against the standard overcast sky by quadrature, published daylight factors and configuration factors."""

from __future__ import annotations

import numpy as np
import pytest

from shotplans.light import windows
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("daylight", "sky luminance over zenith"))
def test_the_overcast_sky_is_three_times_as_bright_overhead(row: Published) -> None:
    share = windows.sky_luminance(row.inputs["height"]) / windows.sky_luminance(90.0)
    assert share == pytest.approx(row.value, abs=row.half_digit)  # W10-W12


def test_the_whole_sky_lights_open_ground_as_much_as_it_is_said_to() -> None:
    height = (np.arange(100000) + 0.5) / 100000 * 90
    ring = windows.sky_luminance(height, 5000.0) * np.sin(np.radians(height)) * np.cos(np.radians(height))
    # E on level ground is the integral of L sin h cos h over 2 pi of bearing: definition
    assert 2 * np.pi * ring.mean() * np.pi / 2 == pytest.approx(5000.0, rel=1e-6)


def test_half_the_sky_lights_a_wall_by_the_published_share() -> None:
    row = only("daylight", "upright over level illuminance")  # W13
    assert windows.on_the_wall(1.0, 0.0) == pytest.approx(row.value, abs=row.half_digit)
    # An even ground fills the other half space of a wall: half of what it gives back
    assert windows.on_the_wall(1.0, 0.2) == pytest.approx(row.value + 0.1, abs=row.half_digit)


def test_the_assumed_sky_is_the_design_sky_and_its_doubt_spans_what_is_seen() -> None:
    low = only("daylight", "least overcast ground illuminance")
    high = only("daylight", "most overcast ground illuminance")
    assert only("daylight", "overcast ground illuminance").value == windows.OVERCAST_LX  # W14
    # W15, W16: the range seen is +1.6 and -3.3 stops; 1.5 stops hold the bright side and the usual day of the dim one.
    assert np.log2(high.value / windows.OVERCAST_LX) == pytest.approx(windows.UNCERTAINTY_STOPS, abs=0.1)
    assert np.log2(windows.OVERCAST_LX / low.value) > windows.UNCERTAINTY_STOPS
    assert only("daylight", "glass").value == windows.GLASS  # W17


@pytest.mark.parametrize("row", params("geometry_and_eyes", "panel factor"))
def test_a_window_lights_a_face_by_its_configuration_factor(row: Published) -> None:
    d, w, h = (row.inputs[name] for name in ("d", "w", "h"))
    found = windows.illuminance_lx(d, w, h, ground_lx=windows.OVERCAST_LX, glass=1.0, sky_height_deg=90.0)
    # P25-P30: E = pi L F, with L = 9 E/(7 pi) overhead
    expected = np.pi * 9 * windows.OVERCAST_LX / (7 * np.pi) * row.value
    assert found == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize("row", params("daylight", "average daylight factor"))
def test_a_room_is_as_light_as_daylight_reckoning_says_to_half_a_stop(row: Published) -> None:
    w, a, r, t = (row.inputs[name] for name in ("W", "A", "R", "T"))
    found = windows.room_lx(w, a, r, ground_lx=100.0, glass=t)  # per cent of open ground
    # W18-W20: the working plane of a side-lit room, a rule of thumb; the docstring states half a stop.
    assert abs(np.log2(found / row.value)) <= 0.5


def test_no_window_gives_nothing_and_twice_the_window_twice_the_light() -> None:
    assert windows.room_lx(0.0, 100.0, 0.5) == 0.0
    assert windows.room_lx(4.0, 100.0, 0.5) == pytest.approx(2 * windows.room_lx(2.0, 100.0, 0.5))  # proportion


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="0 to 90"):
        windows.sky_luminance(-1.0)
    with pytest.raises(ValueError, match="share of 0 to 1"):
        windows.illuminance_lx(1.0, 1.0, 1.0, glass=1.2)
    with pytest.raises(ValueError, match=r"within 0 and 0\.98"):
        windows.room_lx(1.0, 10.0, 1.0)
    with pytest.raises(ValueError, match="within 0 and 1"):
        windows.on_the_wall(1.0, 1.5)
    with pytest.raises(ValueError, match="width_m"):
        windows.illuminance_lx(1.0, 0.0, 1.0)
