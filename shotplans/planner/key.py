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
from shotplans.planner.candidates import NEAREST_M, Grid, Limits, grid, limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose
from shotplans.planner.score import cheap, full, pose_arrays
from shotplans.planner.space import Box

F = NDArray[np.float64]
SHORTLIST: int | None = 300
BROKEN_COST = 3.0  # a broken limit outweighs any score
WIDEST_DEG = 90.0
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
    cameras: Sequence[Camera],
    box: Box,
    stands: Sequence[owned.Stand],
    needed: Sequence[float],
    iso_room_stops: float,
    view: str,
) -> Found:
    """The best choices for each emitter and pose. `cameras` and `needed` go with the poses (same lens for all)."""
    order = [s.person.index for s in sorted(poses[0].seated, key=lambda s: s.person.index)]
    arrays = [pose_arrays(p, targets, order) for p in poses]
    camera, eye = cameras[0], poses[0].eye_m
    widest = WIDEST_DEG if view not in ("profile", "three_quarter") else 150.0
    farthest = max(4.0, camera.distance_m + BEYOND_CAMERA_M)
    g = grid(eye, (NEAREST_M, min(farthest, float(np.linalg.norm(box.high - box.low)))), (0.0, widest))
    choices: list[Choice] = []
    considered = 0
    for emitter in emitters:
        lim = limits(
            g, emitter, camera=camera, box=box, stands=stands, needed=needed[0], iso_room_stops=iso_room_stops
        )
        broken = lim.broken()
        considered += len(g.distance_m) * len(poses)
        flat = [cheap(g, emitter, lim, a, targets, view) - BROKEN_COST * broken - (broken > 0) for a in arrays]
        picked, pose_of = _best(np.stack(flat), SHORTLIST)
        choices += _judged(picked, pose_of, poses, arrays, g, emitter, lim, targets, camera, view)
        if SHORTLIST is not None and all(c.broken > 0 for c in choices[-len(picked) :]):
            # Glare, catchlights or evenness emptied the shortlist: look at many more before calling it impossible.
            picked, pose_of = _best(np.stack(flat), SHORTLIST * 6)
            choices += _judged(picked, pose_of, poses, arrays, g, emitter, lim, targets, camera, view)
    choices.sort(
        key=lambda c: (-round(c.value, 9), c.emitter.modifier.id, c.emitter.head.id, c.distance_m, c.bearing_deg,
                       c.height_deg)
    )
    return Found(tuple(choices), considered)


def _best(value: F, count: int | None) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Placement and pose indices of the highest values of an array (poses, placements)."""
    flat = value.ravel()
    if count is None or count >= flat.size:
        chosen = np.arange(flat.size)
    else:
        chosen = np.sort(np.argpartition(-flat, count)[:count])
    pose_of, placement = np.divmod(chosen, value.shape[1])
    return placement.astype(np.intp), pose_of.astype(np.intp)


def _judged(
    picked: NDArray[np.intp], pose_of: NDArray[np.intp], poses: Sequence[Pose], arrays: list, g: Grid,  # type: ignore[type-arg]
    emitter: Emitter, lim: Limits, targets: Targets, camera: Camera, view: str,
) -> list[Choice]:
    judged = full(picked, pose_of, arrays, g, emitter, lim, targets, camera, view)
    return [
        Choice(
            poses[q], emitter, float(g.distance_m[i]), float(g.bearing_deg[i]), float(g.height_deg[i]),
            float(judged.score[n]), float(judged.broken[n]),
        )
        for n, (i, q) in enumerate(zip(picked, pose_of, strict=True))
    ]
