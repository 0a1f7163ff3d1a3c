"""Ways of placing the people of a set-up: turns of one head, the two orders of a couple, the rows of a group.

Everything is in the canonical set whose key stands at camera right; the far side is then camera left. Spacings are
common practice, no source (heads 0.45 m apart for a pair, shoulders per values.md A04 for rows).
"""

from __future__ import annotations

from itertools import permutations

from shotplans.light.units import round_to
from shotplans.planner import anatomy
from shotplans.planner.brief import Setup
from shotplans.planner.people import Person, Pose, Seated

IN_TURN_FRAMINGS = ("head", "head_and_shoulders")
PAIR_APART_M = 0.45
ROW_SPACING_M = 0.55
ROW_DEPTH_M = 0.65
MOST_ROWS = 4
CLOSE_MOST = 3  # up to three share a close framing; more take the place in turn
GLASSES_CHIN_DEG = -3.0

# Turns of the nose toward (+) or away from (-) the key that a view allows, single sitter.
TURNS: dict[str, tuple[float, ...]] = {
    "full": (0.0,),
    "seven_eighths": (15.0, 20.0, 25.0),
    "three_quarter": (35.0, 40.0, 45.0),
    "profile": (85.0, 90.0),
}
EITHER_TURNS: dict[str, tuple[float, ...]] = {
    "soft": (0.0, 5.0, 10.0, 15.0),
    "even": (0.0, 5.0, 10.0),
    "natural": (10.0, 15.0, 20.0, 25.0, 30.0),
    "bold": (10.0, 15.0, 20.0, 25.0, 30.0),
    "character": (0.0, 5.0, 10.0, 15.0, 20.0),
    "bright": (0.0, 5.0, 10.0),
}
PAIR_TURNS: dict[str, tuple[float, ...]] = {
    "full": (5.0,),
    "seven_eighths": (15.0, 20.0),
    "three_quarter": (35.0, 40.0),
    "profile": (85.0,),
    "either": (5.0, 10.0, 15.0, 20.0),
}


def takes_turns(framing: str, people: int) -> bool:
    """Whether a close framing of so many people means one after the other."""
    return framing in IN_TURN_FRAMINGS and people > CLOSE_MOST


