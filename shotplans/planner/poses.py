"""Ways of placing the people of a set-up: turns of one head, the two orders of a couple, three, a group.

Everything is in the canonical set whose key stands at camera right; the far side is then camera left. Spacings are
common practice, no source (heads 0.45 m apart for a pair, shoulders per values.md A04 for three); rows are in `rows`.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations
from math import cos, hypot, radians, sin

from shotplans.light.units import round_to
from shotplans.planner import rules
from shotplans.planner.arrange import MOST_ROWS as MOST_ROWS
from shotplans.planner.arrange import arranged
from shotplans.planner.brief import Setup
from shotplans.planner.people import OLDER_YEARS, Person, Pose, Seated, Stage, posture_of
from shotplans.planner.request import Request

IN_TURN_FRAMINGS = ("head", "head_and_shoulders")
PAIR_APART_M = 0.45
THREE_BACK_M = 0.10  # the middle one of three a little behind, so that the shoulders before it pass
CLOSE_MOST = 3  # up to three share a close framing; more take the place in turn
GLASSES_CHIN_DEG = -3.0
STEP_DEG = 5.0  # a body is turned by steps that can be told

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


THREE_TURNS = PAIR_TURNS | {"either": (5.0, 15.0)}


def takes_turns(framing: str, people: int) -> bool:
    """Whether a close framing of so many people means one after the other."""
    return framing in IN_TURN_FRAMINGS and people > CLOSE_MOST


def poses(people: list[Person], setup: Setup, across_m: float, request: Request) -> list[Pose]:
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
        apart = _pair_apart_m(people, request)
        return [_pair(order, t, apart) for t in turns for order in (people, people[::-1])]
    if framing != "group" and len(people) == 3:
        return [_three(list(order), t, view) for t in THREE_TURNS[view] for order in _threes(people)]
    return [group(people, stage(request, view, across_m))]


def stage(request: Request, view: str, across_m: float) -> Stage:
    """What the room and the kit give a group to stand on, and how broad the picture is for its height."""
    body, way = request.kit.cameras[0], str(request.brief.orientation)
    sides = sorted((body.sensor_width_mm, body.sensor_height_mm))
    aspect = sides[0] / sides[1] if way == "upright" else sides[1] / sides[0]
    return Stage(across_m, aspect=aspect, risers=tuple(request.kit.risers), view=view)


def _pair_apart_m(people: list[Person], request: Request) -> float:
    if max(p.age for p in people) < OLDER_YEARS:
        return PAIR_APART_M
    return rules.house(request.rules).number("older_pair", "heads_apart_m")


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
    stiff = bool(person.sitter.hip_or_back) or posture_of(person.sitter) in ("wheelchair", "lap")
    if stiff:
        return nose
    noted = person.sitter.turn_limit_deg
    turn = min(extra, extra if noted is None else float(noted)) // STEP_DEG * STEP_DEG  # never past what was noted
    return nose - turn if nose < 0 else nose + turn


def _alone(person: Person, nose: float) -> Seated:
    return Seated(person, (0.0, person.eye_m, 0.0), nose, chin_deg(person), _body(person, nose), 1)


def _pair(order: list[Person], turn: float, apart_m: float) -> Pose:
    far, near = order
    half = apart_m / 2
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


def _three(order: list[Person], turn: float, view: str) -> Pose:
    """Left, middle and right; the middle one faces the lens, or the key where the brief turns every head."""
    left, middle, right = order
    ahead = turn if view in ("three_quarter", "profile") else 0.0
    nose = {0: turn, 1: ahead, 2: -turn}
    turned = [_body(p, nose[n], 15.0) for n, p in enumerate(order)]
    sides = [
        max(PAIR_APART_M, _across_m(one, turned[n]) / 2 + _across_m(middle, turned[1]) / 2)
        for n, one in ((0, left), (2, right))
    ]
    xs = (-float(round_to(sides[0], 0.01)), 0.0, float(round_to(sides[1], 0.01)))
    mean = sum(xs) / 3
    zs = (THREE_BACK_M / 3, -2 * THREE_BACK_M / 3, THREE_BACK_M / 3)
    return Pose(
        tuple(
            Seated(p, (round(xs[n] - mean, 3), p.eye_m, round(zs[n], 3)), nose[n], chin_deg(p), turned[n], 1)
            for n, p in enumerate(order)
        ),
        False,
    )


def _across_m(person: Person, body_deg: float) -> float:
    """How broad a turned body is from the lens: shoulders and chest as the two axes of an ellipse."""
    turn = radians(body_deg)
    return hypot(person.build.shoulders_m * cos(turn), person.build.chest_m * sin(turn))


def group(people: list[Person], stage: Stage) -> Pose:
    """The group in rows, every face clear where that can be had, with chins and bodies as each can turn them."""
    placed = arranged(people, stage)
    return Pose(
        tuple(replace(s, chin_deg=chin_deg(s.person), body_deg=_body(s.person, s.nose_deg, 15.0)) for s in placed),
        False,
        stage,
    )
