"""A plan's document put together from its set-ups: the day's order, what is packed, what follows from the people.

Belongs here: what is reckoned from all set-ups at once, searched or moved by hand alike. Not here: how a set-up was
found (`solve`), or what one of them comes out as (`outcome`).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shotplans.planner import batteries, cautions, consequences, packing, rules, shotlist
from shotplans.planner.codec import fingerprint
from shotplans.planner.consequence import Asked
from shotplans.planner.consultation import extra_minutes
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem
from shotplans.planner.request import Request
from shotplans.planner.shotlist import Listed
from shotplans.planner.words.method import METHOD
from studio.tongue import gettext as _

ENGINE = "tenthstop planner 1"


def document(
    given: Request, request: Request, assumed: Sequence[str], setups: list[dict[str, Any]], solved: list[Solved],
    problems: list[Problem], scored: int,
) -> dict[str, Any]:  # fmt: skip
    """The document of recommend-io.md from set-ups as printed and as values; its set-ups in the order to shoot.

    `request` is `given` with its defaults filled, `assumed` what was said of them. The seconds are the caller's.
    """
    day = _day(request, setups, solved)
    setups.sort(key=lambda s: day.setups.index(s["name"]) if s["name"] in day.setups else len(setups))
    solved.sort(key=lambda s: [one["name"] for one in setups].index(s.setup.name))
    problems = problems + batteries.problems(solved, day.shots) + consequences.problems(request, day)
    return {
        "engine": ENGINE,
        "fingerprint": fingerprint(given),
        "assumptions": [*assumed, *map(_, METHOD)],
        "cautions": cautions.cautions(request, solved),
        "candidates_scored": scored,
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


def _day(request: Request, setups: list[dict[str, Any]], solved: Sequence[Solved]) -> Listed:
    """The shot list, within the booked time less what the notes ask for."""
    house = rules.house(request.rules)
    in_turn = {s.setup.name for s in solved if s.pose.in_turn}
    extra = extra_minutes(Asked(request, tuple(solved), house))
    return shotlist.listed(request, setups, in_turn, house, extra)
