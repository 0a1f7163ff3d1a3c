"""The room as a box around the set: which way the set faces, where its walls, ceiling and keep-out strips lie.

The box is in the set's frame (origin on the floor under the mark, +x camera right, +z to the camera). The mark stands
on the middle line of the room, so a mirrored plan fits the same room.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import bounce
from shotplans.light.units import round_to
from shotplans.planner.framings import PHOTOGRAPHER_M
from shotplans.planner.room import Room

F = NDArray[np.float64]
FOOT_BEFORE_GROUND_M = 0.15
WALL_CLEAR_M = 0.05  # cloth may come this near to a wall or the ceiling


@dataclass(frozen=True)
class Box:
    """The room around a set; all in metres. `axis` names the room's side the camera looks along."""

    axis: str
    across_m: float
    length_m: float
    ceiling_m: float
    keep_out_m: float
    ground_from_wall_m: float
    mark_from_ground_m: float
    mark_from_side_wall_m: float
    area_m2: float
    reflectance: float

    @property
    def low(self) -> F:
        return np.array([-self.mark_from_side_wall_m, 0.0, -(self.mark_from_ground_m + self.ground_from_wall_m)])

    @property
    def light_low(self) -> F:
        """The lower corner for lights, which stand before the ground, not behind it."""
        return np.array([-self.mark_from_side_wall_m, 0.0, -self.mark_from_ground_m])

    @property
    def high(self) -> F:
        return np.array(
            [
                self.across_m - self.mark_from_side_wall_m,
                self.ceiling_m,
                self.length_m - self.mark_from_ground_m - self.ground_from_wall_m,
            ]
        )

    def over(self, points: F, margin_m: float = WALL_CLEAR_M) -> F:
        """How far, in metres, each point (..., 3) lies beyond the walls or the ceiling (0 inside)."""
        lower = np.array([margin_m, -10.0, margin_m])
        beyond = np.maximum(self.low + lower - points, points - (self.high - margin_m))
        return np.asarray(np.maximum(beyond.max(axis=-1), 0.0), dtype=np.float64)

    def foot_over(self, x: F, z: F) -> F:
        """How far, in metres, a stand's foot at (x, z) stands inside the keep-out strip or beyond the wall."""
        k = self.keep_out_m
        beyond = np.maximum.reduce(
            [
                self.low[0] + k - x,
                x - (self.high[0] - k),
                max(self.low[2] + k, -self.mark_from_ground_m + FOOT_BEFORE_GROUND_M) - z,
                z - (self.high[2] - k),
            ]
        )
        return np.asarray(np.maximum(beyond, 0.0), dtype=np.float64)

    @property
    def behind_camera_m(self) -> float:
        """What the photographer needs behind the camera, and at least the keep-out strip."""
        return max(PHOTOGRAPHER_M, self.keep_out_m)

    @property
    def camera_reach_m(self) -> float:
        """The longest camera distance from the mark that leaves the photographer room."""
        return float(self.high[2]) - self.behind_camera_m


def box(room: Room, axis: str, ground_m: float, wall_ground: bool) -> Box:
    """The room placed around a set whose ground hangs `ground_m` behind the mark, along `axis` width or depth."""
    across, length = (room.width_m, room.depth_m) if axis == "depth" else (room.depth_m, room.width_m)
    keep_out = float(room.keep_out_m or 0.0)
    area, reflectance = bounce.surface(room.width_m, room.depth_m, room.ceiling_m, *reflectances(room))
    return Box(
        axis=axis,
        across_m=across,
        length_m=length,
        ceiling_m=room.ceiling_m,
        keep_out_m=keep_out,
        ground_from_wall_m=0.0 if wall_ground else float(round_to(keep_out, 0.05)),
        mark_from_ground_m=ground_m,
        mark_from_side_wall_m=round(across / 2, 3),
        area_m2=float(area),
        reflectance=min(0.95, float(reflectance)),
    )


def reflectances(room: Room) -> tuple[float, float, float]:
    """Of walls, ceiling and floor, 0 to 1."""
    surfaces = room.surfaces
    return _rho(surfaces.walls), _rho(surfaces.ceiling), _rho(surfaces.floor)


def _rho(surface: str | float | None) -> float:
    if surface is None:
        return bounce.REFLECTANCE["grey"]
    return bounce.REFLECTANCE[surface] if isinstance(surface, str) else float(surface)


def axes(room: Room) -> list[str]:
    """The ways the set may face, the longer side of the room first."""
    wanted = str(room.set_axis or "either")
    if wanted != "either":
        return [wanted]
    return ["depth", "width"] if room.depth_m >= room.width_m else ["width", "depth"]
