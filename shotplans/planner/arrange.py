"""The best of several ways to stand a group: who is in which row, how many rows, how wide, and who stands on a step.

Each way is stood by `rows` and judged by what it hides, how large the faces come out, how deep it is and how evenly a
usual key would light it. The weights are rules of taste, common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import product

import numpy as np
from numpy.typing import NDArray

from shotplans.light import falloff
from shotplans.light.units import direction, round_to
from shotplans.planner import households, sight
from shotplans.planner.anatomy import CROWN_AND_HAIR_M
from shotplans.planner.people import SMALL_YEARS, Person, Seated, Stage
from shotplans.planner.rows import Row, breadth_m, lift, stand, width_m

F = NDArray[np.float64]
MOST_ROWS = 4
TRIES = ((1.0, False), (1.0, True), (1.15, False), (1.3, False))  # the first row widened, the hidden stepped aside
BESIDE_CHAIRS_M = 0.05  # a standing child whose eyes are no higher than this over the seated stands beside them
KNEE_ASIDE_M, KNEE_BEFORE_M = 0.15, 0.15  # a child on one knee, so that neither face hides the other
ARM_ASIDE_M, ARM_UNDER_M = 0.20, 0.15  # a child carried on an arm, eyes so far under the grown-up's
LENS_OVER_EYES_M = 0.10
FIELDS_AWAY = 2.5  # camera distance in heights of the field: what `frame` likes for a group
HEADROOM_M, SIDES_M = 0.25, 0.5
HIDDEN_COST, WIDE_COST, ROW_COST, STEP_COST, UNEVEN_COST = 20.0, 100.0, 10.0, 0.05, 2.0
ONE_ROW_COST, DEPTH_COST = 0.2, 0.5  # a row more, and a metre of depth, in metres of the field's width
USUAL_KEY_M, USUAL_BEARING_DEG, USUAL_HEIGHT_DEG, EVEN_STOPS = 4.5, 15.0, 15.0, 0.5
TURN_DEG = {"seven_eighths": 15.0, "three_quarter": 35.0, "profile": 85.0}
INWARD_DEG = 10.0  # how far the ends of a row turn toward its middle


@dataclass(frozen=True)
class Bands:
    """People by where they belong: before the chairs, on and beside them, behind them, on laps."""

    front: list[Person]
    low: list[Person]
    standing: list[Person]
    laps: list[Person]


def bands(people: Sequence[Person]) -> Bands:
    """Who belongs where by posture and size; small children to the front or beside the seated."""
    laps = [p for p in people if p.posture == "lap"]
    rest = [p for p in people if p.posture != "lap"]
    if not rest:
        return Bands([], laps, [], [])
    front = [p for p in rest if p.posture == "floor"]
    chairs = [p for p in rest if p.posture == "seated"]
    wheels = [p for p in rest if p.posture == "wheelchair"]
    standing = [p for p in rest if p.posture == "standing"]
    small = [p for p in standing if p.age < SMALL_YEARS]
    low = chairs + wheels
    if low and small:
        chins = min(p.eye_m - p.build.head_half_m[1] for p in low)
        beside = max(p.eye_m for p in low) + BESIDE_CHAIRS_M
        under = [p for p in small if p.eye_m + p.build.head_half_m[1] <= chins]
        low += [p for p in small if p not in under and p.eye_m <= beside]
        small = under
    front += small
    standing = [p for p in standing if p not in front and p not in low]
    if wheels and not chairs and standing:
        # nobody in a wheelchair is put out alone before people who stand
        standing, low = standing + low, []
    return Bands(front, low, standing, laps)


def arranged(people: Sequence[Person], stage: Stage, rows_wanted: int | None = None) -> tuple[Seated, ...]:
    """Everybody placed once, in the order of the brief, about the group's middle; `rows_wanted` if that can be had.

    Deterministic. Where no way clears every face the one that hides least is given: `sight` finds who is hidden.
    """
    return _arranged(tuple(people), stage, rows_wanted)


@lru_cache(maxsize=16)  # the same people on the same stage are asked for again by alternatives and by cures
def _arranged(people: tuple[Person, ...], stage: Stage, rows_wanted: int | None) -> tuple[Seated, ...]:
    who = bands(people)
    best: tuple[float, list[Seated]] | None = None
    for rows in _ways(who, people, stage.across_m, rows_wanted):
        for stretch, aside in TRIES:
            placed = _stood(rows, stage, stretch, aside)
            hides, cost = _hidden(placed, stage), _cost(placed, stage)
            if best is None or cost + HIDDEN_COST * hides < best[0] - 1e-9:
                best = (cost + HIDDEN_COST * hides, placed)
            if not hides or cost >= best[0]:
                break  # nothing to clear, or not worth clearing
    assert best is not None
    placed = _with_laps(best[1], who.laps)
    return _facing(_centred(sorted(placed, key=lambda s: s.person.index)), stage.view)


def _ways(who: Bands, people: Sequence[Person], across_m: float, rows_wanted: int | None) -> Iterator[list[Row]]:
    """Every split into rows worth trying, the fewest rows first; only those that fit the width, if any does."""
    home = households.homes(people)
    column = households.columns(people, home)
    kinds = [(k, sorted(b, key=_by_height)) for k, b in (("floor", who.front), ("low", who.low)) if b]
    splits = [(kind, band, [_fewest(band, across_m)]) for kind, band in kinds]
    if who.standing:
        band = sorted(who.standing, key=_by_height)
        fewest = _fewest(band, across_m)
        most = max(fewest, min(MOST_ROWS, (len(band) + 1) // 2))
        splits.append(("standing", band, list(range(fewest, most + 1))))
    counts = sorted(product(*(s[2] for s in splits)), key=sum)
    if rows_wanted is not None:
        such = [c for c in counts if sum(c) == rows_wanted]
        counts = such or [_one_more(counts[0], [len(band) for _, band, _ in splits], rows_wanted - sum(counts[0]))]
    for chosen in counts:
        yield [
            Row(tuple(households.ordered(part, home, column)), kind)
            for (kind, band, _), count in zip(splits, chosen, strict=True)
            for part in _parts(band, count)
        ]


def _one_more(counts: tuple[int, ...], people: list[int], extra: int) -> tuple[int, ...]:
    """The kind with the longest rows in as many rows more as there are pairs of people for."""
    found = list(counts)
    for _ in range(extra):
        longest = max(range(len(found)), key=lambda n: (people[n] / found[n], n))
        found[longest] = max(found[longest], min(found[longest] + 1, people[longest] // 2))
    return tuple(found)


def _by_height(p: Person) -> tuple[float, int]:
    return (p.eye_m, p.index)


def _fewest(band: Sequence[Person], across_m: float) -> int:
    count = 1
    while count < len(band) and any(width_m(part) > across_m for part in _parts(band, count)):
        count += 1
    return count


def _parts(band: Sequence[Person], count: int) -> list[Sequence[Person]]:
    return [band[n * len(band) // count : (n + 1) * len(band) // count] for n in range(count)]


def _stood(rows: list[Row], stage: Stage, stretch: float, aside: bool) -> list[Seated]:
    """One way stood up, its hidden lifted."""
    lens = _lens([Seated(p, (0.0, p.eye_m, 0.0), 0.0, 0.0, 0.0, 1) for r in rows for p in r.people], stage)
    placed = stand(rows, lens, stage.across_m, stretch, aside)
    return lift(placed, stage.risers, lens) if stage.risers else placed


def _hidden(placed: list[Seated], stage: Stage) -> float:
    lost = sight.hidden(sight.bodies(placed), _lens(placed, stage)).share
    return float(np.where(lost > sight.CLEAR_SHARE, lost, 0.0).sum())


def _cost(placed: list[Seated], stage: Stage) -> float:
    """What a way costs beside what it hides, in metres of the field's width."""
    xs = np.array([s.face_m[0] for s in placed])
    half = np.array([breadth_m(s.person) / 2 for s in placed])
    zs = np.array([s.face_m[2] for s in placed])
    middle, rows = float(xs.mean()), max(s.row for s in placed)
    edge = float(np.max(np.abs(xs - middle) + half))
    tallest = max(s.face_m[1] + s.person.build.head_half_m[1] for s in placed)
    field = max((tallest + HEADROOM_M) * stage.aspect, 2 * edge + SIDES_M)
    cost = WIDE_COST * max(0.0, float((xs + half).max() - (xs - half).min()) - stage.across_m)
    cost += ROW_COST * max(0, rows - MOST_ROWS) + ONE_ROW_COST * rows + field + DEPTH_COST * float(np.ptp(zs))
    cost += STEP_COST * sum(s.step is not None for s in placed)
    return cost + UNEVEN_COST * max(0.0, _unevenness(placed, middle) - EVEN_STOPS)


