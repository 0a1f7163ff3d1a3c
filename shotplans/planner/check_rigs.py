"""Limits of what carries, feeds and fires the lights: stands, arms, bags, circuits, dials, movement. For check.py."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor
from typing import Any

import numpy as np

from shotplans.light import exposure, motion
from shotplans.planner import ballast, movement
from shotplans.planner.candidates import ABOVE_SPIGOT_M
from shotplans.planner.frame import Camera
from shotplans.planner.mounting import counter_arm_m, never_under, overhead_short_m
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem, up
from studio.tongue import gettext as _
from studio.tongue import noop

SMALL_M = 0.011  # what rounding to a centimetre can do
WHO = {
    "child": noop("A small child who may run"), "unsteady": noop("A hand that is not at rest"),
    "small hand": noop("A small hand"), "hand": noop("A hand"),
}  # fmt: skip


def stands(solved: Solved) -> Iterator[Problem]:
    """Whether each stand carries its light, reaches it and stays on its legs."""
    stands = {s.id: s for s in solved.notes["stands"]}  # type: ignore[attr-defined]
    for light in solved.lights:
        held = light.mounting
        stand = stands.get(held.stand) if held else None
        if held is None or stand is None:
            yield Problem(None, "reach", 1.0, "stand", "no_stand_for", {"letter": light.letter})
            continue
        mass = ballast.load_kg(light)
        if mass > stand.max_load_kg:
            yield Problem(None, "load", round(mass - stand.max_load_kg, 1), "kg", "too_heavy", {"letter": light.letter})
        high = light.position[1] - stand.max_height_m - ABOVE_SPIGOT_M
        if high > SMALL_M:
            yield Problem(None, "reach", up(high), "m", "too_high", {"letter": light.letter})
        if held.boom and held.arm_m > float(stand.reach_m or 0.0) + 0.01:
            short = held.arm_m - float(stand.reach_m or 0.0)
            yield Problem(None, "reach", up(short), "m", "arm_short", {"letter": light.letter})
        over = overhead_short_m(
            np.array(held.foot_m), light.at, counter_arm_m(stand), never_under(solved.pose.seated)
        ) if held.boom else 0.0  # fmt: skip
        if over > SMALL_M:
            yield Problem(None, "overhead", up(over), "m", "boom_over", {"letter": light.letter})
    for letter, short in ballast.counterweight_short_kg(solved).items():
        yield Problem(None, "load", _tenth_up(short), "kg", "counterweight", {"letter": letter})
    yield from _bags(solved)


def _bags(solved: Solved) -> Iterator[Problem]:
    for rig in ballast.rigs(solved):
        if rig.short_kg > 0.05:
            values = {"what": rig.what, "wanted": f"{rig.wanted_kg:g}", "have": f"{rig.bag_kg:g}",
                      "push": f"{ballast.PUSH_N:.0f}"}  # fmt: skip
            yield Problem(None, "load", _tenth_up(rig.short_kg), "kg", "sandbag_short", values)


def dials(solved: Solved) -> Iterator[Problem]:
    """Heads that cannot be turned down as far as the light wanted of them asks."""
    over: dict[str, float] = solved.notes["over"]  # type: ignore[assignment]
    for light in solved.lights:
        stops = over.get(light.role, 0.0)
        if stops >= 0.05:
            yield Problem(None, "power", max(0.1, round(stops, 1)), "stops", "power_low", {"letter": light.letter})


def moving(solved: Solved) -> Iterator[Problem]:
    """Movement that smears more on the print than the blur circle everything else is held to."""
    found = movement.smear(solved)
    if found is None or not found.shows:
        return
    values: dict[str, Any] = {
        "who": _(WHO[found.who]), "speed": f"{found.speed_m_s:g}", "on_print": f"{found.print_mm:.2f}",
        "print_cm": f"{found.print_cm:g}", "circle": f"{found.circle_mm:.2f}", "head": found.head,
        "need": f"{_two_figures_up(1 / found.longest_s):.0f}",
        "shutter": exposure.shutter_label(solved.camera.shutter_s),
    }  # fmt: skip
    stops = max(0.1, round(float(np.log2(found.print_mm / found.circle_mm)), 1))
    code = "blur_steady" if solved.steady else "blur_flash"
    yield Problem(None, "sharpness", stops, "stops", code, values)


def lit_percent(camera: Camera) -> int:
    """Share of the frame that a short flash lights through this shutter, in percent."""
    return round(100 * float(motion.frame_lit_share(camera.shutter_s, camera.body.sync_s)))


def circuits(solved: Solved, expected: dict[str, Any]) -> Iterator[Problem]:
    """Circuits over four fifths of their breaker, and breakers that one head after the other already exceeds."""
    breakers = {c.label: float(c.breaker_amps) for c in solved.notes["circuits"]}  # type: ignore[attr-defined]
    for row in expected["load"]:
        over = row["watts"] - row["limit_watts"]
        if over > 0:
            yield Problem(None, "circuit", max(1.0, round(over)), "W", "circuit", {"circuit": row["circuit"]})
        beyond = row["staggered_amps"] - breakers[row["circuit"]]
        if beyond > 0.05:
            values = {"circuit": row["circuit"], "peak": f"{row['staggered_amps']:g}",
                      "breaker": f"{breakers[row['circuit']]:g}"}  # fmt: skip
            yield Problem(None, "circuit", round(beyond, 1), "A", "circuit_peak", values)


def _two_figures_up(value: float) -> float:
    step = 10.0 ** (floor(np.log10(value)) - 1)
    return float(ceil(value / step - 1e-9) * step)


def _tenth_up(value: float) -> float:
    return max(0.1, ceil(value * 10 - 1e-6) / 10)
