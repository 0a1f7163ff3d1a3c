"""Frames tied to set-ups by time and settings, wrong settings as runs, counts."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from shotplans.records.exif import CameraData
from shotplans.records.frame_settings import Wanted, clock, differences, in_stops, over_stops
from shotplans.records.matching import Shot, counts, runs, tie

NINE = datetime(2026, 12, 3, 9, tzinfo=UTC)
STRIP = Wanted(
    name="the pair", f_number=2**3.5, shutter_s=1 / 200, iso=100, focal_mm=85, kelvin=5600, sync_s=1 / 200, heads=2,
    frames=21,
)  # fmt: skip
STEADY = Wanted(name="steady", f_number=2**2.5, shutter_s=1 / 125, iso=1600, focal_mm=85, flash=False, frames=3)
BOTH = (STRIP, STEADY)


def shot(**values: Any) -> CameraData:
    as_planned = {"f_number": 11.0, "shutter_s": 0.005, "iso": 100, "focal_mm": 85.0, "white_balance": "by hand"}
    return CameraData(**(as_planned | values))


def broken(data: CameraData, plan: Wanted = STRIP) -> dict[str, str]:
    return {d.what: d.says for d in differences(data, plan) if d.broken}


def test_a_frame_as_planned_differs_in_nothing() -> None:
    assert broken(shot(flash_fired=True)) == {}
    assert over_stops(shot(), STRIP) == pytest.approx(0)


def test_each_setting_is_held_against_the_plan() -> None:
    found = broken(shot(f_number=2.8, iso=400, focal_mm=70.0, white_balance="auto"))
    assert found["aperture"] == "4 stops over"
    assert found["ISO"] == "2 stops over"
    assert "0.82 times" in found["focal length"]
    assert "automatic" in found["white balance"]


def test_the_shutter_is_judged_by_what_it_does_with_flash() -> None:
    assert "dark band" in broken(shot(shutter_s=1 / 500))["shutter"]
    assert broken(shot(shutter_s=1 / 160)) == {}
    assert "room's light" in broken(shot(shutter_s=1 / 30))["shutter"]
    steady = shot(f_number=5.6, iso=1600, shutter_s=1 / 500)
    assert broken(steady, STEADY)["shutter"] == "2 stops under"
    assert over_stops(steady, STEADY) == pytest.approx(-2, abs=0.05)


def test_a_flash_among_steady_light_is_a_fault_and_a_trigger_the_camera_does_not_know_is_none() -> None:
    assert "flash" in broken(shot(f_number=5.6, iso=1600, shutter_s=1 / 125, flash_fired=True), STEADY)
    assert broken(shot(flash_fired=False)) == {}


def test_the_camera_s_clock_is_held_against_the_studio_s() -> None:
    assert not (clock(NINE + timedelta(seconds=40), NINE)).broken
    late = clock(NINE - timedelta(hours=1, minutes=2), NINE)
    assert late.broken
    assert late.says == "1 h 2 min behind the studio's: set it"


def test_one_set_up_has_all_frames_however_they_were_set() -> None:
    assert tie(shot(f_number=2.8), None, (STRIP,), {}).setup == "the pair"


BEGUN = {"the pair": NINE, "steady": NINE + timedelta(hours=1)}
LATER = NINE + timedelta(minutes=70)
AS_STEADY = {"f_number": 5.6, "iso": 1600, "shutter_s": 1 / 125}


@pytest.mark.parametrize(
    ("values", "taken", "begun", "setup", "by"),
    [
        ({}, NINE, BEGUN, "the pair", "both"),
        (AS_STEADY, LATER, BEGUN, "steady", "both"),
        ({"f_number": 2.8}, NINE, BEGUN, "the pair", "time"),  # wrong for both: the time says which
        (AS_STEADY, None, BEGUN, "steady", "settings"),
        (AS_STEADY, NINE, {}, "steady", "settings"),
        ({}, NINE - timedelta(minutes=5), BEGUN, "the pair", "both"),
        ({}, LATER, BEGUN, "", ""),  # settings of the one in the time of the other
        ({"f_number": 2.8}, None, BEGUN, "", ""),
    ],
)
def test_time_and_settings_are_two_witnesses(values: Any, taken: Any, begun: Any, setup: str, by: str) -> None:
    found = tie(shot(**values), taken, BOTH, begun)
    assert (found.setup, found.by) == (setup, by)
    assert bool(found.says) == (not setup)


def test_frames_set_otherwise_than_planned_are_told_as_runs() -> None:
    """Issue 7, item 4: frames 41-58 at f/2.8, planned f/11: 4 stops over."""
    taken = [Shot(number=n, setup="the pair", data=shot(f_number=2.8 if 41 <= n <= 58 else 11.0)) for n in range(1, 71)]
    (run,) = runs(taken, BOTH)
    assert (run.frames, run.settings, run.planned, run.says) == ("41-58", "f/2.8", "f/11", "4 stops over")
    assert run.count == 18
    assert runs([taken[3]], BOTH) == []


def test_frames_are_counted_against_the_shot_list() -> None:
    taken = [Shot(number=n, setup="the pair", data=shot()) for n in range(19)]
    assert [(c.setup, c.taken, c.wanted, c.short_by) for c in counts(taken, BOTH)] == [
        ("the pair", 19, 21, 2), ("steady", 0, 3, 3),
    ]  # fmt: skip


def test_stops_are_said_in_words() -> None:
    said = {4.0: "4 stops over", -0.3: "0.3 stop under", 1.0: "1 stop over", 1.5: "1.5 stops over"}
    assert {n: in_stops(n) for n in said} == said
