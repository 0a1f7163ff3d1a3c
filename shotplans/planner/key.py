"""Step 2: the search for the key over every emitter, place and pose, and what it found best of each modifier.

Every candidate passes the cheap score, the best of them the limits and the full score. What hangs on the front alone is
reckoned once for all heads that can stand behind it. Where several faces are lit, the best keys are tried again with
their aim turned past the near face. With `SHORTLIST` at None everything is scored fully (the test that says how little
the shortlist costs uses that).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from shotplans.planner import kit as owned
from shotplans.planner.candidates import NEAREST_M, grid
from shotplans.planner.choice import BROKEN_COST as BROKEN_COST
from shotplans.planner.choice import Choice as Choice
from shotplans.planner.emitters import Emitter
from shotplans.planner.feather import feathered
from shotplans.planner.frame import Camera
from shotplans.planner.front_search import OneFront, Search
from shotplans.planner.notes import Targets
from shotplans.planner.pairs import both_ways
from shotplans.planner.people import Pose
from shotplans.planner.score import glass_reach, of_place, pose_arrays
from shotplans.planner.space import Box

SHORTLIST: int | None = 300
LONGER, SHORTER = 6, 3
WIDEST_DEG, WIDEST_TURNED_DEG = 90.0, 150.0
BEYOND_CAMERA_M = 2.5
# The full score is seldom further above the cheap one; the guess at glare takes up to a quarter too much.
NO_MATCH, NO_MATCH_GLASSES = 0.05, 0.3


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
    place = tuple(of_place(g, a, targets, view) for a in arrays)
    glass = tuple(glass_reach(g, a) for a in arrays)
    within = Search(
        g, tuple(poses), arrays, place, glass, targets, camera, box, tuple(stands), needed, iso_room_stops, view
    )
    tried = both_ways(emitters)
    choices = sorted(_of_all(within, tried), key=_rank)
    choices = sorted([*choices, *feathered(within, choices)], key=_rank)
    return Found(tuple(choices), len(g.distance_m) * len(poses) * len(tried))


def _of_all(within: Search, tried: Sequence[Emitter]) -> list[Choice]:
    """The choices of every emitter worth the full score, the fronts of the highest cheap score first.

    A front that is no match for another of its kind that breaks nothing is left out: it can be neither the key nor a
    way that differs in kind; one that comes near it gets a shorter list. Where every entry of a shortlist breaks
    something a longer one is looked at, but only of the best front of its kind once another kind does without.
    """
    fronts = [OneFront(within, within.scope(alike[0], within.g), alike) for alike in _by_front(tried)]
    margin = NO_MATCH if all(q is None for q in within.glass) else NO_MATCH_GLASSES
    best: dict[str, float] = {}
    looked: set[str] = set()
    found: list[Choice] = []
    for one in sorted(fronts, key=lambda f: -float(f.best.max())):
        kind = str(one.scope.emitter.modifier.kind)
        for emitter in one.alike:
            if float(one.best.max()) + margin < best.get(kind, -np.inf):
                continue
            known = best.keys() | looked
            choices = one.choices(emitter, SHORTLIST and (SHORTLIST // SHORTER if kind in known else SHORTLIST))
            hopeless = kind in best or (best and kind in looked)
            if SHORTLIST and not hopeless and all(c.broken > 0 for c in choices):
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
        shape = (m.kind, e.disc, e.width_m, e.height_m, e.core_stops, e.beam_deg, m.grid_deg, m.lip_m, e.measured)
        groups.setdefault((*shape, e.depth_m, m.min_distance_m, e.spill), []).append(e)
    return list(groups.values())


def helpful(found: Found, strong: Sequence[Emitter], others: Sequence[Emitter]) -> list[Emitter]:
    """Of the other pairs those worth a search of their own, `found` being what the strongest heads do.

    Another head serves where the power or the mass of the strongest spoils a choice that would else be the best; of
    heads for one modifier only those that no other beats in reach of power both ways and in lightness.
    """
    if found.choices and found.choices[0].broken == 0:
        return []
    best = found.choices[0].value if found.choices else -np.inf
    spoilt = {c.emitter.modifier.id for c in found.choices if c.by_head > 0 and c.without_head > best + 1e-9}
    able = [e for e in others if not found.choices or e.modifier.id in spoilt]
    return [e for e in able if not any(_beats(o, e) for o in (*strong, *able) if o.modifier.id == e.modifier.id)]


def _beats(one: Emitter, other: Emitter) -> bool:
    """Whether a pair can do all that another of its modifier can, and more."""

    def reach(e: Emitter) -> tuple[float, float, float]:
        return e.exposure_1m, -e.exposure_1m * 2.0 ** -float(e.head.range_stops), -e.mass_kg

    ours, theirs = reach(one), reach(other)
    return all(a >= b for a, b in zip(ours, theirs, strict=True)) and ours != theirs
