"""The planner's one door: a request in, the whole document out. Deterministic but for the seconds it took."""

from __future__ import annotations

from collections.abc import Sequence
from time import perf_counter
from typing import Any

from shotplans.planner import (
    alternatives,
    assumptions,
    batteries,
    cautions,
    consequences,
    document,
    outcome,
    packing,
    reasons,
    rules,
    shotlist,
    solve_setup,
)
from shotplans.planner.brief import Setup
from shotplans.planner.codec import fingerprint
from shotplans.planner.consequence import Asked
from shotplans.planner.consultation import extra_minutes
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem
from shotplans.planner.request import Request
from shotplans.planner.shotlist import Listed
from shotplans.planner.solve_setup import Answer, Unsolved

ENGINE = "tenthstop planner 1"
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
METHOD = (
    "Sources are uniform discs or rectangles of the stated size and beam; fronts brighter in the middle count as the "
    "disc of equal second moment.",
    "Beams are powers of the cosine, grids cut in a straight line to their stated angle, umbrellas spill backwards by "
    "a share that is sure to a factor of two.",
    "Room bounce is an integrating-sphere estimate from the surfaces, good to about half a stop until read.",
    "Relief is of a standard groove (depth to width 0.15) on opaque skin; real skin blurs it: the worst case.",
    "Anatomy, lens tilt (8 degrees) and wrap (5) are averages; glare and catchlights are advice, to be looked at.",
    "Give or take of a reading: heads 0.3 stop until readings correct them, places 5 cm and 5 degrees, the bounce half "
    "a stop of its own, the dial's step; the meter's own error is not in it.",
    "A lens is taken to scatter 2 % of a bright field over the picture, each cloth to warm light by 5 mired: values "
    "from memory, good to a factor of two.",
    "Not computed in this version, so null: cloths, minutes_build.",
)


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
    day = _day(request, setups, solved)
    setups.sort(key=lambda s: day.setups.index(s["name"]) if s["name"] in day.setups else len(setups))
    solved.sort(key=lambda s: [one["name"] for one in setups].index(s.setup.name))
    problems += batteries.problems(solved, day.shots) + consequences.problems(request, day)
    done = {
        "engine": ENGINE,
        "fingerprint": fingerprint(given),
        "assumptions": [*assumed, *METHOD],
        "cautions": cautions.cautions(request, solved),
        "candidates_scored": sum(a.best.candidates if isinstance(a, Answer) else a.candidates for _, a in answers),
        "planning_seconds": 0.0,
        "setups": setups,
        "problems": [p.printed() for p in problems],
        "shots": day.shots,
        "shots_proposed": day.proposed,
        "minutes_changes": round(day.changes, 1),
        "packing": packing.packing(solved, request) if solved else [],
        "retouch": consequences.retouch(request, day.shots),
        "minutes_build": None,
        "consequences": consequences.consequences(request, solved, day),
    }
    return {**done, "planning_seconds": round(perf_counter() - started, 3)}


def _day(request: Request, setups: list[dict[str, Any]], solved: Sequence[Solved]) -> Listed:
    """The shot list, within the booked time less what the notes ask for."""
    house = rules.house(request.rules)
    in_turn = {s.setup.name for s in solved if s.pose.in_turn}
    extra = extra_minutes(Asked(request, tuple(solved), house))
    return shotlist.listed(request, setups, in_turn, house, extra)


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
    why = _side_why(request, setup)
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


def _side_why(request: Request, setup: Setup) -> str:
    if request.brief.key_side != "either":
        return "ordered"
    return "people" if solve_setup.sided(request.sitters, setup) else "habit"

