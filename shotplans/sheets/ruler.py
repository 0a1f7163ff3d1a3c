"""From metres in the room to millimetres on the sheet: one scale for the plan above and the elevation below.

Both share the ruler across: what stands above another thing on the sheet stands behind or over it in the room. Of a
large room only the part in use is shown; an edge that is not a wall is left open.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import ceil

from shotplans.sheets.scene import Place, Scene, Source
from studio.paper.primitives import Box, Point

STEP = 5  # scales are 1 : a multiple of this
WALL_M = 0.14
ROUND_THINGS_M = 0.2
BEFORE_THINGS_M = 0.4
SHOW_WALL_M = 0.9  # a wall this near to the things is shown with them
ABOVE_MM, BETWEEN_MM, BELOW_MM = 6.5, 4.5, 5.5
SIDE_MM = 13.0


@dataclass(frozen=True)
class Part:
    """The part of the room that is shown, and which of its edges are walls."""

    left: float
    right: float
    back: float
    front: float
    top: float
    wall_left: bool
    wall_right: bool
    wall_front: bool
    ceiling: bool


@dataclass(frozen=True)
class Ruler:
    """Where things of the room lie on a sheet of `width` by `height` mm."""

    width: float
    height: float
    scale: int
    part: Part

    @cached_property
    def mm(self) -> float:
        """Millimetres on the sheet for a metre in the room."""
        return 1000 / self.scale

    @cached_property
    def middle(self) -> float:
        return self.width / 2 - (self.part.left + self.part.right) / 2 * self.mm

    @cached_property
    def plan_top(self) -> float:
        spare = self.height - ABOVE_MM - BETWEEN_MM - BELOW_MM - _tall(self.part) * self.mm
        return ABOVE_MM + WALL_M * self.mm + max(0.0, spare) / 2

    @cached_property
    def floor(self) -> float:
        """The floor's line in the elevation."""
        return self.plan_top + (self.part.front - self.part.back + 2 * WALL_M + self.part.top) * self.mm + BETWEEN_MM

    def plan(self, x: float, z: float) -> Point:
        return self.middle + x * self.mm, self.plan_top + (z - self.part.back) * self.mm

    def elevation(self, x: float, y: float) -> Point:
        return self.middle + x * self.mm, self.floor - y * self.mm

    def above(self, place: Place) -> Point:
        return self.plan(place[0], place[2])

    def before(self, place: Place) -> Point:
        return self.elevation(place[0], place[1])

    @cached_property
    def plan_box(self) -> Box:
        left, top = self.plan(self.part.left, self.part.back)
        right, bottom = self.plan(self.part.right, self.part.front)
        return Box(left, top, right, bottom)

    @cached_property
    def elevation_box(self) -> Box:
        left, top = self.elevation(self.part.left, self.part.top)
        right, bottom = self.elevation(self.part.right, 0.0)
        return Box(left, top, right, bottom)


def lay(scene: Scene, width: float, height: float) -> Ruler:
    """The largest scale at which the part of the room in use fits the sheet."""
    part = shown(scene, whole=True)
    down = (height - ABOVE_MM - BETWEEN_MM - BELOW_MM) / _tall(part)
    if (width - 2 * SIDE_MM) / _wide(part) < down:
        part = shown(scene, whole=False)
    fits = min(down, (width - 2 * SIDE_MM) / _wide(part))
    return Ruler(width, height, STEP * ceil(1000 / fits / STEP), part)


def _tall(part: Part) -> float:
    return part.front - part.back + part.top + 3 * WALL_M


def _wide(part: Part) -> float:
    return part.right - part.left + 2 * WALL_M


def shown(scene: Scene, whole: bool) -> Part:
    """What is shown: everything that stands, and walls that are near; `whole` keeps both side walls."""
    places = [corner for source in (*scene.sources, *scene.panels) for corner in _reach(source)]
    places += [person.face for person in scene.people] + [(0.0, scene.camera.height_m, scene.camera.distance_m)]
    walls, ground = scene.walls, scene.ground
    near = ROUND_THINGS_M
    left = min([*(p[0] for p in places), -ground.width_m / 2, -0.6]) - near
    right = max([*(p[0] for p in places), ground.width_m / 2, 0.6]) + near
    front = max(p[2] for p in places) + BEFORE_THINGS_M
    top = max(max(p[1] for p in places), ground.height_m) + near
    wall_left, wall_right = (whole or left - walls.left < SHOW_WALL_M), (whole or walls.right - right < SHOW_WALL_M)
    wall_front, ceiling = walls.front - front < SHOW_WALL_M, walls.ceiling - top < SHOW_WALL_M
    return Part(
        walls.left if wall_left else left,
        walls.right if wall_right else right,
        walls.back,
        walls.front if wall_front else front,
        walls.ceiling if ceiling else top,
        wall_left,
        wall_right,
        wall_front,
        ceiling,
    )


def _reach(source: Source) -> list[Place]:
    """The outermost points of a source and of what holds it."""
    x, y, z = source.at
    half = max(source.width_m, source.height_m) / 2
    found: list[Place] = [(x - half, y + source.height_m / 2, z - half), (x + half, y, z + half)]
    if source.holder:
        foot_x, foot_z = source.holder.foot
        spread = source.holder.footprint_m / 2
        found += [(foot_x - spread, 0.0, foot_z), (foot_x + spread, 0.0, foot_z)]
    return found