def poses(people: list[Person], setup: Setup, across_m: float) -> list[Pose]:
    """Every pose worth trying, best guesses first. `across_m` is the free width of the room."""
    intent, framing, view, face_side = str(setup.intent), str(setup.framing), str(setup.view), str(setup.face_side)
    if takes_turns(framing, len(people)):
        reference = sorted(people, key=lambda p: (p.eye_m, p.index))[len(people) // 2]
        order = [reference] + [p for p in people if p is not reference]
        return [Pose(tuple(_alone(p, turn) for p in order), True) for turn in _turns(order, intent, view, face_side)]
    if len(people) == 1:
        return [Pose((_alone(people[0], turn),), False) for turn in _turns(people, intent, view, face_side)]
    if framing != "group" and len(people) == 2:
        turns = [t for t in PAIR_TURNS[view] if t <= _neck(people)] or [PAIR_TURNS[view][0]]
        return [_pair(order, t) for t in turns for order in (people, people[::-1])]
    if framing != "group" and len(people) == 3:
        return [_three(list(order), t) for t in (5.0, 15.0) for order in _threes(people)]
    return [group(people, across_m)]


def _neck(people: list[Person]) -> float:
    # A body can turn with the head, so a stiff neck only stops a turn when hips or back are noted too.
    limits = [
        float(p.sitter.turn_limit_deg) for p in people if p.sitter.turn_limit_deg is not None and p.sitter.hip_or_back
    ]
    return min([90.0, *limits])


def _turns(people: list[Person], intent: str, view: str, face_side: str) -> list[float]:
    turns = EITHER_TURNS[intent] if view == "either" else TURNS[view]
    turns = tuple(t for t in turns if t <= _neck(people)) or turns[:1]
    away = tuple(-t for t in turns if t)
    if face_side == "short":
        return [t for t in turns if t] or list(turns)
    if face_side == "broad":
        return list(away) or list(turns)
    return [*turns, *(away if view != "profile" else ())]


def chin_deg(person: Person) -> float:
    """Chin cue in degrees, + up: slightly down behind glasses or over a chin the sitter wishes softer."""
    limit = float(person.sitter.chin_limit_deg or 0.0)
    if person.wears_glasses:
        return -min(limit, -GLASSES_CHIN_DEG)
    return 0.0


def _body(person: Person, nose: float, extra: float = 20.0) -> float:
    stiff = bool(person.sitter.hip_or_back) or person.sitter.posture in ("wheelchair", "lap")
    if stiff:
        return nose
    limit = min(extra, float(person.sitter.turn_limit_deg or extra))
    sign = -1.0 if nose < 0 else 1.0
    return nose + sign * float(round_to(limit, 5.0))


def _alone(person: Person, nose: float) -> Seated:
    return Seated(person, (0.0, person.eye_m, 0.0), nose, chin_deg(person), _body(person, nose), 1)


def _pair(order: list[Person], turn: float) -> Pose:
    far, near = order
    half = PAIR_APART_M / 2
    return Pose(
        (
            Seated(far, (-half, far.eye_m, 0.0), turn, chin_deg(far), _body(far, turn, 15.0), 1),
            Seated(near, (half, near.eye_m, 0.0), -turn, chin_deg(near), _body(near, -turn, 15.0), 1),
        ),
        False,
    )


def _threes(people: list[Person]) -> list[tuple[Person, ...]]:
    central = [p for p in people if p.sitter.central]
    middle = central[0] if central else max(people, key=lambda p: (p.eye_m, -p.index))
    return [order for order in permutations(people) if order[1] is middle]


def _three(order: list[Person], turn: float) -> Pose:
    places = ((-PAIR_APART_M, turn), (0.0, 0.0), (PAIR_APART_M, -turn))
    return Pose(
        tuple(
            Seated(p, (x, p.eye_m, 0.0), nose, chin_deg(p), _body(p, nose, 15.0), 1)
            for p, (x, nose) in zip(order, places, strict=True)
        ),
        False,
    )


def row_capacity(across_m: float) -> int:
    """People side by side in a free width in metres, at the spacing of a row."""
    return max(1, int((across_m - anatomy.SHOULDER_M) / ROW_SPACING_M) + 1)


def group(people: list[Person], across_m: float) -> Pose:
    """Rows by posture: floor in front, seats in the middle, standing behind the gaps; households side by side."""
    laps = [p for p in people if p.sitter.posture == "lap"]
    rows = _rows([p for p in people if p.sitter.posture != "lap"], row_capacity(across_m))
    if not rows:
        rows, laps = [laps], []
    middle = (len(rows) - 1) / 2
    placed: list[Seated] = []
    widest = max(len(r) for r in rows)
    shift = 0.0
    for number, row in enumerate(rows):
        if number and len(row) % 2 == len(rows[number - 1]) % 2:
            shift = 0.0 if shift else ROW_SPACING_M / 2  # an even or odd pair of rows would stand face behind face
        for place, person in enumerate(row):
            x = (place - (len(row) - 1) / 2) * ROW_SPACING_M + shift
            nose = float(round_to(-10.0 * x / max(0.5, widest * ROW_SPACING_M / 2), 5.0))
            face = (round(x, 3), person.eye_m, round((middle - number) * ROW_DEPTH_M, 3))
            placed.append(Seated(person, face, nose, chin_deg(person), _body(person, nose, 15.0), number + 1))
    placed += [_on_lap(p, placed) for p in laps]
    placed.sort(key=lambda s: s.person.index)
    return Pose(_centred(placed), False)


def _centred(placed: list[Seated]) -> tuple[Seated, ...]:
    # The origin is the group's middle: the mean place of the faces.
    x = sum(s.face_m[0] for s in placed) / len(placed)
    z = sum(s.face_m[2] for s in placed) / len(placed)
    return tuple(
        Seated(
            s.person,
            (round(s.face_m[0] - x, 3), s.face_m[1], round(s.face_m[2] - z, 3)),
            s.nose_deg,
            s.chin_deg,
            s.body_deg,
            s.row,
        )
        for s in placed
    )


def _on_lap(child: Person, placed: list[Seated]) -> Seated:
    held = [s for s in placed if s.person.label == child.sitter.keep_with]
    kin = [s for s in placed if s.person.sitter.household == child.sitter.household and child.sitter.household]
    low = [s for s in placed if s.person.sitter.posture in ("seated", "wheelchair")]
    on = (held or [s for s in kin if s in low] or low or kin or placed)[0]
    face = (on.face_m[0] + 0.08, child.eye_m, on.face_m[2] + 0.15)
    return Seated(child, face, on.nose_deg, chin_deg(child), on.nose_deg, on.row)


def _rows(people: list[Person], most: int) -> list[list[Person]]:
    bands: list[list[Person]] = [[], [], []]
    for p in people:
        posture = str(p.sitter.posture)
        bands[0 if posture == "floor" else 1 if posture in ("seated", "wheelchair") else 2].append(p)
    standing = bands[2]
    if standing and not bands[1] and len(standing) > 5:
        by_height = sorted(standing, key=lambda p: (p.eye_m, p.index))
        bands[1], bands[2] = by_height[: len(by_height) // 2], by_height[len(by_height) // 2 :]
    rows: list[list[Person]] = []
    for band in bands:
        ordered = sorted(band, key=lambda p: (p.eye_m, p.index)) if len(band) > most else band
        count = -(-len(ordered) // most)
        for k in range(count):
            part = ordered[k * len(ordered) // count : (k + 1) * len(ordered) // count]
            rows.append(_households(part))
    return rows


def _households(row: list[Person]) -> list[Person]:
    """The row with households side by side and the central ones in the middle."""
    homes: dict[str, list[Person]] = {}
    home_of = {p.label: str(p.sitter.household or p.label) for p in row}
    for p in row:
        # somebody to be kept with another of this row joins that household
        homes.setdefault(home_of.get(str(p.sitter.keep_with), home_of[p.label]), []).append(p)
    blocks = sorted(homes.values(), key=lambda b: (-sum(bool(p.sitter.central) for p in b), b[0].index))
    line: list[Person] = []
    for number, block in enumerate(blocks):
        line = line + block if number % 2 else block + line
    return line
