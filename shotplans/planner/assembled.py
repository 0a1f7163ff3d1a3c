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
from studio.tongue import gettext as _

ENGINE = "tenthstop planner 1"
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
