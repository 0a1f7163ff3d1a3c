"""Meters against the ray-traced readings of light_cases.json and the table of light.md section 4."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from shotplans.light import metering

_CASES = json.loads(
    (Path(__file__).resolve().parents[2] / "fixtures" / "light_cases.json").read_text(encoding="utf-8")
)
_METER = [pytest.param(case, id=case["id"]) for case in _CASES["cases"] if case["topic"] == "meter"]


def _sum_of_lights(case: dict[str, Any], reading: Any) -> float:
    lights = case["inputs"]["lights"]
    cosines = np.cos(np.radians([light["t_deg"] for light in lights]))
    alphas = np.radians([light["alpha_deg"] for light in lights])
    return float(np.sum(reading(cosines, np.array([light["E_perp"] for light in lights]), alphas)))


@pytest.mark.parametrize("case", _METER)
def test_a_dome_reads_what_ray_tracing_says(case: dict[str, Any]) -> None:
    found = _sum_of_lights(case, metering.dome_reading)
    assert found == pytest.approx(case["expected"]["dome_reading"], rel=1e-9)
    # Mitsuba 3.9.1, a renderer of its own: five of its standard errors
    traced, sigma = case["reference"]["mitsuba_dome_reading"], case["reference"]["mitsuba_sigma"]
    assert found == pytest.approx(traced, abs=5 * sigma)


@pytest.mark.parametrize("case", _METER)
def test_a_recessed_receptor_reads_the_closed_form(case: dict[str, Any]) -> None:
    found = _sum_of_lights(case, metering.recessed_reading)
    assert found == pytest.approx(case["expected"]["flat_reading"], rel=1e-6)


@pytest.mark.parametrize(
    # light.md section 4, table "dome, stops below aimed at the light" (Mitsuba within 0.04 %)
    ("t_deg", "stops"),
    [(0, 0), (15, -0.025), (30, -0.100), (45, -0.228), (60, -0.415), (75, -0.668), (90, -1.0), (120, -2.0)],
)
def test_a_dome_turned_away_reads_low_by_the_table(t_deg: float, stops: float) -> None:
    assert metering.dome_error_stops(t_deg) == pytest.approx(stops, abs=0.0005)
    assert np.log2(metering.dome_reading(np.cos(np.radians(t_deg)), 1.0)) == pytest.approx(stops, abs=0.0005)


@pytest.mark.parametrize(
    # light.md section 4: dome at 45 degrees off wide sources, and dome aimed at them against the plane
    ("alpha_deg", "at_45", "aimed"),
    [(5, -0.228, 0.001), (15, -0.226, 0.012), (30, -0.220, 0.051), (45, -0.209, 0.119), (60, -0.194, 0.222)],
)
def test_a_dome_makes_wide_sources_brighter(alpha_deg: float, at_45: float, aimed: float) -> None:
    straight, turned = metering.dome_reading(np.array([1.0, 0.5**0.5]), 1.0, np.radians(alpha_deg))
    assert np.log2(turned / straight) == pytest.approx(at_45, abs=0.0006)
    assert np.log2(straight) == pytest.approx(aimed, abs=0.0006)


@pytest.mark.parametrize(
    # light.md section 4: flat receptor, stops
    ("t_deg", "stops"),
    [(0, 0), (15, -0.050), (30, -0.208), (45, -0.5), (60, -1.0), (75, -1.950)],
)
def test_a_recessed_receptor_follows_the_cosine(t_deg: float, stops: float) -> None:
    found = metering.recessed_reading(np.cos(np.radians(t_deg)), 1.0)
    assert np.log2(found) == pytest.approx(stops, abs=0.0006)


def test_light_from_behind_is_lost_on_a_recessed_receptor_but_not_on_a_dome() -> None:
    assert metering.recessed_reading(-0.2, 1.0) == 0
    assert metering.dome_reading(-0.2, 1.0) == pytest.approx(0.4)  # (1 + cos t)/2, light.md section 4
    assert metering.dome_error_stops(180) == -np.inf


def test_small_and_wide_sources_meet_without_a_step() -> None:
    just_small, just_wide = metering.recessed_reading(0.3, 1.0, np.array([0.99e-3, 1.01e-3]))
    assert just_small == pytest.approx(just_wide, rel=1e-9)


def test_a_dome_in_even_surroundings_reads_half_more_than_a_plane() -> None:
    # the brute sum of (1 + cos t)/2 and of cos t over 200,000 rings of the front half space
    t = (np.arange(200_000) + 0.5) * (np.pi / 2 / 200_000)
    ring = np.sin(t)
    by_sum = np.sum(ring * (1 + np.cos(t)) / 2) / np.sum(ring * np.cos(t))
    assert metering.dome_uniform(1.0) == pytest.approx(by_sum, rel=1e-6)
    assert metering.dome_uniform(1.0) == pytest.approx(
        float(metering.dome_reading(1.0, 1.0, np.pi / 2)), rel=1e-12
    )


def test_impossible_light_on_a_meter_is_refused() -> None:
    with pytest.raises(ValueError, match="cos_t"):
        metering.dome_reading(1.1, 1.0)
    with pytest.raises(ValueError, match="e_perp"):
        metering.recessed_reading(1.0, -1.0)
    with pytest.raises(ValueError, match="alpha_rad"):
        metering.dome_reading(1.0, 1.0, 1.6)
    with pytest.raises(ValueError, match="t_deg"):
        metering.dome_error_stops(181)
