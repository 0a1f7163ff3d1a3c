"""Limits of what carries and feeds the lights: stands, arms, weights, circuits. Part of check.py."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.planner.candidates import ABOVE_SPIGOT_M
from shotplans.planner.mounting import PANEL_KG
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem, up

SMALL_M = 0.011  # what rounding to a centimetre can do


def stands(solved: Solved) -> Iterator[Problem]:
    stands = {s.id: s for s in solved.notes["stands"]}  # type: ignore[attr-defined]
    for light in solved.lights:
        held = light.mounting
        stand = stands.get(held.stand) if held else None
        if held is None or stand is None:
            yield Problem(None, "reach", 1.0, "stand", "no_stand_for", {"letter": light.letter})
            continue
        mass = light.emitter.mass_kg if light.emitter else PANEL_KG
        if mass > stand.max_load_kg:
            yield Problem(None, "load", round(mass - stand.max_load_kg, 1), "kg", "too_heavy", {"letter": light.letter})
        high = light.position[1] - stand.max_height_m - ABOVE_SPIGOT_M
        if high > SMALL_M:
            yield Problem(None, "reach", up(high), "m", "too_high", {"letter": light.letter})
        if held.boom and held.arm_m > float(stand.reach_m or 0.0) + 0.01:
            short = held.arm_m - float(stand.reach_m or 0.0)
            yield Problem(None, "reach", up(short), "m", "arm_short", {"letter": light.letter})
        weights = float(solved.notes["weights_kg"]) + float(stand.counterweight_kg or 0.0)  # type: ignore[arg-type]
        if held.boom and held.counterweight_kg > weights + 1e-6:
            short = held.counterweight_kg - weights
            yield Problem(None, "load", round(short, 1), "kg", "counterweight", {"letter": light.letter})


def circuits(expected: dict[str, Any]) -> Iterator[Problem]:
    for row in expected["load"]:
        over = row["watts"] - row["limit_watts"]
        if over > 0:
            yield Problem(None, "circuit", round(over), "W", "circuit", {"circuit": row["circuit"]})
