"""Where a hand points a light: at a point of the set, or so many degrees past the middle; and how that is said on set.

Belongs here: the aim alone, and the words of it. The light keeps its place (`moves`), and a key or a fill keeps what
its distance is measured to, which is how a front is feathered. Not here: which aims a page offers (`live_page`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from shotplans.light.units import bearing_deg, direction, round_to
from shotplans.planner.plan import Light, Point, Solved, cm
from studio.tongue import gettext as _

LEAST_M = 0.1  # nearer to its own front nothing is aimed at
ON_AXIS_M = 0.02  # so near to the camera's line a light stands on neither side
GROUND_M = 1.4  # how high on the ground lights are aimed at most, as `ground_lights` aims them
EYES = ("key", "fill")  # their distance is measured to the eyes, whatever they are aimed at


def targets(solved: Solved) -> Iterator[tuple[Point, str]]:
    """What a light may be pointed at by name: each face in the picture, the middle of several, the ground."""
    together = solved.pose.together
    for sitter in together:
        many = _("at {label}'s face").format(label=sitter.person.label)
        yield cm(np.array(sitter.face_m)), many if len(together) > 1 else _("at the face")
    if len(together) > 1:
        yield cm(solved.mark_eyes), _("at the middle of the group")
    assert solved.ground is not None
    height = float(round_to(min(float(solved.mark_eyes[1]), GROUND_M), 0.05))
    yield (0.0, height, 0.0 - solved.ground.distance_m), _("at the middle of the ground")


def pointed(solved: Solved, light: Light, at: Point) -> Light | None:
    """The light pointed at a place; None where that lies in its own front."""
    aim = cm(np.array(at))
    if float(np.linalg.norm(np.array(aim) - light.at)) < LEAST_M:
        return None
    made = replace(light, aim=aim, aim_words=_words(solved, light, aim))
    if light.role in EYES:
        return made
    return replace(made, distance_to=aim, distance_m=round(float(np.linalg.norm(np.array(aim) - light.at)), 2))


def turned(solved: Solved, light: Light, turn_deg: float) -> Light | None:
    """The light turned level so that it points so many degrees past the middle, as high and as far as it pointed."""
    x, y, z = (float(v) for v in np.array(light.aim) - light.at)
    way = direction(float(bearing_deg(-light.at)) + _sign(light.position) * turn_deg, 0.0)
    there = light.at + float(np.hypot(x, z)) * way + np.array([0.0, y, 0.0])
    return pointed(solved, light, cm(there))


def turn_deg(position: Point, aim: Point) -> float:
    """How far past the middle a front points, level, degrees: + on the camera's side, - on the ground's; of a light on
    the camera's line + to camera right. Geometry; the mark is the origin."""
    at = np.array(position)
    off = float(bearing_deg(np.array(aim) - at)) - float(bearing_deg(-at))
    return float(round(_sign(position) * ((off + 180.0) % 360.0 - 180.0))) + 0.0


def on_axis(position: Point) -> bool:
    """Whether a light stands on the camera's line, so that neither side of its beam is the camera's."""
    return abs(position[0]) < ON_AXIS_M


def _sign(position: Point) -> float:
    """What turns a bearing counted to camera right into one counted to the camera."""
    x, _y, z = position
    if on_axis(position):
        return -1.0 if z > 0 else 1.0
    return -1.0 if x < 0 else 1.0


def _words(solved: Solved, light: Light, aim: Point) -> str:
    named = next((words for point, words in targets(solved) if point == aim), None)
    if named is not None:
        return named
    turn = turn_deg(light.position, aim)
    by = f"{abs(turn):.0f}"
    if on_axis(light.position):
        said = _("{by} degrees past the middle, to camera right") if turn > 0 else _(
            "{by} degrees past the middle, to camera left"
        )
    elif turn > 0:
        said = _("{by} degrees past the middle, on the camera's side")
    else:
        said = _("{by} degrees past the middle, on the ground's side")
    return said.format(by=by) if turn else _("straight at the middle")
