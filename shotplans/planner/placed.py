"""A set as it stands on paper, back as values: the plan's document and its request make the `Solved` it came from.

Also `settled`: the set with everything as it will be printed, so that what is computed and what is read cannot differ.
Nothing is searched or chosen here.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np

from shotplans.light import exposure, lenses
from shotplans.light.units import round_to
from shotplans.planner import dial, flags, ground, people, poses, space, wanted
from shotplans.planner import frame as framing
from shotplans.planner.brief import Setup
from shotplans.planner.build import Frame, notes_of
from shotplans.planner.dial import Dialled
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.framings import FRAMINGS
from shotplans.planner.key import Choice
from shotplans.planner.pairs import emitters
from shotplans.planner.people import Pose, Seated
from shotplans.planner.plan import Block, Ground, Light, Mounting, Point, Solved
from shotplans.planner.readings import bounce_plane, reading, wanted_exposure
from shotplans.planner.request import Request
from shotplans.planner.scene import Filled, Scene

Entry = dict[str, Any]
ROUNDED_M = 0.02  # what rounding a place to a centimetre each way can do to a distance
SNAP = 0.006  # a printed number and the step it stands for may lie half a last digit apart


class NothingPlaced(ValueError):
    """The set-up has no usable light, so nothing stands anywhere."""


def placed(request: Request, entry: Entry) -> Solved:
    """The set of one set-up of a plan's document. `request` has its defaults filled. Raises NothingPlaced."""
    return looked_at(request, standing(request, entry))


def looked_at(request: Request, solved: Solved) -> Solved:
    """The set with its ground measured and its builder's notes made, from where things stand."""
    return noted(request, measured(request, solved))


def standing(request: Request, entry: Entry) -> Solved:
    """Where everything stands in a set-up of a document; ground and notes are still to be worked out."""
    if entry["camera"] is None or not entry["lights"]:
        raise NothingPlaced(str(entry["name"]))
    setup = next(s for s in request.brief.setups if s.name == entry["name"])
    pose = _pose(request, setup, entry)
    steady = _head(request, entry["lights"][0]).light == "steady"
    camera = _camera(request, setup, pose, entry["camera"])
    targets = wanted.targets(request, setup, _in_brief_order(pose), len(pose.together))
    box = space.box(request.room, entry["room"]["axis"], entry["background"]["distance_m"], False)
    box = replace(box, ground_from_wall_m=entry["room"]["ground_from_wall_m"])
    if abs(box.mark_from_side_wall_m - entry["room"]["mark_from_side_wall_m"]) > SNAP:
        box = replace(box, mark_from_side_wall_m=entry["room"]["mark_from_side_wall_m"])
    eyes: Point = (0.0, pose.eye_m, 0.0)
    lights = tuple(_light(request, row, eyes, pose) for row in entry["lights"])
    blocks = tuple(_block(request, row) for row in entry["blocks"] if row["keeps"] == "bounce")
    item = next(b for b in request.kit.backgrounds if b.id == entry["background"]["id"])
    tone = ground.wanted_lightness(str(setup.background_tone), targets.row.ground)
    hung = Ground(
        item, entry["background"]["distance_m"], True, 0.0, 0.0, 0.0, 0.0, (tone.low, tone.high)
    )
    return Solved(
        setup=setup, targets=targets, pose=pose, camera=camera, box=box, lights=lights, blocks=blocks, ground=hung,
        steady=steady, score=0.0, candidates=0, flags=flags.read(entry["blocks"], request.kit, lights),
    )  # fmt: skip


def settled(request: Request, solved: Solved) -> Solved:
    """The same set at the places that will be printed: aims to a centimetre, people in the brief's order, the ground.

    People in turn keep their order: the first is the one the set is built for.
    """
    lights = tuple(replace(x, aim=_centimetres(x.aim)) for x in solved.lights)
    pose = solved.pose
    if not pose.in_turn:
        pose = replace(pose, seated=tuple(sorted(pose.seated, key=lambda s: s.person.index)))
    return measured(request, replace(solved, lights=lights, pose=pose))


def measured(request: Request, solved: Solved) -> Solved:
    """The set with its ground measured as it now hangs, under the lights as they now stand."""
    hung = solved.ground
    assert hung is not None
    house = request.brief.meter
    recessed, at_key = house.dome == "recessed", house.setting_reading == "at_key"
    return replace(solved, ground=ground_at(solved, hung.distance_m, recessed, at_key))


def ground_at(solved: Solved, distance_m: float, recessed: bool, at_key: bool) -> Ground:
    """The ground of a set measured at a distance behind the mark, with the house's meter, the lights as they stand."""
    hung = solved.ground
    assert hung is not None
    scene = Scene(solved.lights[0], solved.pose, solved.camera, solved.box, recessed, at_key)
    facing = [x for x in solved.by_role("key", "fill") if x.emitter]
    panels = [x for x in solved.lights if x.emitter is None]
    setting = reading(
        scene.mark, scene.axis, facing, solved.box, panels=panels, blocks=solved.blocks, recessed=recessed
    )
    on = tuple(x for x in solved.by_role("key", "fill", "background") if x.emitter)
    spill = ground.Spill(on, solved.blocks, setting, solved.flags)
    return ground.measure(scene, hung.item, distance_m, spill, hung.wanted)