def _unevenness(placed: list[Seated], middle: float) -> float:
    """Stops between the faces under a bare usual key: inverse square, for choosing between arrangements only."""
    faces = np.array([s.face_m for s in placed]) - [middle, 0.0, 0.0]
    mark = faces.mean(axis=0)
    key = mark + USUAL_KEY_M * direction(USUAL_BEARING_DEG, USUAL_HEIGHT_DEG)
    return float(falloff.spread_stops(falloff.point_levels_stops(key, faces)))


def _lens(placed: Sequence[Seated], stage: Stage) -> F:
    """Where the lens is taken to be while people are stood: over the mean of the eyes, as far off as the field asks."""
    ys = np.array([s.face_m[1] for s in placed])
    xs = np.array([s.face_m[0] for s in placed])
    mark_z = float(np.mean([s.face_m[2] for s in placed]))
    wide = (float(np.ptp(xs)) + 2 * SIDES_M) / stage.aspect
    away = stage.camera_m or FIELDS_AWAY * max(float(ys.max()) + CROWN_AND_HAIR_M + HEADROOM_M, wide)
    return np.array([float(xs.mean()), float(ys.mean()) + LENS_OVER_EYES_M, mark_z + away])


def _with_laps(placed: list[Seated], laps: Sequence[Person]) -> list[Seated]:
    """Each child on a knee of the one it is kept with, of its household, or of whoever sits; one a knee."""
    held: dict[str, int] = {}
    found = list(placed)
    for child in sorted(laps, key=lambda p: (p.sitter.keep_with is None, p.index)):
        on = min(placed, key=lambda s: (held.get(s.person.label, 0) > 1, *_lap_rank(child, s), s.person.index))
        label = on.person.label
        middle = float(np.mean([s.face_m[0] for s in placed]))
        way = 1.0 if on.face_m[0] <= middle else -1.0
        way = -way if held.get(label, 0) else way
        held[label] = held.get(label, 0) + 1
        if on.person.posture == "standing":
            face = (on.face_m[0] + way * ARM_ASIDE_M, on.face_m[1] - ARM_UNDER_M, on.face_m[2] + KNEE_BEFORE_M)
        else:
            face = (on.face_m[0] + way * KNEE_ASIDE_M, child.eye_m, on.face_m[2] + KNEE_BEFORE_M)
        found.append(Seated(child, face, 0.0, 0.0, on.body_deg, on.row, None))
    return found


