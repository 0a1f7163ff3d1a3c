"""Limits of the fill and the ground: what bounces, what covers, how light it comes out. Part of check.py."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.planner.expect import Meter, cheeks_with_front_fill
from shotplans.planner.ground import GOOD_ENOUGH_L
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem, up
from shotplans.planner.scene import Filled

FILL_SLACK_STOPS = 0.25


def bounce(solved: Solved, meter: Meter, expected: dict[str, Any]) -> Iterator[Problem]:
    filled = solved.notes["fill"]
    assert isinstance(filled, Filled)
    level = float(expected["fill_below_key_stops"])
    if level < filled.wanted.low - FILL_SLACK_STOPS and filled.how in ("bounce", "blocked", "none"):
        short = round(filled.wanted.low - level, 1)
        yield Problem(
            None,
            "bounce",
            max(0.1, short),
            "stops",
            "bounce_over",
            {"level": level, "wanted": round(filled.wanted.low, 1)},
        )
    if level > filled.wanted.high + FILL_SLACK_STOPS and not _cheek_filled(solved, meter, expected, filled):
        short = round(level - filled.wanted.high, 1)
        yield Problem(
            None,
            "kit",
            max(0.1, short),
            "stops",
            "fill_short",
            {"level": level, "wanted": round(filled.wanted.high, 1)},
        )


def _cheek_filled(solved: Solved, meter: Meter, expected: dict[str, Any], filled: Filled) -> bool:
    """Whether a panel beside the face fills the shadow cheek as well as the wanted fill over the lens would.

    The dome at the camera reads little of a panel that stands beside the face, the cheek that faces it gets all of it.
    """
    if filled.how != "panel":
        return False
    return float(expected["shadow_below_lit_stops"]) <= cheeks_with_front_fill(solved, meter, filled.wanted.high) + 0.1


def ground(solved: Solved) -> Iterator[Problem]:
    ground = solved.ground
    assert ground is not None
    if not ground.covers:
        yield Problem(None, "background", up(ground.covers_short_m), "m", "ground_narrow", {"item": ground.item.id})
    low, high = ground.wanted
    if low >= 95:
        if ground.reading_above_setting < 0.25:
            yield Problem(
                None,
                "background",
                round(0.3 - ground.reading_above_setting, 1),
                "stops",
                "ground_not_white",
                {"item": ground.item.id},
            )
        elif ground.spread_stops > 0.35 and len(solved.by_role("background")) < 2:
            yield Problem(
                None,
                "background",
                round(ground.spread_stops - 0.3, 1),
                "stops",
                "ground_uneven",
                {"item": ground.item.id},
            )
    elif ground.lightness < low - GOOD_ENOUGH_L or ground.lightness > high + GOOD_ENOUGH_L:
        code = "ground_dark" if ground.lightness < low else "ground_light"
        short = low - ground.lightness if ground.lightness < low else ground.lightness - high
        yield Problem(
            None,
            "background",
            max(0.1, round(short, 1)),
            "L*",
            code,
            {"item": ground.item.id, "lightness": round(ground.lightness), "low": round(low), "high": round(high)},
        )
