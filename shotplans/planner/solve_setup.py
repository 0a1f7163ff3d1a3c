"""One set-up from its brief: place and pose, frame, search, build, alternatives; on the key side that serves best."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from shotplans.light.sources import hot_core_diameter
from shotplans.light.units import round_to
from shotplans.planner import frame as framing
from shotplans.planner import key as keys
from shotplans.planner import notes, people, poses, rules, space
from shotplans.planner.brief import Setup, Sitter
from shotplans.planner.build import Frame, build
from shotplans.planner.emitters import Emitter
from shotplans.planner.framings import GROUND_DISTANCE_M
from shotplans.planner.free import Free
from shotplans.planner.key import Choice
from shotplans.planner.people import Person, Pose
from shotplans.planner.plan import Solved
from shotplans.planner.readings import wanted_exposure
from shotplans.planner.request import Request

ISO_ROOM_STOPS = 3.0  # ISO 800 from base 100 before a plan says that power is short: common practice
STEADY_ISO_ROOM_STOPS = 5.0
MOUNT_TRIES = 80
LEAST_GROUND_M = 0.8  # a ground nearer than this takes the sitter's shadow


@dataclass(frozen=True)
class Unsolved:
    """A set-up with no usable light, and why: a code for the words with its values."""

    setup: Setup
    people: tuple[Person, ...]
    code: str
    values: dict[str, object]
    candidates: int = 0


@dataclass(frozen=True)
class Answer:
    """A set-up solved, with up to two ways that differ in kind."""

    best: Solved
    alternatives: tuple[Solved, ...]


def solve(request: Request, setup: Setup) -> Answer | Unsolved:
    """The plan of one set-up. The key goes to the ordered side, or to the side that serves the people better."""
    side = str(request.brief.key_side)
    if side == "camera_right":
        return _one_side(request, setup, mirror=False)
    if side == "camera_left":
        return _one_side(request, setup, mirror=True)
    left = _one_side(request, setup, mirror=True)
    if isinstance(left, Unsolved) or not sided(request.sitters, setup):
        return left
    right = _one_side(request, setup, mirror=False)
    if isinstance(right, Unsolved):
        return left
    return right if right.best.score > left.best.score + 1e-9 else left


def sided(sitters: tuple[Sitter, ...], setup: Setup) -> bool:
    """Whether anybody in the set-up has a side that matters."""
    chosen = [s for s in sitters if s.label in setup.people]
    return any(
        s.better_side in ("own_left", "own_right") or any(w.side in ("own_left", "own_right") for w in s.wishes)
        for s in chosen
    )


def _one_side(request: Request, setup: Setup, mirror: bool) -> Answer | Unsolved:
    found: Answer | Unsolved | None = None
    for axis in space.axes(request.room):
        made = _one_axis(request, setup, mirror, axis)
        if isinstance(made, Answer) and made.best.notes["broken"] == 0:
            return _turned(made, mirror)
        if found is None or isinstance(found, Unsolved):
            found = made if found is None or isinstance(made, Answer) else found
    assert found is not None
    return _turned(found, mirror) if isinstance(found, Answer) else found


def _turned(answer: Answer, mirror: bool) -> Answer:
    if not mirror:
        return answer
    return Answer(answer.best.mirrored(), tuple(a.mirrored() for a in answer.alternatives))


def _one_axis(request: Request, setup: Setup, mirror: bool, axis: str) -> Answer | Unsolved:
    who = people.persons(
        request.sitters, setup.people, request.kit.seats, mirror, poses.takes_turns(setup.framing, len(setup.people))
    )
    no_flash = any(p.sitter.no_flash for p in who)
    free = Free.all_of(request)
    steady = no_flash or not any(h.light == "flash" for h in free.heads)
    strong, others = free.strongest(steady)
    stop = _nothing(request, setup, who, no_flash, free, strong)
    if stop is not None:
        return stop
    prepared = _prepare(request, setup, who, axis, steady)
    if isinstance(prepared, Unsolved):
        return prepared
    shape, tries = replace(prepared[0]), prepared[1]
    return _searched(shape, tries, free, strong, others)


def _nothing(
    request: Request, setup: Setup, who: list[Person], no_flash: bool, free: Free, strong: list[Emitter]
) -> Unsolved | None:
    """Why nothing can be lit at all, if so."""
    code = None
    flashes = any(h.light == "flash" for h in free.heads)
    if not free.heads:
        code = "no_head"
    elif no_flash and not any(h.light == "steady" for h in free.heads):
        code = "no_steady_head"
    elif not free.modifiers:
        code = "no_modifier"
    elif not strong:
        code = "too_hot" if free.emitters(steady=no_flash or not flashes, any_heat=True) else "no_mount"
    elif not free.stands:
        code = "no_stand"
    return Unsolved(setup, tuple(who), code, {}) if code else None


def _prepare(
    request: Request, setup: Setup, who: list[Person], axis: str, steady: bool
) -> tuple[Frame, list[Pose]] | Unsolved:
    """Poses, camera, targets and room for one way of facing; Unsolved when the room cannot hold the picture."""
    room = request.room
    usual, nearest, _ = GROUND_DISTANCE_M[str(setup.background_tone)]
    wall = all(b.kind == "wall" for b in request.kit.backgrounds)
    rough = space.box(room, axis, usual, wall)
    across = rough.across_m - 2 * rough.keep_out_m
    tries = poses.poses(who, setup, across)
    first = tries[0]
    if len(first.together) > poses.MOST_ROWS * poses.row_capacity(across):
        return _too_many(setup, who, first, across)
    behind = max(0.0, -min(s.face_m[2] for s in first.together))
    free_m = rough.length_m - rough.ground_from_wall_m - rough.behind_camera_m
    longest = free_m - max(LEAST_GROUND_M, min(nearest + behind, usual))
    camera = framing.place(request, setup, first, longest, steady)
    if camera.distance_m > longest + 1e-6:
        return _too_small(setup, who, longest, camera)
    box = space.box(room, axis, max(0.6, min(usual + behind, free_m - camera.distance_m)), wall)
    kept = rules.house(request.rules)
    targets = notes.targets(setup, who, len(first.together), request.brief.standard, _standard_size(request), kept)
    needed = wanted_exposure(camera, steady) / (1 + 2.0**-targets.row.fill.mid)
    return Frame(request, setup, targets, camera, box, steady, needed, _iso_room(request, camera, steady)), tries


def _iso_room(request: Request, camera: framing.Camera, steady: bool) -> float:
    """Whole stops that ISO may go up before a plan says that power is short; none when ISO is ordered."""
    if request.preferences.iso is not None:
        return 0.0
    most = float(np.log2(max(1.0, camera.body.max_iso / camera.iso)))
    return float(np.floor(min(most, STEADY_ISO_ROOM_STOPS if steady else ISO_ROOM_STOPS)))


def _too_many(setup: Setup, who: list[Person], first: Pose, across_m: float) -> Unsolved:
    fits = poses.MOST_ROWS * poses.row_capacity(across_m)
    over = len(first.together) - fits
    wider = round(-(-over // poses.MOST_ROWS) * poses.ROW_SPACING_M, 2)
    values = {"people": len(first.together), "fits": fits, "over": over, "wider": wider}
    return Unsolved(setup, tuple(who), "too_many_people", {**values, "short_by": float(over), "unit": "people"})


def _too_small(setup: Setup, who: list[Person], longest_m: float, camera: framing.Camera) -> Unsolved:
    short = float(round_to(np.ceil((camera.distance_m - longest_m) / 0.05 - 1e-9) * 0.05, 0.05))
    values = {"have": round(max(0.0, longest_m), 2), "need": camera.distance_m, "focal": f"{camera.focal_mm:g}"}
    return Unsolved(setup, tuple(who), "room_too_small", {**values, "short_by": short, "unit": "m"})


def _standard_size(request: Request) -> float | None:
    """Effective size of the standard's key modifier, if the kit holds it."""
    wanted = request.brief.standard.key_modifier if request.brief.standard else None
    for modifier in request.kit.modifiers:
        if modifier.id == wanted or modifier.label == wanted:
            width, height = modifier.size_m
            core = float(hot_core_diameter(1.0, float(modifier.core_stops or 0.0)))
            if modifier.shape == "disc":
                return width * core
            return float(np.sqrt((width**2 + height**2) * 2 / 3)) * core
    return None


