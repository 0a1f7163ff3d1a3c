"""From one chosen key to a whole set-up: its stand, the fill, the dial, the ground, the accent. Canonical set."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from shotplans.light.exposure import ambient_below_stops
from shotplans.light.units import direction
from shotplans.planner import accent as accents
from shotplans.planner import aim as aims
from shotplans.planner import behind, daylight, dial, fill_more, flags, ground, ground_lights
from shotplans.planner import fill as fills
from shotplans.planner.brief import Setup
from shotplans.planner.frame import Camera
from shotplans.planner.free import Free, one_each
from shotplans.planner.key import Choice
from shotplans.planner.mounting import mount
from shotplans.planner.notes import Targets
from shotplans.planner.plan import Block, Ground, Light, Solved
from shotplans.planner.readings import reading
from shotplans.planner.request import Request
from shotplans.planner.scene import Filled, Scene, key_level
from shotplans.planner.space import Box

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
ORDER = ("key", "fill", "accent", "background")


@dataclass(frozen=True)
class Frame:
    """What a set-up is built in: brief, targets, camera, room, and the exposure the key must give."""

    request: Request
    setup: Setup
    targets: Targets
    camera: Camera
    box: Box
    steady: bool
    needed: float
    iso_room_stops: float


def build(frame: Frame, choice: Choice, free: Free, candidates: int) -> Solved | None:
    """The whole set-up around a key, or None when no free stand holds the key there."""
    key = _key(frame, choice, free)
    if key is None:
        return None
    meter = frame.request.brief.meter
    at_key = meter.setting_reading == "at_key"
    scene = Scene(key, choice.pose, frame.camera, frame.box, meter.dome == "recessed", at_key)
    left = free.without(key)
    filled = _fill(frame, scene, left)
    used: list[Light | Block] = [*([filled.light] if filled.light else []), *filled.blocks]
    left = left.without(*used)
    dialled = dial.solve(
        scene,
        filled.light,
        filled.blocks,
        filled.level_stops if filled.how in ("panel", "bounce", "blocked", "none") else frame.targets.row.fill.mid,
        steady=frame.steady,
        max_iso=float(frame.camera.body.max_iso),
        iso_fixed=frame.request.preferences.iso is not None,
        aperture_fixed=frame.request.preferences.aperture is not None,
    )
    lights = _dialled(scene, dialled, filled, left, frame.steady)
    scene = replace(scene, key=lights[0], camera=dialled.camera)
    left = left.without(*lights[2:])
    made = _behind(frame, choice, _Front(scene, tuple(lights), filled, dialled), left, candidates)
    over = behind.over_stops(made, scene.recessed, at_key)
    for way in (_Way(screened=False), _Way(accents=False), _Way(screened=False, accents=False)):
        if over <= behind.ALL_ON_MOST_STOPS:
            break
        # what stands behind spills on the face: ground lights that need no screen, or no accent
        other = _behind(frame, choice, _Front(scene, tuple(lights), filled, dialled), left, candidates, way)
        less = behind.over_stops(other, scene.recessed, at_key)
        if less < over - behind.WORTH_STOPS:
            made, over = other, less
    return made


@dataclass(frozen=True)
class _Front:
    """What stands before the sitter: the scene, key and fill at their powers, and how they were found."""

    scene: Scene
    lights: tuple[Light, ...]
    filled: Filled
    dialled: dial.Dialled


@dataclass(frozen=True)
class _Way:
    """How the part behind the sitter is tried: with screens for the ground lights to count on, with accents."""

    screened: bool = True
    accents: bool = True


USUAL = _Way()


def _behind(frame: Frame, choice: Choice, front: _Front, left: Free, candidates: int, way: _Way = USUAL) -> Solved:
    """The set-up with its ground, ground lights, accents and flags."""
    scene, lights, filled = front.scene, list(front.lights), front.filled
    spill = _spill(scene, lights, filled.blocks)
    hung, extra = _ground(frame, scene, lights, spill, left, way.screened)
    from_wall = 0.0 if hung.item.kind == "wall" else scene.box.ground_from_wall_m
    scene = replace(scene, box=replace(scene.box, mark_from_ground_m=hung.distance_m, ground_from_wall_m=from_wall))
    lights += extra
    left = left.without(*extra)
    accented = _accents(frame, scene, left, extra) if way.accents else []
    lights += accented
    spill = replace(spill, lights=(*spill.lights, *extra))
    screened, hung = flags.solve(scene, lights, hung, spill, left.without(*accented))
    return Solved(
        setup=frame.setup,
        targets=frame.targets,
        pose=choice.pose,
        camera=scene.camera,
        box=scene.box,
        lights=_lettered(lights),
        blocks=filled.blocks,
        flags=screened,
        ground=hung,
        steady=frame.steady,
        score=choice.score,
        candidates=candidates,
        notes=notes_of(frame, choice, filled, front.dialled) | {"accent_left_out": not way.accents},
    )


def _dialled(scene: Scene, dialled: dial.Dialled, filled: Filled, left: Free, steady: bool) -> list[Light]:
    """The key, what fills, and a second fill where the first cannot do it alone, each at its power; the key first."""
    if dialled.fill is None:
        return [dialled.key]
    more = fill_more.solve(scene, dialled, filled, left, steady)
    return [more[0], dialled.fill, more[1]] if more else [dialled.key, dialled.fill]


def notes_of(frame: Frame, choice: Choice, filled: Filled, dialled: dial.Dialled) -> dict[str, object]:
    """What the checker and the reasons want to know beside the placement."""
    kit, room, camera = frame.request.kit, frame.request.room, dialled.camera
    ambient = daylight.ambient_lux(room)
    below = float(ambient_below_stops(ambient, camera.aperture, camera.shutter_s, camera.iso)) if ambient > 0 else 99.0
    return {
        "fill": filled,
        "short": dialled.short_stops,
        "error": dialled.error_stops,
        "broken": choice.broken,
        "stands": tuple(kit.stands),
        "weights": tuple(kit.weights),
        "over": dialled.over_stops,
        "ambient_below_stops": below,
        "windows_lux": daylight.windows_lux(room),
        "circuits": tuple(room.circuits),
        "kinds": len({e.modifier.kind for e in Free.all_of(frame.request).emitters(frame.steady)}),
        "brief": frame.request.brief,
        "iso_ordered": frame.request.preferences.iso is not None,
    }


def _key(frame: Frame, choice: Choice, free: Free) -> Light | None:
    eyes = np.array([0.0, choice.pose.eye_m, 0.0])
    at = eyes + choice.distance_m * direction(choice.bearing_deg, choice.height_deg)
    place = (round(float(at[0]), 2), round(float(at[1]), 2), round(float(at[2]), 2))
    face = (0.0, round(choice.pose.eye_m, 3), 0.0)
    aim, aim_words = aims.of_key(choice, place)
    light = Light(
        role="key",
        position=place,
        aim=aim,
        aim_words=aim_words,
        distance_m=choice.distance_m,
        bearing_deg=choice.bearing_deg,
        height_deg=choice.height_deg,
        emitter=choice.emitter,
        distance_to=face,
    )
    scene = Scene(light, choice.pose, frame.camera, frame.box, False, False)
    held = mount(light.at, -light.axis, choice.emitter.depth_m - 0.2, choice.emitter.mass_kg, free.stands, scene.site())
    return replace(light, mounting=held) if held is not None else None


def _fill(frame: Frame, scene: Scene, left: Free) -> Filled:
    row = frame.targets.row
    spare = left.emitters(frame.steady)
    return fills.solve(
        scene,
        row.fill,
        emitters=one_each(spare),
        panels=left.panels,
        stands=left.stands,
        needed=frame.needed,
        iso_room_stops=frame.iso_room_stops,
        people=len(scene.pose.together),
    )


def _spill(scene: Scene, lights: Sequence[Light], blocks: Sequence[Block]) -> ground.Spill:
    """What falls on the ground before it has lights of its own, and the setting reading."""
    heads = tuple(x for x in lights if x.emitter)
    panels = [x for x in lights if x.emitter is None]
    setting = reading(
        scene.mark, scene.axis, heads, scene.box, panels=panels, blocks=blocks, recessed=scene.recessed
    )
    return ground.Spill(heads, tuple(blocks), setting)


def _ground(
    frame: Frame, scene: Scene, lights: Sequence[Light], spill: ground.Spill, left: Free, screened: bool
) -> tuple[Ground, list[Light]]:
    tone = str(frame.setup.background_tone)
    wanted = ground.wanted_lightness(tone, frame.targets.row.ground)
    reaches = [_reach_z(x, scene.box.keep_out_m) for x in lights]
    front = max(scene.camera.distance_m + scene.box.behind_camera_m, *reaches)
    longest = scene.box.length_m - scene.box.ground_from_wall_m - front
    items, can_light = frame.request.kit.backgrounds, bool(left.emitters(frame.steady))
    hung = ground.choose(scene, items, tone, wanted, spill, longest, can_light, frame.targets.ground_least_m)
    scene = replace(scene, box=replace(scene.box, mark_from_ground_m=hung.distance_m))
    if not ground.needs_light(hung, wanted):
        return hung, []
    extra, lit = ground_lights.solve(ground_lights.Task(scene, hung, wanted, spill, frame.steady, screened), left)
    if not extra and can_light:  # no light could stand there: the place that spill lights best
        return ground.choose(scene, items, tone, wanted, spill, longest, False, frame.targets.ground_least_m), []
    return lit, extra


def _reach_z(light: Light, keep_out_m: float) -> float:
    """How far toward the camera's wall a light reaches, its stand's foot with the strip it must leave free."""
    back = light.emitter.depth_m if light.emitter else 0.2
    body = light.position[2] - float(light.axis[2]) * back + 0.1
    foot = light.mounting.foot_m[1] + keep_out_m if light.mounting else 0.0
    return max(body, foot)


def _accents(frame: Frame, scene: Scene, left: Free, extra: Sequence[Light]) -> list[Light]:
    """The accent the targets want and, where the intent takes one, a second; each on its head's own steps."""
    row, band = frame.targets.row, frame.targets.accent_band
    if band is None:
        return []
    wants = [accents.Want(row.accent_kind, -1.0, band)]
    if len(scene.pose.together) == 1:
        one = scene.pose.together[0].person.sitter
        more = accents.second(row.name, str(frame.setup.background_tone), str(one.hair), str(one.head))
        wants += [more] if more else []
    placed: list[Light] = []
    for want in wants:
        found = accents.solve(
            scene,
            want,
            emitters=one_each(left.emitters(frame.steady)),
            stands=left.stands,
            needed=key_level(scene),
            others=(*extra, *placed),
        )
        if found is None or found.emitter is None:
            break
        placed.append(replace(found, power_stops=dial.nearest(found.emitter, found.power_stops)))
        left = left.without(found)
    return placed


def _lettered(lights: Sequence[Light]) -> tuple[Light, ...]:
    ordered = sorted(lights, key=lambda x: ORDER.index(x.role))
    return tuple(replace(x, letter=LETTERS[n]) for n, x in enumerate(ordered))