def noted(request: Request, solved: Solved) -> Solved:
    """The set with the notes a builder leaves for the checks, worked out from where things stand."""
    key = solved.lights[0]
    assert key.emitter is not None
    short = _short_stops(request, solved)
    frame = Frame(
        request, solved.setup, solved.targets, solved.camera, solved.box, solved.steady,
        wanted_exposure(solved.camera, solved.steady), 0.0,
    )  # fmt: skip
    choice = Choice(solved.pose, key.emitter, key.distance_m, key.bearing_deg, key.height_deg, 0.0, 0.0)
    dialled = Dialled(key, solved.light("fill"), solved.camera, short, 0.0, {})
    return replace(solved, notes=notes_of(frame, choice, _filled(solved), dialled))


def _filled(solved: Solved) -> Filled:
    light = solved.light("fill")
    how = "bounce"
    if light is not None:
        how = "head" if light.emitter else "panel"
    elif solved.blocks:
        how = "blocked"
    level = solved.targets.row.fill
    bounce = bounce_plane([solved.lights[0]], solved.box, ())
    return Filled(light, solved.blocks, level.mid, bounce, level, how)


def _short_stops(request: Request, solved: Solved) -> float:
    """Stops that key and fill miss the camera's setting by when turned as far as they go; 0 when they reach."""
    house = request.brief.meter
    key = solved.lights[0]
    scene = Scene(
        key, solved.pose, solved.camera, solved.box, house.dome == "recessed", house.setting_reading == "at_key"
    )
    panels = [x for x in solved.lights if x.emitter is None]
    needed = wanted_exposure(solved.camera, solved.steady)

    def missing(turned: list[Light]) -> float:
        got = reading(
            scene.mark, scene.axis, turned, solved.box, panels=panels, blocks=solved.blocks, recessed=scene.recessed
        )
        return float(np.log2(needed / max(got, 1e-12)))

    heads = [x for x in solved.by_role("key", "fill") if x.emitter]
    full = missing([replace(x, power_stops=0.0) for x in heads])
    low = missing([replace(x, power_stops=float(x.emitter.head.range_stops)) for x in heads if x.emitter])
    return max(0.0, full, -low)


def _pose(request: Request, setup: Setup, entry: Entry) -> Pose:
    """Everybody where the document has them; of people in turn, the one the set is built for first."""
    mirror = entry["lights"][0]["bearing_deg"] < 0
    in_turn = bool(entry["changes_per_person"])
    who = people.persons(request.sitters, setup.people, request.kit.seats, mirror, in_turn)
    rows = {row["label"]: row for row in entry["sitters"]}
    seated = [_seated(p, rows[p.label]) for p in who]
    if in_turn:
        built_for = entry["lights"][0]["aim_m"][1]
        seated.sort(key=lambda s: (abs(s.face_m[1] - built_for), s.person.index))
    return Pose(tuple(seated), in_turn, _stage(request, setup, entry, in_turn))


def _stage(request: Request, setup: Setup, entry: Entry, in_turn: bool) -> people.Stage | None:
    """What a group stands on; nothing for one, a couple, or people in turn."""
    if in_turn or entry["expected"]["group"] is None:
        return None
    box = space.box(request.room, entry["room"]["axis"], entry["background"]["distance_m"], False)
    return poses.stage(request, str(setup.view), box.across_m - 2 * box.keep_out_m)


def _seated(person: people.Person, row: Entry) -> Seated:
    x, y, z = row["face_m"]
    return Seated(
        replace(person, seat=row["seat"]), (x, y, z), row["nose_bearing_deg"], row["chin_deg"], row["body_turn_deg"],
        row["row"], row["step"],
    )  # fmt: skip


def _in_brief_order(pose: Pose) -> list[people.Person]:
    return [s.person for s in sorted(pose.seated, key=lambda s: s.person.index)]


def _head(request: Request, row: Entry) -> Any:
    return next(h for h in request.kit.heads if h.id == row["head"])


def _camera(request: Request, setup: Setup, pose: Pose, row: Entry) -> Camera:
    body = next(b for b in request.kit.cameras if b.id == row["body"])
    lens = next(x for x in request.kit.lenses if x.id == row["lens"])
    shell = Camera(
        body=body, lens=lens, focal_mm=row["focal_mm"], distance_m=row["distance_m"], height_m=row["height_m"],
        pitch_deg=row["pitch_deg"], orientation=row["orientation"], field_width_m=0.0, field_height_m=0.0,
        aperture=exposure.exact_f_number(row["aperture"]), iso=row["iso"], shutter_s=row["shutter_s"],
        blur_mm=framing.blur_mm(body, request.brief.print_width_cm), front_m=0.0, behind_m=0.0,
        floor_m=FRAMINGS[setup.framing].floor_m,
    )  # fmt: skip
    return framed(shell, pose)


