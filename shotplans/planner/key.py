"""Step 2: the search for the key over every emitter, place and pose, and what it found best of each modifier.

Every candidate passes the limits and the cheap score; the best few hundred of each emitter get the full score. With
`SHORTLIST` at None everything is scored fully (the test that says how little the shortlist costs uses that).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.planner import kit as owned
from shotplans.planner.candidates import NEAREST_M, grid, limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.judge import full
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose
from shotplans.planner.score import Scope, cheap, pose_arrays
from shotplans.planner.space import Box

F = NDArray[np.float64]
SHORTLIST: int | None = 300
BROKEN_COST = 3.0  # a broken limit outweighs any score
LONGER = 6
WIDEST_DEG, WIDEST_TURNED_DEG = 90.0, 150.0
BEYOND_CAMERA_M = 2.5


@dataclass(frozen=True)
class Choice:
    """One key that could be built: who sits how, what stands where, how good it is and what it breaks."""

    pose: Pose
    emitter: Emitter
    distance_m: float
    bearing_deg: float
    height_deg: float
    score: float
    broken: float

    @property
    def value(self) -> float:
        """Score less what is broken, for ranking."""
        return self.score - BROKEN_COST * self.broken - (1.0 if self.broken > 0 else 0.0)


@dataclass(frozen=True)
class Found:
    """All choices worth keeping, the best first, and how many candidates were considered."""

    choices: tuple[Choice, ...]
    considered: int


def search(
    poses: Sequence[Pose],
    emitters: Sequence[Emitter],
    *,
    targets: Targets,
    camera: Camera,
    box: Box,
    stands: Sequence[owned.Stand],
    needed: float,
    iso_room_stops: float,
    view: str,
) -> Found:
    """The best choices for each emitter and pose; `needed` is the exposure the key alone must give the dome."""
    order = [s.person.index for s in sorted(poses[0].seated, key=lambda s: s.person.index)]
    arrays = tuple(pose_arrays(p, targets, order) for p in poses)
    widest = WIDEST_TURNED_DEG if view in ("profile", "three_quarter") else WIDEST_DEG
    farthest = min(max(4.0, camera.distance_m + BEYOND_CAMERA_M), float(np.linalg.norm(box.high - box.low)))
    g = grid(poses[0].eye_m, (NEAREST_M, farthest), (0.0, widest))
    choices: list[Choice] = []
    for emitter in emitters:
        lim = limits(g, emitter, camera=camera, box=box, stands=stands, needed=needed, iso_room_stops=iso_room_stops)
        choices += _of_one(Scope(g, emitter, lim, arrays, targets, camera, view), poses)
    choices.sort(
        key=lambda c: (
            -round(c.value, 9),
            c.emitter.modifier.id,
            c.emitter.head.id,
            c.distance_m,
            c.bearing_deg,
            c.height_deg,
        )
    )
    return Found(tuple(choices), len(g.distance_m) * len(poses) * len(emitters))


def _of_one(scope: Scope, poses: Sequence[Pose]) -> list[Choice]:
    """The choices of one emitter: its shortlist, and a longer one when every entry breaks something."""
    broken = scope.lim.broken()
    value = np.stack([cheap(scope, a) - BROKEN_COST * broken - (broken > 0) for a in scope.poses])
    choices = _judged(scope, poses, *_best(value, SHORTLIST))
    if SHORTLIST is not None and all(c.broken > 0 for c in choices):
        # Glare, catchlights or evenness emptied the shortlist: look at many more before calling it impossible.
        choices = _judged(scope, poses, *_best(value, SHORTLIST * LONGER))
    return choices


def _best(value: F, count: int | None) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Placement and pose indices of the highest values of an array (poses, placements)."""
    flat = value.ravel()
    if count is None or count >= flat.size:
        chosen = np.arange(flat.size)
    else:
        chosen = np.sort(np.argpartition(-flat, count)[:count])
    pose_of, placement = np.divmod(chosen, value.shape[1])
    return placement.astype(np.intp), pose_of.astype(np.intp)


def _judged(scope: Scope, poses: Sequence[Pose], picked: NDArray[np.intp], pose_of: NDArray[np.intp]) -> list[Choice]:
    judged, g = full(scope, picked, pose_of), scope.g
    return [
        Choice(
            poses[q],
            scope.emitter,
            float(g.distance_m[i]),
            float(g.bearing_deg[i]),
            float(g.height_deg[i]),
            float(judged.score[n]),
            float(judged.broken[n]),
        )
        for n, (i, q) in enumerate(zip(picked, pose_of, strict=True))
    ]
