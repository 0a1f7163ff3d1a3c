"""The best keys again with another aim: past the near face, where that brings several faces nearer to one another."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shotplans.planner.candidates import Grid, front, tangents
from shotplans.planner.choice import Choice
from shotplans.planner.front_search import Search
from shotplans.planner.judge import full
from shotplans.planner.score import FEATHER_COST, standing_cost

F = NDArray[np.float64]
FEATHERED = 40  # keys that are tried with another aim
FEATHER_DEG = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)


def aimed(g: Grid, feather_deg: F) -> Grid:
    """The placements with each front turned by so much from the eyes, across its own height, away from the near face.

    With the key at camera right that is toward camera left and the lens.
    """
    turn = np.radians(feather_deg)[:, None]
    across, _ = tangents(g.toward)
    return g.take(np.arange(len(g.distance_m)), np.cos(turn) * g.toward + np.sin(turn) * across)


def feathered(within: Search, ranked: Sequence[Choice]) -> list[Choice]:
    """The best keys again, aimed past the near face by each step, where several faces are lit at once."""
    if not ranked or not within.scope(ranked[0].emitter, within.g).together:
        return []
    groups: dict[int, list[Choice]] = {}
    for choice in ranked[:FEATHERED]:
        groups.setdefault(id(choice.emitter), []).append(choice)
    return [c for alike in groups.values() for c in _turned(within, alike)]


def _turned(within: Search, alike: Sequence[Choice]) -> list[Choice]:
    """Choices of one emitter with every aim; where the light stands, and who sits how, stays."""
    emitter, turns = alike[0].emitter, len(FEATHER_DEG)
    at = [_index(within.g, c) for c in alike]
    feather = np.tile(np.array(FEATHER_DEG), len(alike))
    g = aimed(within.g.take(np.repeat(np.array(at, dtype=np.intp), turns)), feather)
    number = {id(pose): q for q, pose in enumerate(within.poses)}
    pose_of = np.repeat(np.array([number[id(c.pose)] for c in alike], dtype=np.intp), turns)
    found = full(within.scope(emitter, g), np.arange(len(feather)), pose_of)
    lim = within.limits(front(g, emitter, within.camera, within.box), g, emitter)
    score = found.score - standing_cost(emitter, lim) - FEATHER_COST * feather
    broken = found.broken + lim.broken()
    return [
        Choice(c.pose, emitter, c.distance_m, c.bearing_deg, c.height_deg, float(score[n]), float(broken[n]), turn)
        for i, c in enumerate(alike)
        for j, turn in enumerate(FEATHER_DEG)
        for n in (i * turns + j,)
    ]


def _index(g: Grid, c: Choice) -> int:
    """Where a choice stands on the grid it came from."""
    d, b, h = g.axes
    i, j, k = (int(np.argmin(np.abs(a - v))) for a, v in ((d, c.distance_m), (b, c.bearing_deg), (h, c.height_deg)))
    return (i * len(b) + j) * len(h) + k
