"""One value of a placed set changed, on the steps a person can set; refused where it cannot be.

Belongs here: where things stand after the change, each light still on a stand that holds it. What follows from that is
in outcome.py. Everything keeps its place but the one thing named: a light moved keeps its aim, a camera moved keeps
what it looks at.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from shotplans.light import exposure
from shotplans.light.units import bearing_deg, height_deg, round_to
from shotplans.planner import dial, ground, hand_aim
from shotplans.planner.accent import AT_FACE
from shotplans.planner.candidates import STEP_DEG, STEP_M
from shotplans.planner.mounting import PANEL_KG, Site, mount, never_under
from shotplans.planner.people import Pose, Seated
from shotplans.planner.placed import framed, pair, stood
from shotplans.planner.plan import Light, Point, Solved, cm
from shotplans.planner.readings import direct
from shotplans.planner.request import Request
from studio.tongue import gettext as _

CM = 0.01
FARTHEST_M = 20.0  # of any place from the mark: farther is a slip of the hand
# What may be asked of each value: the lowest and the highest, in its own unit.
RANGE: dict[str, tuple[float, float]] = {
    "distance_m": (0.3, 20.0), "bearing_deg": (-180.0, 180.0), "height_angle_deg": (-30.0, 85.0),
    "power_below_full_stops": (0.0, 20.0), "height_m": (0.1, 4.0), "aperture": (0.7, 128.0), "iso": (6.0, 1_000_000.0),
    "shutter_s": (0.00001, 60.0), "right_m": (-10.0, 10.0), "toward_camera_m": (-10.0, 10.0),
    "nose_bearing_deg": (-90.0, 90.0), "chin_deg": (-30.0, 30.0), "turn_deg": (-180.0, 180.0),
}  # fmt: skip
OF_LIGHT = (
    "distance_m", "bearing_deg", "height_angle_deg", "power_below_full_stops", "aim", "modifier", "head", "place_m",
    "height_m", "aim_m", "turn_deg",
)  # fmt: skip
OF_CAMERA = ("distance_m", "height_m", "aperture", "iso", "shutter_s")
OF_GROUND = ("distance_m",)
OF_SITTER = ("right_m", "toward_camera_m", "nose_bearing_deg", "chin_deg")


@dataclass(frozen=True)
class Change:
    """One value to be another: of `light`, `camera`, `background` or `sitter`; `name` is the letter or the label. A
    `free` one is taken to the centimetre or degree instead of the step a person sets."""

    thing: str
    name: str
    key: str
    value: str
    free: bool = False


class Refused(ValueError):
    """A change that cannot be set: a code with values, worded in the catalogue."""

    def __init__(self, code: str, values: dict[str, Any]) -> None:
        super().__init__(code)
        self.code, self.values = code, values


def changed(request: Request, solved: Solved, change: Change) -> tuple[Solved, str]:
    """The set with one value changed, and the value as it was taken. Raises Refused."""
    doers: dict[str, Callable[[Request, Solved, Change], tuple[Solved, str]]] = {
        "light": _of_light, "camera": _of_camera, "background": _of_ground, "sitter": _of_sitter,
    }  # fmt: skip
    known = {"light": OF_LIGHT, "camera": OF_CAMERA, "background": OF_GROUND, "sitter": OF_SITTER}
    if change.key not in known.get(change.thing, ()):
        raise Refused("no_value", {"thing": change.thing, "key": change.key})
    return doers[change.thing](request, solved, change)


def _number(change: Change) -> float:
    """The value as a number within its range. Raises Refused."""
    value = _read(change.value)
    low, high = RANGE[change.key]
    if not math.isfinite(value):
        raise Refused("no_number", {"given": change.value.strip()[:40]})
    if not low <= value <= high:
        raise Refused("out_of_range", {"given": f"{value:g}", "low": f"{low:g}", "high": f"{high:g}"})
    return value


def _stepped(change: Change, step: float, free_step: float) -> float:
    return float(round_to(_number(change), free_step if change.free else step))


def _read(text: str) -> float:
    """A number as a studio writes it: 2.1, 2,1, f/8, 1/125. NaN for anything else."""
    whole, _slash, part = text.strip().removeprefix("f/").replace(",", ".").partition("/")
    try:
        return float(whole) / float(part) if part else float(whole)
    except (ValueError, ZeroDivisionError):
        return math.nan


def _of_light(request: Request, solved: Solved, change: Change) -> tuple[Solved, str]:
    number = next((n for n, x in enumerate(solved.lights) if x.letter == change.name), None)
    if number is None:
        raise Refused("no_such_light", {"name": change.name[:40]})
    light = solved.lights[number]
    if change.key in ("modifier", "head"):
        made, taken = _swapped(request, solved, light, change)
    elif change.key == "aim":
        made, taken = _aimed(solved, light, change)
    elif change.key in ("aim_m", "turn_deg"):
        made, taken = _pointed(solved, light, change)
    elif change.key == "power_below_full_stops":
        made, taken = _dialled(light, change)
    elif change.key == "place_m":
        made, taken = at_place(solved, light, _place(change)), change.value
    elif change.key == "height_m":
        height = _stepped(change, STEP_M, CM)
        x, _y, z = light.position
        made, taken = at_place(solved, light, (x, height, z)), f"{height:.2f} m"
    else:
        made, taken = _moved(solved, light, change)
    if math.dist(made.position, made.aim) < hand_aim.LEAST_M:
        raise Refused("own_front", {"letter": light.letter})
    if made.position != light.position or made.emitter != light.emitter or made.aim != light.aim:
        made = held(request, solved, made)
    lights = (*solved.lights[:number], made, *solved.lights[number + 1 :])
    return replace(solved, lights=lights), taken


def _moved(solved: Solved, light: Light, change: Change) -> tuple[Light, str]:
    value = _stepped(change, STEP_M, CM) if change.key == "distance_m" else _stepped(change, STEP_DEG, 1.0)
    made = elsewhere(solved, light, change.key, value)
    if made is None:
        raise Refused("no_place", {"letter": light.letter, "given": f"{value:g}"})
    return made, f"{value:.2f} m" if change.key == "distance_m" else _degrees(value)


def _degrees(value: float) -> str:
    return _("{value} degrees").format(value=f"{value:.0f}")


def elsewhere(solved: Solved, light: Light, key: str, value: float) -> Light | None:
    """The light with its distance, bearing or height angle another: on its ray from the mark, its aim kept.

    None where that ray has no point at that distance from what the distance is measured to.
    """
    steps = {
        "distance_m": light.distance_m, "bearing_deg": light.bearing_deg, "height_angle_deg": light.height_deg,
    } | {key: value}  # fmt: skip
    place = np.array(light.distance_to or light.aim)
    bearing, height, distance = steps["bearing_deg"], steps["height_angle_deg"], steps["distance_m"]
    at = ground.along(solved.mark_eyes, bearing, height, place, distance)
    if at is None:
        return None
    return replace(light, position=cm(at), distance_m=distance, bearing_deg=bearing, height_deg=height)


def at_place(solved: Solved, light: Light, at: Point) -> Light:
    """The light at a point of the set, its aim kept: distance, bearing and height angle as they will be printed."""
    place, mark = np.array(light.distance_to or light.aim), solved.mark_eyes
    here = np.array(at)
    return replace(
        light,
        position=cm(here),
        distance_m=round(float(np.linalg.norm(here - place)), 2),
        bearing_deg=round(float(bearing_deg(here - mark))) + 0.0,
        height_deg=round(float(height_deg(here - mark))) + 0.0,
    )


def _place(change: Change) -> Point:
    """Three numbers in one value, metres: right, up, toward the camera. Raises Refused."""
    values = [_read(part) for part in change.value.split()]
    if len(values) != 3 or not all(math.isfinite(v) for v in values):
        raise Refused("no_number", {"given": change.value.strip()[:40]})
    for value in values:
        if abs(value) > FARTHEST_M:
            limit = f"{FARTHEST_M:g}"
            raise Refused("out_of_range", {"given": f"{value:g}", "low": f"-{limit}", "high": limit})
    return (values[0], values[1], values[2])


def _dialled(light: Light, change: Change) -> tuple[Light, str]:
    if light.emitter is None:
        raise Refused("no_dial", {"letter": light.letter})
    wanted = _number(change)
    if wanted > float(light.emitter.head.range_stops) + 1e-6:
        most = f"{light.emitter.head.range_stops:g}"
        raise Refused("out_of_range", {"given": f"{wanted:g}", "low": "0", "high": most})
    power = dial.nearest(light.emitter, wanted)
    return replace(light, power_stops=power), _("{stops} stops below full").format(stops=f"{power:.1f}")


def _aimed(solved: Solved, light: Light, change: Change) -> tuple[Light, str]:
    """Aimed at the bridge of a sitter's nose; what its distance is measured to stays."""
    sitter = next((s for s in solved.pose.together if s.person.label == change.value.strip()), None)
    if sitter is None:
        raise Refused("no_such_sitter", {"name": change.value.strip()[:40]})
    return replace(light, aim=cm(np.array(sitter.face_m)), aim_words=_(AT_FACE)), sitter.person.label


