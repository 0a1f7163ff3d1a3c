"""The shadow of the nose: where its tip falls on a simple face, and whether it meets the mouth or the cheek's shadow.

Geometry of one point before an upright cylinder, in the head's frame (millimetres; +x to the picture's right when the
nose points at the lens, +y up, +z along the nose). How soft that shadow is, is in `shadows`; what the pattern is called
belongs to the planner.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

F = NDArray[np.float64]
B = NDArray[np.bool_]

# Half the breadth over the cheekbones, 143 and 134 mm for men and women (values.md A11, ANSUR II), as one radius. The
# tip 30 mm before the cheek is the convention of LIGHT-2; the two together, 99 mm from the tip to the plane of the
# cheekbones, agree with how a nose grows when the camera comes near (NOSE: 83 to 124 mm).
FACE_RADIUS_MM, PROJECTION_MM = 69.0, 30.0
# Below the tip, values from memory: the nose's base, the upper lip's edge, the line of the mouth. The tip lies 38 mm
# below the pupils (LIGHT-5); of the 118 mm from the nose's root to the chin (A12) the mouth's line is then at 0.61.
BASE_DOWN_MM, LIP_DOWN_MM, MOUTH_DOWN_MM = 10.0, 25.0, 34.0
MOUTH_HALF_MM, LIP_BEHIND_MM = 25.0, 20.0  # half the mouth; the lip behind the tip, nearer than the cheek: from memory


class NoseShadow(NamedTuple):
    """Where the tip's shadow falls: from the face straight behind the tip, on the skin (mm, right and down in the
    head's frame), its length there, its slant from straight down (degrees, + to the right), and what it meets.
    """

    right_mm: F
    down_mm: F
    length_mm: F
    slant_deg: F
    touches_lip: B
    joins_cheek: B


def shadow(
    to_light: ArrayLike, projection_mm: float = PROJECTION_MM, radius_mm: float = FACE_RADIUS_MM
) -> NoseShadow:
    """Shadow of the tip of a nose `projection_mm` before an upright cylinder of `radius_mm` (inf: a plane).

    `to_light` (..., 3), head frame, any length, from the tip to the light's centre. The tip's ray meets the cylinder
    or, once sin(bearing) >= R/(R + p), passes it: then the shadow has joined the cheek's own and the place given is
    where the ray passes the edge of the light. A light from behind the face (z <= 0) joins too, its place is nan; one
    straight above throws no shadow on an upright face: nan, joining nothing. Simple face: a real cheek is fuller, so
    a joining shadow lies higher than printed, by a centimetre or more. The lip is asked for on its own plane, nearer
    to the tip than the cheek. Raises ValueError unless p and R are above zero
    and every direction has a length. Geometry; sizes [LIGHT-2], [NOSE] and values from memory.
    """
    if not (projection_mm > 0 and radius_mm > 0):
        raise ValueError("a nose stands before the face and a face is round: both lengths are above zero")
    light = np.asarray(to_light, dtype=np.float64)
    x, y, z = light[..., 0], light[..., 1], light[..., 2]
    level = np.hypot(x, z)
    if np.any(np.hypot(level, y) == 0):
        raise ValueError("a direction to the light has a length")
    lit = (z > 0) & (level > 1e-9 * np.abs(y))
    run = np.where(lit, level, 1.0)
    sin, cos = np.where(lit, x / run, 0.0), np.where(lit, z / run, 1.0)
    joins = np.where(lit, np.abs(sin) >= joining_sine(projection_mm, radius_mm), z <= 0) & (level > 0)
    travel, right = _landing(sin, cos, joins, projection_mm, radius_mm)
    down = travel * y / run
    right, down = np.where(lit, right, np.nan), np.where(lit, down, np.nan)
    to_lip = LIP_BEHIND_MM / np.where(lit, z, np.inf)
    lip = lit & ~joins & (to_lip * y >= LIP_DOWN_MM) & (np.abs(to_lip * x) <= MOUTH_HALF_MM)
    return NoseShadow(
        right, down, np.hypot(right, down), np.degrees(np.arctan2(right, down)), np.asarray(lip), np.asarray(joins)
    )


def joining_sine(projection_mm: float = PROJECTION_MM, radius_mm: float = FACE_RADIUS_MM) -> float:
    """Sine of the least bearing off the nose at which the tip's shadow meets the cheek's: R/(R + p), 44 degrees here.

    The ray is then a tangent of the cylinder, at the very line where the cheek turns out of the light, whatever the
    light's height. A plane (R = inf) has no such line: 1. Geometry.
    """
    return 1.0 if np.isinf(radius_mm) else radius_mm / (radius_mm + projection_mm)


def dark_from_deg(bearing_deg: ArrayLike) -> F:
    """Bearing off the nose (degrees) from which the far cheek of an upright cylinder is dark: 90 - |bearing|.

    Negative once the shadow has crossed the middle of the face. Any shape, |bearing| up to 180. Geometry.
    """
    found: F = 90.0 - np.abs(np.asarray(bearing_deg, dtype=np.float64))
    return found


def bearing_of_deg(aside_mm: float) -> float:
    """Bearing off the nose (degrees) of a place `aside_mm` from the middle of the face, up to its radius. Geometry."""
    return float(np.degrees(np.arcsin(aside_mm / FACE_RADIUS_MM)))


def _landing(sin: F, cos: F, joins: B, projection: float, radius: float) -> tuple[F, F]:
    """Level way of the tip's ray to the skin (or to where it passes the cheek), and how far right that is on it."""
    if np.isinf(radius):
        travel = projection / cos
        return travel, -travel * sin
    from_axis = radius + projection
    inside = np.sqrt(np.maximum(radius**2 - (from_axis * sin) ** 2, 0.0))
    travel = from_axis * cos - np.where(joins, 0.0, inside)
    return travel, radius * np.arctan2(-travel * sin, from_axis - travel * cos)
