"""Step 2: the search for the key over every emitter, place and pose, and what it found best of each modifier.

Every candidate passes the cheap score, the best of them the limits and the full score. What hangs on the front alone is
reckoned once for all heads that can stand behind it. Where several faces are lit, the best keys are tried again with
their aim turned past the near face. With `SHORTLIST` at None everything is scored fully (the test that says how little
the shortlist costs uses that).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from shotplans.planner import kit as owned
from shotplans.planner.candidates import NEAREST_M, Front, Grid, Limits, front, grid, headed, tangents
from shotplans.planner.emitters import Emitter, both_ways
from shotplans.planner.frame import Camera
from shotplans.planner.judge import Full, full
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose
from shotplans.planner.score import (
    FEATHER_COST,
    PoseArrays,
    Scope,
    glass_reach,
    of_front,
    of_place,
    pose_arrays,
    standing_cost,
)
from shotplans.planner.space import Box

F = NDArray[np.float64]
SHORTLIST: int | None = 300
BROKEN_COST = 3.0  # a broken limit outweighs any score
LONGER = 6
WIDEST_DEG, WIDEST_TURNED_DEG = 90.0, 150.0
BEYOND_CAMERA_M = 2.5
# The full score is seldom further above the cheap one; the guess at glare takes up to a quarter too much.
NO_MATCH, NO_MATCH_GLASSES = 0.05, 0.3
LOOKED = 4  # placements whose limits are looked at first, for each that is wanted
KEPT = 100  # choices of one emitter worth keeping; more than the stands are tried for
FEATHERED = 40  # keys that are tried with another aim
FEATHER_DEG = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)


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
    feather_deg: float = 0.0  # the aim turned from the eyes at the mark, past the near face

    @property
    def value(self) -> float:
        """Score less what is broken, for ranking."""
        return self.score - BROKEN_COST * self.broken - (1.0 if self.broken > 0 else 0.0)


@dataclass(frozen=True)
class Found:
    """All choices worth keeping, the best first, and how many candidates were considered."""

    choices: tuple[Choice, ...]
    considered: int


@dataclass(frozen=True)
class _Search:
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
    place = tuple(of_place(g, a, targets, view) for a in arrays)
    glass = tuple(glass_reach(g, a) for a in arrays)
    within = _Search(
        g, tuple(poses), arrays, place, glass, targets, camera, box, tuple(stands), needed, iso_room_stops, view
    )
    tried = both_ways(emitters)
    choices = sorted(_of_all(within, tried), key=_rank)
    choices = sorted([*choices, *_feathered(within, choices)], key=_rank)
    return Found(tuple(choices), len(g.distance_m) * len(poses) * len(tried))


def _of_all(within: _Search, tried: Sequence[Emitter]) -> list[Choice]:
    """The choices of every emitter worth the full score, the fronts of the highest cheap score first.

    A front that is no match for another of its kind that breaks nothing is left out: it can be neither the key nor a
    way that differs in kind. Where every entry of a shortlist breaks something a longer one is looked at, but only
    the best front of its kind once another kind does without.
    """
    fronts = [_OneFront(within, within.scope(alike[0], within.g), alike) for alike in _by_front(tried)]
    margin = NO_MATCH if all(q is None for q in within.glass) else NO_MATCH_GLASSES
    best: dict[str, float] = {}
    looked: set[str] = set()
    found: list[Choice] = []
    for one in sorted(fronts, key=lambda f: -float(f.best.max())):
        kind = str(one.scope.emitter.modifier.kind)
        for emitter in one.alike:
            if float(one.best.max()) + margin < best.get(kind, -np.inf):
                continue
            choices = one.choices(emitter, SHORTLIST)
            if SHORTLIST is not None and all(c.broken > 0 for c in choices) and not (best and kind in looked):
                looked.add(kind)
                choices = one.choices(emitter, SHORTLIST * LONGER)
            kept = [c.value for c in choices if c.broken == 0]
            if kept:
                best[kind] = max(best.get(kind, -np.inf), *kept)
            found += choices
    return found


def _rank(c: Choice) -> tuple[float | str, ...]:
    pair = (c.emitter.modifier.id, c.emitter.head.id, c.emitter.roll_deg)
    return (-round(c.value, 9), *pair, c.distance_m, c.bearing_deg, c.height_deg, c.feather_deg)


def _by_front(emitters: Iterable[Emitter]) -> list[list[Emitter]]:
    """Emitters in groups of one front: all that tells them apart is the head behind it."""
    groups: dict[tuple[object, ...], list[Emitter]] = {}
    for e in emitters:
        m = e.modifier
        shape = (m.kind, e.disc, e.width_m, e.height_m, e.core_stops, e.beam_deg, m.grid_deg, m.lip_m)
        groups.setdefault((*shape, e.depth_m, m.min_distance_m, e.spill), []).append(e)
    return list(groups.values())


@dataclass
class _OneFront:
    """One front on the grid with the heads behind it: the cheap score of every placement, and what is known of some."""

    within: _Search
    scope: Scope
    alike: Sequence[Emitter]
    looked: dict[int, tuple[NDArray[np.intp], Grid, Front]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        added = {id(q): of_front(self.scope, q) for q in self.within.glass}
        self.bound = np.stack([p + added[id(q)] for p, q in zip(self.within.place, self.within.glass, strict=True)])
        self.best = self.bound.max(axis=0)
        self.judged = Full(np.full(self.bound.shape, np.nan), np.full(self.bound.shape, np.nan))

    def _look(self, count: int) -> tuple[NDArray[np.intp], Grid, Front]:
        """The placements of the highest cheap score, with what the front does there."""
        if count not in self.looked:
            chosen = _highest(self.best, count)
            g = self.within.g.take(chosen)
            self.looked[count] = chosen, g, front(g, self.scope.emitter, self.within.camera, self.within.box)
        return self.looked[count]

    def _shortlist(
        self, emitter: Emitter, wanted: int | None
    ) -> tuple[NDArray[np.intp], NDArray[np.intp], F, F]:
        """Placements and poses of the highest value less what is broken, with that and the cost of standing there.

        Limits and costs only take away, so those not looked at cannot come before a list that beats their cheap score.
        """
        every = self.best.size
        count = every if wanted is None or every in self.looked else min(every, LOOKED * wanted)
        while True:
            chosen, g, fixed = self._look(count)
            lim = self.within.limits(fixed, g, emitter)
            broken, cost = lim.broken(), standing_cost(emitter, lim)
            value = self.bound[:, chosen] - cost - BROKEN_COST * broken - (broken > 0)
            flat = _highest(value.ravel(), value.size if wanted is None else wanted)
            pose_of, at = np.divmod(flat, chosen.size)
            unseen = -np.inf if count == every else float(np.partition(self.best, every - count - 1)[every - count - 1])
            if count == every or float(value[pose_of, at].min()) >= unseen:
                return chosen[at], pose_of, broken[at], cost[at]
            count = every

    def choices(self, emitter: Emitter, wanted: int | None) -> list[Choice]:
        """The full score of the shortlist with this head."""
        picked, pose_of, broken, cost = self._shortlist(emitter, wanted)
        new = np.isnan(self.judged.score[pose_of, picked])
        if new.any():
            found = full(self.scope, picked[new], pose_of[new])
            self.judged.score[pose_of[new], picked[new]] = found.score
            self.judged.broken[pose_of[new], picked[new]] = found.broken
        score = self.judged.score[pose_of, picked] - cost
        broken = self.judged.broken[pose_of, picked] + broken
        return _choices(self.within, emitter, self.within.g, picked, pose_of, Full(score, broken))


def _highest(value: F, count: int) -> NDArray[np.intp]:
    """Places of the highest values, in the order they stand in."""
    if count >= value.size:
        return np.arange(value.size)
    return np.sort(np.argpartition(-value, count)[:count])


def _choices(
    within: _Search, emitter: Emitter, g: Grid, picked: NDArray[np.intp], pose_of: NDArray[np.intp], judged: Full
) -> list[Choice]:
    """The best of what was judged, at most `KEPT`, as choices."""
    value = judged.score - BROKEN_COST * judged.broken - (judged.broken > 0)
    return [
        Choice(
            within.poses[pose_of[n]],
            emitter,
            float(g.distance_m[picked[n]]),
            float(g.bearing_deg[picked[n]]),
            float(g.height_deg[picked[n]]),
            float(judged.score[n]),
            float(judged.broken[n]),
        )
        for n in _highest(value, KEPT)
    ]


def aimed(g: Grid, feather_deg: F) -> Grid:
    """The placements with each front turned by so much from the eyes, across its own height, away from the near face.

    With the key at camera right that is toward camera left and the lens.
    """
    turn = np.radians(feather_deg)[:, None]
    across, _ = tangents(g.toward)
    return g.take(np.arange(len(g.distance_m)), np.cos(turn) * g.toward + np.sin(turn) * across)


def _feathered(within: _Search, ranked: Sequence[Choice]) -> list[Choice]:
    """The best keys again, aimed past the near face by each step, where several faces are lit at once."""
    if not ranked or not within.scope(ranked[0].emitter, within.g).together:
        return []
    groups: dict[int, list[Choice]] = {}
    for choice in ranked[:FEATHERED]:
        groups.setdefault(id(choice.emitter), []).append(choice)
    return [c for alike in groups.values() for c in _turned(within, alike)]


def _turned(within: _Search, alike: Sequence[Choice]) -> list[Choice]:
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
