"""One set-up from its brief: place and pose, frame, search, build; on the key side that serves best.

Where not everything can be kept the nearest plan is built all the same: the camera as far back as the room lets it, a
light on the stand that comes nearest. The checks then say what is broken and by how much.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from shotplans.light.units import round_to
from shotplans.planner import daylight, people, poses, rules, space, wanted
from shotplans.planner import frame as framing
from shotplans.planner import key as keys
from shotplans.planner.brief import Setup, Sitter
from shotplans.planner.build import Frame, build
from shotplans.planner.emitters import Emitter
from shotplans.planner.framings import GROUND_DISTANCE_M
from shotplans.planner.free import Free
from shotplans.planner.key import Choice
from shotplans.planner.people import Person, Pose
from shotplans.planner.placed import settled, stood
from shotplans.planner.plan import Solved
from shotplans.planner.poses_by_rule import by_rule
from shotplans.planner.readings import wanted_exposure
from shotplans.planner.request import Request

ISO_ROOM_STOPS = 3.0  # ISO 800 from base 100 before a plan says that power is short: common practice
STEADY_ISO_ROOM_STOPS = 5.0
MOUNT_TRIES = 80
LEAST_GROUND_M = 0.8  # a ground nearer than this takes the sitter's shadow
LEAST_CAMERA_M = 0.8  # nearer than this no picture of a person is worth naming: common practice, no source


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
    """A set-up solved, and what other ways can be built from: the frame it stands in, the kit and the keys found."""

    best: Solved
    frame: Frame
    free: Free
    choices: tuple[Choice, ...]
    chosen: Choice
    mirror: bool
    short_m: float

    @property
    def broken(self) -> float:
        """What the key breaks, and how much nearer than wanted the camera stands; 0 when all is kept."""
        return self.chosen.broken + 10.0 * self.short_m

    def built(self, choice: Choice, free: Free) -> Solved | None:
        """The set around another key or from other kit, on this answer's side."""
        made = build(self.frame, choice, free, 0)
        return None if made is None else finished(self.frame.request, made, self.mirror)


def finished(request: Request, made: Solved, mirror: bool) -> Solved:
    """A set on its side, with everything where it will be printed."""
    return settled(request, made.mirrored() if mirror else made)


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


def freer(request: Request, setup: Setup) -> float | None:
    """The widest strip along the walls, in steps of 10 cm under the one kept free, that leaves a light a place.

    Found by planning again with each; None where even the whole floor does not do.
    """
    kept = float(request.room.keep_out_m or 0.0)
    for tenths in range(int(np.ceil(kept * 10 - 1e-9)) - 1, -1, -1):
        room = request.room.model_copy(update={"keep_out_m": tenths / 10})
        if isinstance(solve(request.model_copy(update={"room": room}), setup), Answer):
            return tenths / 10
    return None


def sided(sitters: tuple[Sitter, ...], setup: Setup) -> bool:
    """Whether anybody in the set-up has a side that matters."""
    chosen = [s for s in sitters if s.label in setup.people]
    return any(
        s.better_side in ("own_left", "own_right") or any(w.side in ("own_left", "own_right") for w in s.wishes)
        for s in chosen
    )


def _one_side(request: Request, setup: Setup, mirror: bool) -> Answer | Unsolved:
    """The way of facing that breaks nothing, the longer side of the room first; else the one that breaks least."""
    found: Answer | Unsolved | None = None
    for axis in space.axes(request.room):
        made = _one_axis(request, setup, mirror, axis)
        if isinstance(made, Answer) and made.broken == 0:
            return made
        if found is None or isinstance(found, Unsolved):
            found = made if found is None or isinstance(made, Answer) else found
        elif isinstance(made, Answer) and made.broken < found.broken - 1e-9:
            found = made
    assert found is not None
    return found


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
    return _searched(*prepared, free, strong, others, mirror)


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
    given = daylight.by_a_window(request.room) if code == "no_steady_head" else {}
    return Unsolved(setup, tuple(who), code, given) if code else None


