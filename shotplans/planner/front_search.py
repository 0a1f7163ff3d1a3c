"""One front in the search for the key: which of its placements and poses are worth the full score, head by head.

What hangs on the front alone is kept, so that every head behind it finds it reckoned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from shotplans.planner import kit as owned
from shotplans.planner.candidates import Front, Grid, Limits, front, headed
from shotplans.planner.choice import BROKEN_COST, Choice, value_of
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.judge import Full, but_relief, relief_part
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose
from shotplans.planner.score import WEIGHTS, PoseArrays, Scope, of_front, standing_cost
from shotplans.planner.space import Box

F = NDArray[np.float64]
# Placements whose limits are looked at first: for each that is wanted, at least, and how many more where they run out.
LOOKED, LEAST_LOOKED, GROWTH = 4, 1200, 4
KEPT = 100  # choices of one emitter worth keeping; more than the stands are tried for


@dataclass(frozen=True)
class Search:
    """What every emitter is tried in."""

    g: Grid
    poses: tuple[Pose, ...]
    arrays: tuple[PoseArrays, ...]
    place: tuple[F, ...]
    glass: tuple[F | None, ...]
    targets: Targets
    camera: Camera
    box: Box
    stands: tuple[owned.Stand, ...]
    needed: float
    iso_room_stops: float
    view: str

    def scope(self, emitter: Emitter, g: Grid) -> Scope:
        return Scope(g, emitter, self.arrays, self.targets, self.camera, self.view)

    def limits(self, fixed: Front, g: Grid, emitter: Emitter) -> Limits:
        return headed(fixed, g, emitter, self.stands, self.needed, self.iso_room_stops)


@dataclass
class OneFront:
    """One front on the grid with the heads behind it: the cheap score of every placement, and what is known of some."""

    within: Search
    scope: Scope
    alike: Sequence[Emitter]
    looked: dict[int, tuple[NDArray[np.intp], Grid, Front]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        added = {id(q): of_front(self.scope, q) for q in self.within.glass}
        self.bound = np.stack([p + added[id(q)] for p, q in zip(self.within.place, self.within.glass, strict=True)])
        self.best = self.bound.max(axis=0)
        self.judged = Full(np.full(self.bound.shape, np.nan), np.full(self.bound.shape, np.nan))
        self.relief = np.full(self.bound.shape, np.nan)

    def _look(self, count: int) -> tuple[NDArray[np.intp], Grid, Front]:
        """The placements of the highest cheap score, with what the front does there."""
        if count not in self.looked:
            chosen = highest(self.best, count)
            g = self.within.g.take(chosen)
            self.looked[count] = chosen, g, front(g, self.scope.emitter, self.within.camera, self.within.box)
        return self.looked[count]

    def _shortlist(
        self, emitter: Emitter, wanted: int | None
    ) -> tuple[NDArray[np.intp], NDArray[np.intp], F, F, F]:
        """Placements and poses of the highest value less what is broken, with that, the head's part, the cost.

        Limits and costs only take away, so those not looked at cannot come before a list that beats their cheap score.
        """
        every = self.best.size
        count = every if wanted is None else min(every, max(LOOKED * wanted, *self.looked, LEAST_LOOKED))
        while True:
            chosen, g, fixed = self._look(count)
            lim = self.within.limits(fixed, g, emitter)
            broken, cost = lim.broken(), standing_cost(emitter, lim)
            value = self.bound[:, chosen] - cost - BROKEN_COST * broken - (broken > 0)
            flat = highest(value.ravel(), value.size if wanted is None else wanted)
            pose_of, at = np.divmod(flat, chosen.size)
            unseen = -np.inf if count == every else float(np.partition(self.best, every - count - 1)[every - count - 1])
            if count == every or float(value[pose_of, at].min()) >= unseen:
                return chosen[at], pose_of, broken[at], lim.by_head()[at], cost[at]
            count = min(every, GROWTH * count)

    def choices(self, emitter: Emitter, wanted: int | None) -> list[Choice]:
        """The full score of the shortlist with this head; relief only of those it may lift among the kept."""
        picked, pose_of, broken, by_head, cost = self._shortlist(emitter, wanted)
        at = pose_of, picked
        new = np.isnan(self.judged.score[at])
        if new.any():
            found = but_relief(self.scope, picked[new], pose_of[new])
            self.judged.score[pose_of[new], picked[new]] = found.score
            self.judged.broken[pose_of[new], picked[new]] = found.broken
        score, broken = self.judged.score[at] - cost, self.judged.broken[at] + broken
        least = value_of(Full(score, broken))
        bar = float(np.partition(least, -KEPT)[-KEPT]) if least.size > KEPT else -np.inf
        near = least + WEIGHTS["relief"] >= bar
        new = near & np.isnan(self.relief[at])
        if new.any():
            self.relief[pose_of[new], picked[new]] = relief_part(self.scope, picked[new], pose_of[new])
        score = np.where(near, score + self.relief[at], -np.inf)
        return _choices(self.within, emitter, picked, pose_of, Full(score, broken), by_head)


def highest(value: F, count: int) -> NDArray[np.intp]:
    """Places of the highest values, in the order they stand in."""
    if count >= value.size:
        return np.arange(value.size)
    return np.sort(np.argpartition(-value, count)[:count])


def _choices(
    within: Search, emitter: Emitter, picked: NDArray[np.intp], pose_of: NDArray[np.intp], judged: Full, by_head: F
) -> list[Choice]:
    """The best of what was judged, at most `KEPT`, as choices."""
    g = within.g
    return [
        Choice(
            within.poses[pose_of[n]],
            emitter,
            float(g.distance_m[picked[n]]),
            float(g.bearing_deg[picked[n]]),
            float(g.height_deg[picked[n]]),
            float(judged.score[n]),
            float(judged.broken[n]),
            by_head=float(by_head[n]),
        )
        for n in highest(value_of(judged), KEPT)
    ]
