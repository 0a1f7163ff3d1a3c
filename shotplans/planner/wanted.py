"""What a set-up asks for, out of the request: the light, the standard's key, the camera's place.

Belongs here: questions that the planner asks before it searches and that a what-if asks again afterwards.
"""

from __future__ import annotations

from shotplans.light import lenses
from shotplans.light.sources import disc_like_rect_m, hot_core_diameter
from shotplans.planner import frame, notes, rules
from shotplans.planner.brief import Brief, Setup, Standard
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.people import Person, Pose
from shotplans.planner.request import Request


def targets(request: Request, setup: Setup, who: list[Person], together: int) -> notes.Targets:
    """What the light of a set-up should be: the intent moved by the notes, the standard and the house's rules."""
    kept = rules.house(request.rules)
    return notes.targets(setup, who, together, request.brief.standard_of(setup), _standard_size(request, setup), kept)


def _standard_size(request: Request, setup: Setup) -> float | None:
    """Effective size of the standard's key modifier, if the kit holds it."""
    wanted = _key_modifier(request, setup)
    for modifier in request.kit.modifiers:
        if modifier.id == wanted or modifier.label == wanted:
            width, height = modifier.size_m
            core = float(hot_core_diameter(1.0, float(modifier.core_stops or 0.0)))
            if modifier.shape == "disc":
                return width * core
            return disc_like_rect_m(width, height) * core
    return None


def _key_modifier(request: Request, setup: Setup) -> str | None:
    standard = request.brief.standard_of(setup)
    return standard.key_modifier if standard else None


def standard_only(request: Request, setup: Setup, emitters: list[Emitter]) -> list[Emitter]:
    """The pairs with the standard's key modifier where there are any, else all."""
    wanted = _key_modifier(request, setup)
    named = [e for e in emitters if wanted in (e.modifier.id, e.modifier.label)]
    return named or emitters


def camera_m(brief: Brief, setup: Setup, pose: Pose, camera: Camera) -> float:
    """Metres from which this camera, at its focal length, holds the framing that the brief asks for."""
    way = frame.orientation(setup, pose, str(brief.orientation))
    wide, tall = _sides(camera, way)
    share = (brief.standard_of(setup) or Standard()).head_share
    height = frame.field_height(setup, pose, way == "upright", share, wide / tall)
    return float(lenses.distance_for_field_m(tall, camera.focal_mm, height))


def focal_mm(brief: Brief, setup: Setup, pose: Pose, camera: Camera, distance_m: float) -> float:
    """The focal length in mm that holds the framing from a distance in metres: thin lens [VIEW]."""
    way = frame.orientation(setup, pose, str(brief.orientation))
    wide, tall = _sides(camera, way)
    share = (brief.standard_of(setup) or Standard()).head_share
    height = frame.field_height(setup, pose, way == "upright", share, wide / tall)
    return distance_m / (1e-3 + height / tall)


def _sides(camera: Camera, way: str) -> tuple[float, float]:
    sides = sorted((camera.body.sensor_width_mm, camera.body.sensor_height_mm))
    return (sides[0], sides[1]) if way == "upright" else (sides[1], sides[0])
