"""A group in rows: who stands in which row and where in it, so that no two bodies meet and every face is clear.

Belongs here: breadths of places, the order of a row, standing behind the gaps, and steps. Spacings of rows are common
practice, no source; bodies are `anatomy.build_of`. Which arrangement is the best of several is in `arrange`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from shotplans.planner import sight
from shotplans.planner.kit import Riser
from shotplans.planner.people import Person, Seated, needs_arms

F = NDArray[np.float64]
BESIDE_M = 0.04  # between two bodies
ARM_CHAIR_M = 0.60  # a chair with arms, outside to outside, value from memory
WHEELS_M = 0.70  # a wheelchair with the hands on its rims, value from memory
BODY_TURN_DEG = 15.0
STEP_PERSON_KG = 100.0  # what a step is reckoned with for each person on it, values from memory; ratings are read first

# From the faces of one row to those of the row behind it: knees, feet and chair backs (values.md A08, A17).
ROW_GAP_M: dict[tuple[str, str], float] = {
    ("floor", "floor"): 0.60,
    ("floor", "low"): 0.75,
    ("floor", "standing"): 0.55,
    ("low", "low"): 0.90,
    ("low", "standing"): 0.65,
    ("standing", "standing"): 0.55,
}
BEHIND_WHEELS_M = 0.10  # the handles
ASIDE_M = (0.1, 0.2, 0.3, 0.4)
# Against a metre of width, of lopsidedness and past the room's free width, in faces hidden whole.
WIDE_TASTE, OFF_MIDDLE_TASTE, PAST_ROOM_TASTE = 0.1, 0.1, 10.0


@dataclass(frozen=True)
class Row:
    """One row from camera left to right, and what it is: floor, low (chairs) or standing."""

    people: tuple[Person, ...]
    kind: str


def breadth_m(person: Person) -> float:
    """How much of a row a person takes: shoulders standing, elbows seated, or the chair where that is broader."""
    build, posture = person.build, person.posture
    if posture == "wheelchair":
        return max(WHEELS_M, build.elbows_m)
    if posture == "seated":
        return max(build.elbows_m, ARM_CHAIR_M if needs_arms(person.sitter) else 0.0)
    return build.elbows_m if posture == "floor" else build.shoulders_m


def apart_m(people: Sequence[Person]) -> F:
    """Least distances from each face of a row to the next."""
    broad = np.array([breadth_m(p) for p in people])
    return np.asarray((broad[:-1] + broad[1:]) / 2 + BESIDE_M)


def width_m(people: Sequence[Person]) -> float:
    """From the outer side of the first body of a row to that of the last."""
    return float(apart_m(people).sum()) + (breadth_m(people[0]) + breadth_m(people[-1])) / 2


def spaced(wanted: F, least: F) -> F:
    """Places nearest to the wanted ones, in the least squares, that keep the least distances from one to the next.

    Pool adjacent violators on what is wanted less the running sum of the least distances.
    """
    base = np.concatenate([[0.0], np.cumsum(least)])
    pools: list[tuple[float, int]] = []
    for value in wanted - base:
        mean, count = float(value), 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        pools.append((mean, count))
    return np.asarray(np.concatenate([np.full(count, mean) for mean, count in pools]) + base)


def depths(rows: Sequence[Row]) -> F:
    """Depth of the faces of each row, the first at 0, the others behind it."""
    z = [0.0]
    for before, row in pairwise(rows):
        wheels = any(p.posture == "wheelchair" for p in before.people)
        z.append(z[-1] - ROW_GAP_M[before.kind, row.kind] - (BEHIND_WHEELS_M if wheels else 0.0))
    return np.array(z)


def stand(rows: Sequence[Row], lens: F, across_m: float, stretch: float, aside: bool) -> list[Seated]:
    """Everybody of the rows placed, each row behind the gaps of the one before as the lens sees them.

    `lens` in metres with the first row's faces at z 0; `across_m` is the width there is, `stretch` widens
    the first row, `aside` lets whoever is still hidden step aside. Rows and places only: noses come later.
    """
    z = depths(rows)
    placed: list[Seated] = []
    before: F | None = None
    for number, row in enumerate(rows):
        least = apart_m(row.people)
        if before is None:
            tries = [np.concatenate([[0.0], np.cumsum(least * stretch)])]
            tries = [tries[0] - tries[0].mean()]
        else:
            scale = (lens[2] - z[number]) / (lens[2] - z[number - 1])
            tries = _behind(before * scale, least)
        made = [_row(row, x, float(z[number]), number + 1) for x in tries]
        best = min(range(len(made)), key=lambda n: (round(_unseen(placed, made[n], lens, across_m), 6), n))
        chosen = made[best]
        if aside:
            chosen = _stepped_aside(placed, chosen, lens, across_m)
        before = np.array([s.face_m[0] for s in chosen])
        placed += chosen
    return placed


def _row(row: Row, x: F, z: float, number: int) -> list[Seated]:
    return [
        Seated(p, (float(at), p.eye_m, z), 0.0, 0.0, BODY_TURN_DEG, number)
        for p, at in zip(row.people, x, strict=True)
    ]


def _behind(before: F, least: F) -> list[F]:
    """Places worth trying for a row: in the gaps of the one before and beyond its ends, and as close as may be."""
    count = len(least) + 1
    side = float(np.diff(before).mean()) if len(before) > 1 else 0.5
    beyond = (np.arange(count) + 0.5) * side
    gaps = np.concatenate([before[0] - beyond[::-1], (before[1:] + before[:-1]) / 2, before[-1] + beyond])
    windows = [gaps[n : n + count] for n in range(len(gaps) - count + 1)]
    # about the first row's middle, not the last one's: a row to the side must not draw the next one further
    windows.sort(key=lambda w: (round(abs(float(w.mean())), 6), -float(w.mean())))
    close = np.concatenate([[0.0], np.cumsum(least)])
    close = close - close.mean()
    half = (float(least.mean()) if len(least) else side) / 2
    return [*(spaced(w, least) for w in windows[:2]), *(close + shift for shift in (0.0, half, -half))]


def _unseen(placed: list[Seated], row: list[Seated], lens: F, across_m: float) -> float:
    """What the rows before hide of a row, a little against a wide row or one off the middle, more past the room."""
    if not placed:
        return 0.0
    lost = sight.hidden(sight.bodies([*placed, *row]), lens, len(placed)).share[len(placed) :]
    x = np.array([s.face_m[0] for s in row])
    wide = WIDE_TASTE * float(np.ptp(x)) + OFF_MIDDLE_TASTE * abs(float(x.mean()))
    reach = max(abs(s.face_m[0]) + breadth_m(s.person) / 2 for s in row)
    wide += PAST_ROOM_TASTE * max(0.0, reach - across_m / 2)
    return float(np.where(lost > sight.CLEAR_SHARE, lost, 0.0).sum()) + wide


def _stepped_aside(placed: list[Seated], row: list[Seated], lens: F, across_m: float) -> list[Seated]:
    """The row with whoever is still hidden stepped aside, everybody further out moving along."""
    free = across_m - breadth_m(row[0].person) / 2 - breadth_m(row[-1].person) / 2
    xs = np.array([s.face_m[0] for s in row])
    for _ in range(len(row) if placed else 0):
        lost = sight.hidden(sight.bodies([*placed, *row]), lens, len(placed)).share[len(placed) :]
        worst = int(lost.argmax())
        if lost[worst] <= sight.CLEAR_SHARE:
            break
        places = np.arange(len(row))
        tries = [xs + np.where(places >= worst, by, 0.0) for by in ASIDE_M]
        tries += [xs - np.where(places <= worst, by, 0.0) for by in ASIDE_M]
        rows = [[_moved(s, x) for s, x in zip(row, t, strict=True)] for t in tries if float(np.ptp(t)) <= free]
        costs = [_unseen(placed, r, lens, across_m) for r in rows]
        if not costs or min(costs) >= _unseen(placed, row, lens, across_m) - 1e-9:
            break
        row = rows[int(np.argmin(np.round(costs, 6)))]
        xs = np.array([s.face_m[0] for s in row])
    return row


def _moved(s: Seated, x: float) -> Seated:
    return replace(s, face_m=(float(x), *s.face_m[1:]))


def lift(placed: list[Seated], risers: Sequence[Riser], lens: F) -> list[Seated]:
    """The hidden onto steps, the lowest step that clears more than it hides; each step once, within its rating.

    A step without a rating is not stood on. Nobody is lifted who is to keep both feet on the floor.
    """
    lost = _lost(placed, lens)
    for riser in sorted(risers, key=lambda r: (float(r.height_m or 0.0), str(r.id))):
        holds = int(float(riser.rating_kg or 0.0) // STEP_PERSON_KG)
        if not holds or lost.sum() <= 0:
            continue
        trials = [_raised(placed, block, riser) for block in _blocks(placed, lost, holds)]
        ranked = [(float(_lost(t, lens).sum()), n) for n, t in enumerate(trials)]
        if ranked and min(ranked)[0] < lost.sum() - 1e-9:
            placed = trials[min(ranked)[1]]
            lost = _lost(placed, lens)
    return placed


def _lost(placed: list[Seated], lens: F) -> F:
    share = sight.hidden(sight.bodies(placed), lens).share
    return np.where(share > sight.CLEAR_SHARE, share, 0.0)


def _blocks(placed: list[Seated], lost: F, holds: int) -> list[list[int]]:
    """Neighbours of one row who share a step: the worst hidden who may step, with those beside who are hidden too."""
    worst = [n for n in np.argsort(-lost, kind="stable")[:3] if lost[n] > 0]
    found = []
    for n in worst:
        if not placed[n].person.may_step or placed[n].step:
            continue
        row = [k for k, s in enumerate(placed) if s.row == placed[n].row]
        place = row.index(int(n))
        block = [int(n)]
        for way in (1, -1):
            k = place + way
            while 0 <= k < len(row) and len(block) < holds and lost[row[k]] > 0:
                if not placed[row[k]].person.may_step or placed[row[k]].step:
                    break
                block.append(row[k])
                k += way
        found.append(block)
    return found


def _raised(placed: list[Seated], block: list[int], riser: Riser) -> list[Seated]:
    up = float(riser.height_m or 0.0)
    return [
        replace(s, face_m=(s.face_m[0], s.face_m[1] + up, s.face_m[2]), step=riser.id) if n in block else s
        for n, s in enumerate(placed)
    ]