def _prepare(
    request: Request, setup: Setup, who: list[Person], axis: str, steady: bool
) -> tuple[Frame, list[Pose], float] | Unsolved:
    """Poses, camera, targets, room for one way of facing, and how much nearer than wanted the camera stands, in m."""
    room = request.room
    usual, nearest, _ = GROUND_DISTANCE_M[str(setup.background_tone)]
    wall = all(b.kind == "wall" for b in request.kit.backgrounds)
    rough = space.box(room, axis, usual, wall)
    across = rough.across_m - 2 * rough.keep_out_m
    tries = by_rule(poses.poses(who, setup, across, request), setup, rules.house(request.rules))
    first = tries[0]
    behind = max(0.0, -min(s.face_m[2] for s in first.together))
    free_m = rough.length_m - rough.ground_from_wall_m - rough.behind_camera_m
    longest = free_m - max(LEAST_GROUND_M, min(nearest + behind, usual))
    camera = framing.place(request, setup, first, longest, steady)
    short = max(0.0, camera.distance_m - longest)
    if short > 1e-6:
        nearer = float(np.floor(longest / 0.05 + 1e-9) * 0.05)
        if nearer < max(LEAST_CAMERA_M, float(camera.lens.min_focus_m or 0.0)):
            return _too_small(request, setup, first, longest, camera)
        camera = _backed(request, camera, first, nearer, steady)
    box = space.box(room, axis, max(0.6, min(usual + behind, free_m - camera.distance_m)), wall)
    targets = wanted.targets(request, setup, who, len(first.together))
    needed = wanted_exposure(camera, steady) / (1 + 2.0**-targets.row.fill.mid)
    shape = Frame(request, setup, targets, camera, box, steady, needed, _iso_room(request, camera, steady))
    return shape, tries, short


def _backed(
    request: Request, camera: framing.Camera, pose: Pose, nearer_m: float, steady: bool
) -> framing.Camera:
    """The camera as far back as the room lets it stand, the picture tighter than asked: the nearest plan."""
    camera = stood(camera, pose, nearer_m, camera.height_m)
    if request.preferences.aperture is not None:
        return camera
    start = framing.STEADY_APERTURE if steady else framing.FLASH_APERTURE
    return replace(camera, aperture=framing.stop_for_depth(camera, start, camera.lens))


def _iso_room(request: Request, camera: framing.Camera, steady: bool) -> float:
    """Whole stops that ISO may go up before a plan says that power is short; none when ISO is ordered."""
    if request.preferences.iso is not None:
        return 0.0
    most = float(np.log2(max(1.0, camera.body.max_iso / camera.iso)))
    return float(np.floor(min(most, STEADY_ISO_ROOM_STOPS if steady else ISO_ROOM_STOPS)))


def _too_small(request: Request, setup: Setup, pose: Pose, longest_m: float, camera: framing.Camera) -> Unsolved:
    have, need = max(0.0, longest_m), camera.distance_m
    shorter = max(1.0, np.floor(wanted.focal_mm(request.brief, setup, pose, camera, max(have, 0.01))))
    values = {
        "have": f"{have:.2f}", "need": f"{need:.2f}", "focal": f"{camera.focal_mm:g}", "shorter": f"{shorter:.0f}",
    }  # fmt: skip
    short = float(round_to(np.ceil((need - longest_m) / 0.05 - 1e-9) * 0.05, 0.05))
    who = tuple(s.person for s in pose.seated)
    return Unsolved(setup, who, "room_too_small", {**values, "short_by": short, "unit": "m"})


def _searched(
    shape: Frame,
    tries: list[Pose],
    short_m: float,
    free: Free,
    strong: list[Emitter],
    others: list[Emitter],
    mirror: bool,
) -> Answer | Unsolved:
    strong, others = (wanted.standard_only(shape.request, shape.setup, them) for them in (strong, others))
    found = _search(shape, tries, free, strong)
    helpful = keys.helpful(found, strong, others)
    if helpful:
        more = _search(shape, tries, free, helpful)
        ranked = sorted((*found.choices, *more.choices), key=lambda c: -round(c.value, 9))
        found = keys.Found(tuple(ranked), found.considered + more.considered)
    for kit in (free, lifted(free)):
        for choice in found.choices[:MOUNT_TRIES]:
            best = build(shape, choice, kit, found.considered)
            if best is not None:
                best = finished(shape.request, best, mirror)
                return Answer(best, shape, kit, found.choices, choice, mirror, short_m)
    return _nothing_stands(shape, tries, [*strong, *others], found.considered)


def lifted(free: Free) -> Free:
    """The free stands as though each carried anything to any height: for the nearest plan where none holds a key.

    The checks look at the stands as they are, and say by how much each is too low or too weak.
    """
    any_light = {"max_height_m": 30.0, "min_height_m": 0.0, "max_load_kg": 1000.0}
    return replace(free, stands=tuple(s.model_copy(update=any_light) for s in free.stands))


def _nothing_stands(shape: Frame, tries: list[Pose], emitters: list[Emitter], considered: int) -> Unsolved:
    values: dict[str, object] = {
        "mass": round(min((e.mass_kg for e in emitters), default=0.0), 1),
        "height": f"{tries[0].eye_m + 0.8:.1f}",
        "length": f"{shape.box.length_m:.1f}",
        "across": f"{shape.box.across_m:.1f}",
        "short_by": 1.0,
        "unit": "stand",
    }
    who = tuple(s.person for s in tries[0].seated)
    return Unsolved(shape.setup, who, "nothing_stands", values, considered)


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
