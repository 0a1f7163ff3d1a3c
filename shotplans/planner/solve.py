"""The planner's one door: a request in, the whole document out. Deterministic but for the seconds it took."""

from __future__ import annotations

from collections.abc import Sequence
from time import perf_counter
from typing import Any

from shotplans.planner import alternatives, assembled, assumptions, document, outcome, reasons, solve_setup
from shotplans.planner.brief import Setup
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem
from shotplans.planner.request import Request
from shotplans.planner.solve_setup import Answer, Unsolved

UNSOLVED_LIMIT = {
    "no_head": "kit",
    "no_steady_head": "flash",
    "no_modifier": "kit",
    "no_mount": "mount",
    "no_stand": "kit",
    "too_hot": "kit",
    "nothing_stands": "reach",
    "floor_short": "reach",
    "room_too_small": "room",
}


def plan(given: Request) -> dict[str, Any]:
    """The document of recommend-io.md for a request, with everything in it that a reader of JSON can hold."""
    started = perf_counter()
    request, assumed = assumptions.fill(given)
    ordered = sorted(request.brief.setups, key=lambda s: not _no_flash(request, s))
    answers = [(s, solve_setup.solve(request, s)) for s in ordered]
    setups, problems = [], []
    for setup, answer in answers:
        others = [a.best for _, a in answers if isinstance(a, Answer) and a is not answer]
        entry, found = _entry(request, setup, answer, others)
        setups.append(entry)
        problems += found
    solved = [a.best for _, a in answers if isinstance(a, Answer)]
    scored = sum(a.best.candidates if isinstance(a, Answer) else a.candidates for _, a in answers)
    done = assembled.document(given, request, assumed, setups, solved, problems, scored)
    return {**done, "planning_seconds": round(perf_counter() - started, 3)}


def _no_flash(request: Request, setup: Setup) -> bool:
    return any(s.no_flash for s in request.sitters if s.label in setup.people)


def _entry(
    request: Request, setup: Setup, answer: Answer | Unsolved, others: Sequence[Solved]
) -> tuple[dict[str, Any], list[Problem]]:
    if isinstance(answer, Unsolved):
        return document.unsolved(setup.name, str(setup.intent)), [_unsolved(request, answer)]
    best = answer.best
    found = outcome.outcome(request, best, mends=True)
    index = [s.name for s in request.brief.setups].index(setup.name)
    why = side_why(request, setup)
    entry = {
        **document.setup(best),
        "meter_round": found.meter_round,
        "teaches_most": found.teaches_most,
        "expected": found.expected,
        "reasons": reasons.reasons(
            best, found.meter, found.expected, found.expected["per_sitter"], index, why
        ),
    }
    entry["alternatives"] = alternatives.alternatives(request, answer, found, others)
    return entry, found.problems


def _unsolved(request: Request, answer: Unsolved) -> Problem:
    """Why a set-up has no light; where it is the floor, how much of the strips would have to be free."""
    values, code, short, unit = answer.values, answer.code, answer.values.get("short_by", 1.0), "piece"
    if code == "nothing_stands":
        strip, kept = solve_setup.freer(request, answer.setup), float(request.room.keep_out_m or 0.0)
        if strip is not None:
            values = {"strip": f"{strip:.1f}", "kept": f"{kept:.2f}"}
            code, short, unit = "floor_short", round(kept - strip, 2), "m"
    unit = str(values.get("unit", unit))
    return Problem(answer.setup.name, UNSOLVED_LIMIT[code], float(short), unit, code, values)  # type: ignore[arg-type]


def side_why(request: Request, setup: Setup) -> str:
    if request.brief.key_side != "either":
        return "ordered"
    return "people" if solve_setup.sided(request.sitters, setup) else "habit"