def _pointed(solved: Solved, light: Light, change: Change) -> tuple[Light, str]:
    if change.key == "aim_m":
        made = hand_aim.pointed(solved, light, _place(change))
    else:
        made = hand_aim.turned(solved, light, _stepped(change, STEP_DEG, 1.0))
    if made is None:
        raise Refused("own_front", {"letter": light.letter})
    if light.role == "key" and not float(np.linalg.norm(direct(made, solved.mark_eyes))) > 0:
        raise Refused("misses", {"letter": light.letter})  # every number is against what the key gives there
    return made, made.aim_words


def _swapped(request: Request, solved: Solved, light: Light, change: Change) -> tuple[Light, str]:
    if light.emitter is None:
        raise Refused("no_dial", {"letter": light.letter})
    wanted = change.value.strip()
    of = request.kit.modifiers if change.key == "modifier" else request.kit.heads
    if wanted not in {piece.id for piece in of}:
        raise Refused("not_in_kit", {"name": wanted[:40]})
    for other in solved.lights:
        if other.letter != light.letter and other.emitter is not None:
            e = other.emitter
            if wanted in (e.head.id, e.modifier.id):
                raise Refused("taken", {"name": wanted, "letter": other.letter})
    head = wanted if change.key == "head" else light.emitter.head.id
    modifier = wanted if change.key == "modifier" else light.emitter.modifier.id
    made = pair(request, head, modifier, None)
    if made is None:
        raise Refused("no_ring", {"head": head, "modifier": modifier})
    if made.steady != solved.steady:
        raise Refused("mixed", {"name": wanted})
    if change.key == "head":
        made = replace(made, roll_deg=light.emitter.roll_deg)  # the front stays as it hangs
    return replace(light, emitter=made, power_stops=dial.nearest(made, light.power_stops)), wanted


