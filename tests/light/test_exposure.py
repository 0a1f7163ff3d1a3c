"""Exposure against ISO relations, engraved scales and published pairs."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import exposure, units
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("exposure", "exposure value"))
def test_exposure_values_are_the_published_ones(row: Published) -> None:
    found = exposure.exposure_value(row.inputs["N"], row.inputs["t"])
    assert found == pytest.approx(row.value, rel=1e-5, abs=1e-9)  # E02-E05, sources in the rows


@pytest.mark.parametrize("row", params("exposure", "illuminance"))
def test_settings_ask_for_the_published_illuminance(row: Published) -> None:
    found = exposure.illuminance_lx(row.inputs["N"], row.inputs["t"], row.inputs["S"])
    assert found == pytest.approx(row.value, rel=1e-9)  # E07 colour-hdri doctest, E19-E24 E = 2.5 2^EV: exact


def test_the_constant_lies_in_the_range_of_the_standard() -> None:
    # E13, ISO 2720:1974 as quoted in colour-hdri
    low = only("exposure", "lowest flat-receptor constant").value
    high = only("exposure", "highest flat-receptor constant").value
    assert low <= exposure.CALIBRATION_C <= high


@pytest.mark.parametrize("row", params("exposure", "luminous exposure"))
def test_a_flash_must_bring_the_published_exposure(row: Published) -> None:
    found = exposure.luminous_exposure_lxs(row.inputs["N"], row.inputs["S"])
    assert found == pytest.approx(row.value, rel=1e-9)  # F13


@given(st.floats(0.5, 128), st.sampled_from([50.0, 100.0, 400.0]))
def test_an_exposure_gives_its_f_number_back(f_number: float, iso: float) -> None:
    lxs = exposure.luminous_exposure_lxs(f_number, iso)
    assert exposure.f_number_for(lxs, iso) == pytest.approx(f_number, rel=1e-12)


def test_no_light_calls_for_f_nought_and_negative_light_is_refused() -> None:
    assert exposure.f_number_for(0.0, 100) == 0
    with pytest.raises(ValueError, match="exposure_lxs"):
        exposure.f_number_for(-1.0, 100)


@pytest.mark.parametrize("row", params("exposure", "exact f-number"))
def test_an_engraved_label_stands_for_its_exact_stop(row: Published) -> None:
    found = exposure.exact_f_number(row.inputs["label"])
    assert found == pytest.approx(row.value, abs=row.half_digit)  # E33-E37, published label lists


@given(st.integers(-6, 42))
def test_every_third_from_half_to_128_is_known_by_its_own_label(third: int) -> None:
    # E38: no label of the series lies more than 0.15 stop from what it stands for
    exact = 2 ** (third / 6)
    label, trim = exposure.nearest_third(exact)
    nominal = float(label.removeprefix("f/"))
    assert trim == 0
    assert abs(2 * np.log2(nominal / exact)) < 0.15
    assert exposure.exact_f_number(nominal) == pytest.approx(exact, rel=1e-12)


def test_f13_is_the_third_stop_though_a_half_stop_has_the_same_label() -> None:
    assert exposure.exact_f_number(13) == pytest.approx(2 ** (22 / 6))  # E39


@pytest.mark.parametrize("odd", [5.9, 0.2, 300.0])
def test_a_number_far_from_every_label_stays_itself(odd: float) -> None:
    assert exposure.exact_f_number(odd) == odd


@pytest.mark.parametrize("row", params("exposure", "shown"))
def test_a_reading_is_shown_in_full_stops_and_tenths(row: Published) -> None:
    assert exposure.shown(row.inputs["N"]) == row.text  # E40-E42


@pytest.mark.parametrize(
    # E32 full stops; a reading 0.04 short of a stop is that stop
    ("av", "text"),
    [
        (-2, "f/0.5 +0.0"),
        (14, "f/128 +0.0"),
        (6, "f/8 +0.0"),
        (5.96, "f/8 +0.0"),
        (5.94, "f/5.6 +0.9"),
        (5.6, "f/5.6 +0.6"),
        (-0.5, "f/0.7 +0.5"),
        (-3.7, "f/0.25 +0.3"),
        (15.2, "f/181 +0.2"),
    ],
)
def test_tenths_are_always_written_and_carry_to_the_next_stop(av: float, text: str) -> None:
    assert exposure.shown(2 ** (av / 2)) == text


@given(st.floats(0.5, 128))
def test_what_is_shown_is_within_half_a_tenth(f_number: float) -> None:
    label, tenths = exposure.shown(f_number).split(" +")
    full = exposure.exact_f_number(float(label.removeprefix("f/")))
    assert abs(exposure.stops_between(full, f_number) - float(tenths)) <= 0.05 + 1e-9


@pytest.mark.parametrize("row", params("exposure", "stops between"))
def test_two_readings_differ_by_the_published_stops(row: Published) -> None:
    found = exposure.stops_between(row.inputs["a"], row.inputs["b"])
    assert found == pytest.approx(row.value, abs=0.0005)  # E43; the readings are given to four decimals


@pytest.mark.parametrize(
    # E37 third stops 2^(n/6): 17/6 is f/7.1; the example of design.md section 7
    ("av", "label", "trim"),
    [
        (5.6, "f/7.1", 0.1),
        (6.0, "f/8", 0.0),
        (5.7, "f/7.1", 0.0),
        (5.1, "f/5.6", -0.1),
        (-2.3, "f/0.45", 0.0),
        (14.4, "f/144", -0.1),
    ],
)
def test_the_nearest_third_comes_with_its_trim(av: float, label: str, trim: float) -> None:
    assert exposure.nearest_third(2 ** (av / 2)) == (label, trim)


@pytest.mark.parametrize("row", params("exposure", "shutter label"))
def test_a_true_shutter_time_finds_its_label(row: Published) -> None:
    assert exposure.shutter_label(row.inputs["t"]) == row.text  # E44


@pytest.mark.parametrize(
    # F22 usual sync speeds, and times no camera engraves
    ("seconds", "label"),
    [
        (1 / 200, "1/200"),
        (1 / 250, "1/250"),
        (0.008, "1/125"),
        (1 / 180, "1/180"),
        (2, "2 s"),
        (0.5, "0.5 s"),
        (1 / 220, "1/220"),
        (1 / 3, "1/3"),
        (100, "100 s"),
    ],
)
def test_shutter_times_are_written_as_on_a_camera(seconds: float, label: str) -> None:
    assert exposure.shutter_label(seconds) == label


@pytest.mark.parametrize("row", params("exposure", "stops of time"))
def test_nominal_and_true_times_differ_by_less_than_the_reach_of_a_label(row: Published) -> None:
    found = units.stops(row.inputs["t"] / row.inputs["true"])
    assert found == pytest.approx(row.value, abs=row.half_digit)  # E45
    assert exposure.shutter_label(row.inputs["true"]) == exposure.shutter_label(row.inputs["t"])


@pytest.mark.parametrize("row", params("exposure", "ambient below"))
def test_room_light_lies_the_published_stops_under_the_flash(row: Published) -> None:
    given_ = row.inputs
    found = exposure.ambient_below_stops(given_["E"], given_["N"], given_["t"], given_["S"])
    assert found == pytest.approx(row.value, abs=1e-9)  # F25: "exactly 6.000"


def test_a_dark_room_lies_endlessly_under_the_flash() -> None:
    assert exposure.ambient_below_stops(0.0, 8, 1 / 200, 100) == np.inf


@pytest.mark.parametrize("bad", [0.0, -8.0, float("nan"), float("inf")])
def test_an_f_number_that_cannot_be_is_refused(bad: float) -> None:
    for formula in (exposure.exact_f_number, exposure.shown, exposure.nearest_third):
        with pytest.raises(ValueError, match="above zero"):
            formula(bad)
    with pytest.raises(ValueError, match="f_number"):
        exposure.exposure_value(bad, 1.0)
    with pytest.raises(ValueError, match="seconds"):
        exposure.shutter_label(bad)