def _lap_rank(child: Person, s: Seated) -> tuple[bool, bool, bool, bool]:
    kin = bool(child.sitter.household) and s.person.sitter.household == child.sitter.household
    sits = s.person.posture in ("seated", "wheelchair")
    named = s.person.label == child.sitter.keep_with
    return (not named, s.person.age < SMALL_YEARS, not (kin and sits), not sits)


def _centred(placed: Sequence[Seated]) -> list[Seated]:
    # The origin is the group's middle: the mean place of the faces.
    x = sum(s.face_m[0] for s in placed) / len(placed)
    z = sum(s.face_m[2] for s in placed) / len(placed)
    return [
        replace(s, face_m=(round(s.face_m[0] - x, 3), round(s.face_m[1], 3), round(s.face_m[2] - z, 3)))
        for s in placed
    ]


def _facing(placed: Sequence[Seated], view: str) -> tuple[Seated, ...]:
    """Noses toward the middle, a little at the ends of a row, or as far as the brief turns the heads."""
    half = max(0.5, *(abs(s.face_m[0]) for s in placed))
    found = []
    for s in placed:
        x = s.face_m[0]
        nose = -INWARD_DEG * x / half
        if view in TURN_DEG:
            nose = -TURN_DEG[view] if x > 0 else TURN_DEG[view]
        found.append(replace(s, nose_deg=float(round_to(nose, 5.0))))
    return tuple(found)