def held(request: Request, solved: Solved, light: Light) -> Light:
    """The light on its own stand where that still holds it, else on nothing, which the checks then say."""
    stands = [s for s in request.kit.stands if light.mounting is not None and s.id == light.mounting.stand]
    site = Site(
        solved.camera, solved.box, np.array([s.face_m for s in solved.pose.together]), never_under(solved.pose.seated)
    )
    back = light.emitter.depth_m - 0.2 if light.emitter else 0.1
    mass = light.emitter.mass_kg if light.emitter else PANEL_KG
    return replace(light, mounting=mount(light.at, -light.axis, back, mass, stands, site))


def _stood(request: Request, before: Solved, after: Solved) -> Solved:
    """Every light that its stand held before, looked at again: a stand may now be seen, or stand in the way."""
    lights = []
    for light in after.lights:
        again = held(request, after, light)
        lost = again.mounting is None and held(request, before, light).mounting is not None
        lights.append(again if lost else light)
    return replace(after, lights=tuple(lights))


def _of_camera(request: Request, solved: Solved, change: Change) -> tuple[Solved, str]:
    camera, value = solved.camera, _number(change)
    if change.key in ("distance_m", "height_m"):
        value = _stepped(change, STEP_M, CM)
        places = {"distance_m": camera.distance_m, "height_m": camera.height_m} | {change.key: value}
        made = stood(camera, solved.pose, **places)
        return _stood(request, solved, replace(solved, camera=made)), f"{value:.2f} m"
    if change.key == "aperture":
        made = replace(camera, aperture=exposure.exact_f_number(value))
        return replace(solved, camera=made), exposure.shown(made.aperture)
    if change.key == "iso":
        return replace(solved, camera=replace(camera, iso=round(value))), _("ISO {iso}").format(iso=f"{value:.0f}")
    return replace(solved, camera=replace(camera, shutter_s=value)), exposure.shutter_label(value)


def _of_ground(request: Request, solved: Solved, change: Change) -> tuple[Solved, str]:
    value = _stepped(change, STEP_M, CM)
    assert solved.ground is not None
    made = replace(
        solved,
        box=replace(solved.box, mark_from_ground_m=value),
        ground=replace(solved.ground, distance_m=value),
    )
    return _stood(request, solved, made), f"{value:.2f} m"


def _of_sitter(request: Request, solved: Solved, change: Change) -> tuple[Solved, str]:
    pose = solved.pose
    sitter = next((s for s in pose.seated if s.person.label == change.name), None)
    if sitter is None:
        raise Refused("no_such_sitter", {"name": change.name[:40]})
    if change.key in ("nose_bearing_deg", "chin_deg"):
        value = _stepped(change, STEP_DEG if change.key == "nose_bearing_deg" else 1.0, 1.0)
        made = replace(sitter, nose_deg=value) if change.key == "nose_bearing_deg" else replace(sitter, chin_deg=value)
        taken = _degrees(value)
    else:
        if pose.in_turn:
            raise Refused("in_turn", {"name": sitter.person.label})
        value = _stepped(change, STEP_M, CM)
        x, y, z = sitter.face_m
        made = replace(sitter, face_m=(value, y, z) if change.key == "right_m" else (x, y, value))
        taken = f"{value:.2f} m"
    moved = _with(pose, sitter, made)
    after = replace(solved, pose=moved, camera=framed(solved.camera, moved))
    return (_stood(request, solved, after) if made.face_m != sitter.face_m else after), taken


def _with(pose: Pose, sitter: Seated, other: Seated) -> Pose:
    return replace(pose, seated=tuple(other if s is sitter else s for s in pose.seated))