def framed(camera: Camera, pose: Pose) -> Camera:
    """The camera with its field and the depth to hold sharp, from where it and the people are."""
    sides = sorted((camera.body.sensor_width_mm, camera.body.sensor_height_mm))
    wide_mm, tall_mm = sides if camera.orientation == "upright" else sides[::-1]
    front, behind = framing.depth_zone(pose)
    return replace(
        camera,
        field_width_m=float(lenses.field_m(wide_mm, camera.focal_mm, camera.distance_m)),
        field_height_m=float(lenses.field_m(tall_mm, camera.focal_mm, camera.distance_m)),
        front_m=front,
        behind_m=behind,
    )


def stood(camera: Camera, pose: Pose, distance_m: float, height_m: float) -> Camera:
    """The camera elsewhere on its line, tilted to a degree so that it goes on looking at what it looked at."""
    looks_at = camera.height_m + camera.distance_m * math.tan(math.radians(camera.pitch_deg))
    pitch = math.degrees(math.atan2(looks_at - height_m, distance_m))
    pitch = float(round_to(pitch, 1.0))
    return framed(replace(camera, distance_m=distance_m, height_m=height_m, pitch_deg=pitch), pose)


def _light(request: Request, row: Entry, eyes: Point, pose: Pose) -> Light:
    emitter = None
    if row["head"] is not None:
        emitter = pair(request, row["head"], row["modifier"], row["adapter"])
    panel = next((p for p in request.kit.panels if p.id == row["panel"]), None)
    power = float(row["power_below_full_stops"] or 0.0)
    if emitter is not None:
        step = dial.nearest(emitter, power)
        power = step if abs(step - power) <= SNAP else power
        emitter = replace(emitter, roll_deg=row["roll_deg"])
    position, aim = _point(row["position_m"]), _point(row["aim_m"])
    return Light(
        role=row["role"], position=position, aim=aim, aim_words=row["aim_words"], distance_m=row["distance_m"],
        bearing_deg=row["bearing_deg"], height_deg=row["height_angle_deg"], emitter=emitter, panel=panel,
        power_stops=power, mounting=_mounting(request, row), letter=row["letter"],
        distance_to=_distance_to(row, eyes, pose),
    )  # fmt: skip


def pair(request: Request, head: str, modifier: str, adapter: str | None) -> Emitter | None:
    """A head with a modifier as the kit has them, or None where they do not mount; heat is left to the checks."""
    kit = request.kit
    rings = [r for r in kit.adapters if adapter is None or r.id == adapter]
    heads = [h for h in kit.heads if h.id == head]
    steady = bool(heads) and heads[0].light == "steady"
    modifiers = [m for m in kit.modifiers if m.id == modifier]
    found = emitters(
        kit, request.corrections, steady=steady, heads=heads, modifiers=modifiers, adapters=rings, any_heat=True,
        measured=request.beams,
    )  # fmt: skip
    return found[0] if found else None


def _mounting(request: Request, row: Entry) -> Mounting | None:
    stand = next((s for s in request.kit.stands if s.id == row["stand"]), None)
    if stand is None:
        return None
    x, z = row["foot_m"]
    return Mounting(stand.id, stand.kind == "boom", (x, z), row["arm_m"], row["counterweight_kg"])


def _distance_to(row: Entry, eyes: Point, pose: Pose) -> Point:
    """What the printed distance is measured to: the eyes at the mark for key and fill, for all others their aim.

    A light that is moved to be for one face keeps that face, where the eyes are not what its distance fits.
    """
    at, aim = np.array(row["position_m"]), _point(row["aim_m"])
    if row["role"] not in ("key", "fill"):
        return aim

    def off(place: Point) -> float:
        return abs(float(np.linalg.norm(at - np.array(place))) - float(row["distance_m"]))

    mark = eyes if row["role"] == "key" else _centimetres(eyes)
    return mark if off(mark) <= ROUNDED_M else min((mark, aim, *(s.face_m for s in pose.together)), key=off)


def _block(request: Request, row: Entry) -> Block:
    panel = next(p for p in request.kit.panels if p.id == row["id"])
    at = _point(row["at_m"])
    return Block(panel, at, row["bearing_deg"], row["distance_m"], row["stand"])


def _point(values: list[float]) -> Point:
    return (float(values[0]), float(values[1]), float(values[2]))


def _centimetres(values: Point) -> Point:
    return (round(values[0], 2) + 0.0, round(values[1], 2) + 0.0, round(values[2], 2) + 0.0)