def _standard_only(request: Request, emitters: list[Emitter]) -> list[Emitter]:
    """The pairs with the standard's key modifier where there are any, else all."""
    wanted = request.brief.standard.key_modifier if request.brief.standard else None
    named = [e for e in emitters if wanted in (e.modifier.id, e.modifier.label)]
    return named or emitters


def _searched(
    shape: Frame, tries: list[Pose], free: Free, strong: list[Emitter], others: list[Emitter]
) -> Answer | Unsolved:
    strong, others = _standard_only(shape.request, strong), _standard_only(shape.request, others)
    found = _search(shape, tries, free, strong)
    if others and (not found.choices or found.choices[0].broken > 0):
        more = _search(shape, tries, free, others)
        ranked = sorted((*found.choices, *more.choices), key=lambda c: -round(c.value, 9))
        found = keys.Found(tuple(ranked), found.considered + more.considered)
    best: Solved | None = None
    for choice in found.choices[:MOUNT_TRIES]:
        best = build(shape, choice, free, found.considered)
        if best is not None:
            break
    if best is None:
        who = tuple(s.person for s in tries[0].seated)
        lightest = min((e.mass_kg for e in (*strong, *others)), default=0.0)
        return Unsolved(
            shape.setup,
            who,
            "nothing_stands",
            {
                "mass": round(lightest, 1),
                "height": f"{tries[0].eye_m + 0.8:.1f}",
                "length": f"{shape.box.length_m:.1f}",
                "across": f"{shape.box.across_m:.1f}",
                "short_by": 1.0,
                "unit": "stand",
            },
            found.considered,
        )
    return Answer(best, tuple(_alternatives(shape, free, found.choices, best)))


def _search(shape: Frame, tries: list[Pose], free: Free, emitters: list[Emitter]) -> keys.Found:
    return keys.search(
        tries,
        emitters,
        targets=shape.targets,
        camera=shape.camera,
        box=shape.box,
        stands=free.stands,
        needed=shape.needed,
        iso_room_stops=shape.iso_room_stops,
        view=str(shape.setup.view),
    )


def _alternatives(shape: Frame, free: Free, choices: tuple[Choice, ...], best: Solved) -> list[Solved]:
    """Up to two plans whose key is of another kind, best first, none worse than a plan one would show."""
    key = best.lights[0]
    kinds = {key.emitter.modifier.kind} if key.emitter else set()
    found: list[Solved] = []
    for choice in choices:
        kind = choice.emitter.modifier.kind
        if kind in kinds or choice.broken > 0 or choice.score < 0.6:
            continue
        made = build(shape, choice, free, 0)
        kinds.add(kind)
        if made is not None:
            found.append(made)
        if len(found) == 2:
            break
    return found
