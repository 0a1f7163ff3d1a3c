"""Exposure and lightness against two colour libraries: colour-hdri (ISO 2720 with its constants), colour-science."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from shotplans.light import background, exposure

EXACT = 1e-12  # the same arithmetic written by other hands: only rounding may differ
N, T, S = (v.ravel() for v in np.meshgrid([1.4, 5.6, 8.0, 13.0, 22.0], [1 / 250, 1 / 60, 0.5], [50.0, 100.0, 800.0]))


def test_lux_of_a_setting_is_the_library_s(colour_hdri: Any) -> None:
    library = colour_hdri.average_illuminance(N, T, S, exposure.CALIBRATION_C)
    assert exposure.illuminance_lx(N, T, S) == pytest.approx(library, rel=EXACT)
    assert exposure.luminous_exposure_lxs(N, S) == pytest.approx(library * T, rel=EXACT)  # lx s are lux times seconds


def test_the_exposure_value_of_a_setting_is_the_library_s(colour_hdri: Any) -> None:
    library = colour_hdri.exposure_value_100(N, T, np.full_like(N, 100.0))
    assert exposure.exposure_value(N, T) == pytest.approx(library, rel=EXACT)


def test_the_f_number_of_a_light_has_the_lights_exposure_value(colour_hdri: Any) -> None:
    lux = np.array([20.0, 640.0, 10240.0])
    ev = colour_hdri.illuminance_to_exposure_value(lux, 200.0, exposure.CALIBRATION_C)
    # At one second a light's lux are its lx s, and log2(N^2/1) is the exposure value.
    assert 2 * np.log2(exposure.f_number_for(lux, 200.0)) == pytest.approx(ev, rel=EXACT)


@pytest.mark.parametrize("ambient_lux", [3.0, 500.0, 40_000.0])
def test_room_light_lies_under_the_setting_by_exposure_values(ambient_lux: float, colour_hdri: Any) -> None:
    of_room = colour_hdri.illuminance_to_exposure_value(ambient_lux, S, exposure.CALIBRATION_C)
    of_setting = colour_hdri.exposure_value_100(N, T, S) + np.log2(S / 100)  # back to the setting's own ISO
    found = exposure.ambient_below_stops(ambient_lux, N, T, S)
    assert found == pytest.approx(of_setting - of_room, abs=1e-9)


def test_lightness_is_the_library_s_and_comes_back(colour: Any) -> None:
    percent = np.concatenate((np.linspace(0.0, 2.0, 41), np.linspace(2.0, 120.0, 60)))  # the dark toe and the rest
    library = colour.colorimetry.lightness_CIE1976(percent)
    # The library's toe is the standard's rounded 903.3, ours the exact (29/3)^3: 1e-4 apart, under a hundredth of L*.
    assert background.lightness(percent / 100) == pytest.approx(library, rel=5e-5, abs=1e-9)
    back = colour.colorimetry.luminance_CIE1976(library) / 100
    assert background.relative_luminance(library) == pytest.approx(back, rel=5e-5, abs=1e-9)


@pytest.mark.parametrize("reflectance", [0.04, 0.18, 0.9])
def test_a_ground_so_many_stops_from_the_setting(reflectance: float, colour: Any, colour_hdri: Any) -> None:
    stops = np.array([-4.0, -1.5, 0.0, 0.1])
    luminance = colour_hdri.adjust_exposure(np.full(4, 100 * reflectance), stops)
    library = colour.colorimetry.lightness_CIE1976(np.minimum(luminance, 100.0))
    assert background.ground_lightness(reflectance, stops) == pytest.approx(library, rel=5e-5)
    kept = np.minimum(stops, np.log2(1 / reflectance))
    assert background.stops_for_lightness(reflectance, library) == pytest.approx(kept, abs=2e-4)
