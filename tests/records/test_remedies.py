"""What to do about a reading: causes in order, the dial in its own writing, the distance by the inverse square."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.records import against_set, remedies

LIGHT: dict[str, Any] = {
    "letter": "A", "head": "h", "modifier": "m", "grid": None, "distance_m": 2.0, "power_below_full_stops": 4.0,
    "dial": "6.0",
}  # fmt: skip
SETTING = {"on": ["A", "B"], "sets_camera": True}
SETUP: dict[str, Any] = {"lights": [LIGHT], "camera": {"iso": 100}, "meter_round": [SETTING]}
STEP: dict[str, Any] = {
    "on": ["A"], "sets_camera": False, "dome": "out", "toward": "camera", "panels": "out", "place": "at the cheek",
}  # fmt: skip
TEN = [{"id": "h", "dial": {"scale": "ten", "step": 0.1}, "range_stops": 6.0, "energy_ws": 400.0}]
CLOTHED = [{"id": "m", "inner_cloth": True, "outer_cloth": True}]


def codes(off: str, **step: Any) -> list[str]:
    return [c.code for c in remedies.causes(SETUP, STEP | step, Decimal(off), CLOTHED)]


def test_likely_causes_come_in_the_order_of_what_the_difference_looks_like() -> None:
    assert codes("-4.3")[:2] == ["fired", "dial"]
    assert codes("0.7")[:2] == ["cloth_missing", "others_off"]
    assert codes("-0.7")[0] == "cloth_extra"
    assert codes("-0.3")[:2] == ["distance", "dial"]
    assert "meter_set" in codes("1.0")
    assert "meter_set" not in codes("0.7")
    assert codes("-0.4", on=["A", "B"], sets_camera=True)[0] == "singles"
    assert codes("-0.4", on=["A", "B"])[:2] == ["mark", "shaded"]
    assert codes("0.4", on=["A", "B", "C"])[:2] == ["spill", "singles"]  # C is from behind


def test_a_distance_that_would_read_like_it_is_named() -> None:
    cause = next(c for c in remedies.causes(SETUP, STEP, Decimal("-0.5"), CLOTHED) if c.code == "distance")
    # inverse square: 2.0 m x 2^(0.5/2) = 2.38 m, on 5 cm 2.40
    assert dict(cause.values)["reads_like_m"] == pytest.approx(2.40)


def test_power_up_four_tenths_stands_on_the_heads_own_dial() -> None:
    found = remedies.power(LIGHT, TEN, Decimal("-0.4"))
    assert found is not None
    assert (found.stops, found.dial, found.missing_stops) == (Decimal("0.4"), "6.4", Decimal("0.0"))


def test_a_dial_at_its_end_says_what_is_still_missing() -> None:
    full = LIGHT | {"power_below_full_stops": 0.2}
    found = remedies.power(full, TEN, Decimal("-0.5"))
    assert found is not None
    assert (found.stops, found.dial, found.missing_stops) == (Decimal("0.2"), "10.0", Decimal("0.3"))


@pytest.mark.parametrize(
    ("off", "metres", "closer"),
    # 2 m x 2^(off/2), on 5 cm: arithmetic
    [("-0.3", 1.80, 20), ("0.5", 2.40, -40), ("-1.0", 1.40, 60)],
)
def test_distance_follows_the_inverse_square_on_five_centimetres(off: str, metres: float, closer: int) -> None:
    assert remedies.distance(LIGHT, Decimal(off), least_m=0.3) == remedies.Distance(metres, closer)


def test_no_distance_is_offered_that_would_be_another_picture() -> None:
    assert remedies.distance(LIGHT, Decimal("-2.5"), least_m=0.3) is None
    assert remedies.distance(LIGHT, Decimal("0.0"), least_m=0.3) is None
    assert remedies.distance(LIGHT, Decimal("-0.3"), least_m=1.9) is None


@given(st.decimals(-3, 3, places=1), st.floats(0.5, 6))
def test_a_light_moved_as_told_reads_its_target_within_the_step(off: Decimal, at: float) -> None:
    found = remedies.distance(LIGHT | {"distance_m": at}, off, least_m=0.3)
    if found is not None:
        left = float(off) + 2 * math.log2(at / found.metres)
        assert abs(left) <= 2 * math.log2(1 + 0.026 / min(at, found.metres)) + 1e-6


FLASH = against_set.Planned(iso=100, shutter_s=1 / 200, steady=False, sync_s=1 / 200, ambient_lux=0.0)


@pytest.mark.parametrize(
    ("reading", "found", "off", "codes"),
    [
        ("6.0", against_set.Set(5.6, 1 / 200, 100), "1.0", ["lighter"]),
        ("6.0", against_set.Set(8, 1 / 200, 100), "0.0", []),
        ("6.2", against_set.Set(8, 1 / 200, 100), "0.2", []),  # 0.2 is not over 0.2
        ("6.0", against_set.Set(8, 1 / 200, 50), "-1.0", ["darker"]),
        ("6.0", against_set.Set(8, 1 / 60, 100), "0.0", []),  # dark room: the shutter changes nothing
        ("6.0", against_set.Set(8, 1 / 500, 100), "0.0", ["above_sync"]),
    ],
)
def test_the_camera_is_judged_by_the_reading(reading: str, found: against_set.Set, off: str, codes: list[str]) -> None:
    verdict = against_set.judged(Decimal(reading), FLASH, found)
    assert verdict.off_stops == Decimal(off)
    assert [code for code, _n in verdict.flags] == codes


def test_room_light_is_held_against_the_shutter_and_steady_light_counts_the_shutter() -> None:
    lit = against_set.Planned(100, 1 / 200, False, 1 / 200, 300.0)
    # 300 lx x 1/15 s = 20 lx s against 250 x 64/100 = 160 lx s for f/8 at ISO 100: 3 stops under
    assert against_set.judged(Decimal(6), lit, against_set.Set(8, 1 / 15, 100)).flags == (("room_light", 3.0),)
    steady = against_set.Planned(100, 1 / 60, True, 1 / 200, 300.0)
    assert against_set.judged(Decimal(6), steady, against_set.Set(8, 1 / 125, 100)).off_stops == Decimal("-1.1")
