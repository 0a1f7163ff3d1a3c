"""What a placed set comes out as: the numbers to expect, the meter round, what reading to take first, what is broken.

The one way from a `Solved` to those numbers, for the plan, its alternatives and a what-if alike, so that they cannot
disagree. Nothing is searched or decided here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from shotplans.planner import check, document, nearest, rounds, uncertainty, words
from shotplans.planner.expect import Meter
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem
from shotplans.planner.request import Request
from shotplans.planner.steps import Step, steps


@dataclass(frozen=True)
class Outcome:
    """The computed half of a set-up: `expected` and `meter_round` as printed, the first reading, the broken limits."""

    meter: Meter
    expected: dict[str, Any]
    meter_round: list[dict[str, Any]]
    teaches_most: dict[str, Any] | None
    problems: list[Problem]


def outcome(request: Request, solved: Solved, *, mends: bool = False) -> Outcome:
    """Everything that follows from where things stand, computed once; with `mends` also what would mend each limit."""
    meter = meter_of(request, solved)
    taken = steps(solved, meter)
    found = uncertainty.spread(solved, taken)
    sure = uncertainty.printed(found)
    at = next(n for n, s in enumerate(taken) if s.kind == "setting")
    block = document.expected(solved, meter, sure[at])
    broken = check.problems(solved, meter, block["per_sitter"], block)
    if mends:
        broken = nearest.mended(solved, meter, broken)
    return Outcome(meter, block, rounds.numbered(solved, meter, taken, sure), _first(taken, found), broken)


def at_once(request: Request, solved: Solved) -> Outcome:
    """The same numbers, readings and limits without how sure each is: that is a third of the reckoning, and a hand
    that drags a light waits for every one."""
    meter = meter_of(request, solved)
    taken = steps(solved, meter)
    block = document.expected(solved, meter, {})
    broken = check.problems(solved, meter, block["per_sitter"], block)
    return Outcome(meter, block, rounds.numbered(solved, meter, taken, [{} for _ in taken]), None, broken)


def meter_of(request: Request, solved: Solved) -> Meter:
    """The meter as the house holds it."""
    house = request.brief.meter
    return Meter(solved, house.dome == "recessed", house.setting_reading == "at_key")


def _first(taken: Sequence[Step], found: uncertainty.Spread) -> dict[str, Any] | None:
    """The reading to take first, with its sentence."""
    best = uncertainty.teaches_most(taken, found)
    if best is None:
        return None
    number, before, after = best
    light = taken[number].alone
    assert light is not None
    shown = (uncertainty.shown(before), uncertainty.shown(after))
    return {"step": number + 1, "because": words.teaches(light.letter, light.role, *shown)}
