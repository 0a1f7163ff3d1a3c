"""Warmth of lamps: how far a hot lamp stays from what can scorch, as a rule and a distance. No temperatures.

Which lamp runs hot, and what stands near it, is the planner's to say.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shotplans.light.units import F, require_positive, unit

CLEAR_OF_HOT_LAMP_M = 0.46
"""Least distance of a hot lamp from cloth, paper and people, m (18 in) [HOT-LAMP]."""


def distance_to_front_m(
    point: ArrayLike, centre: ArrayLike, across: ArrayLike, up: ArrayLike, width_m: float, height_m: float
) -> F:
    """Distance from points (..., 3) to the nearest point of a flat front of four corners, m.

    The front lies about `centre`, its sides along `across` and `up` (at right angles to one another, any length). A
    disc is taken by the square about it, so a little nearer than it is. ValueError for a side not above zero or a
    direction without length. Source: geometry.
    """
    require_positive(width_m=width_m, height_m=height_m)
    offset = np.asarray(point, dtype=np.float64) - np.asarray(centre, dtype=np.float64)
    ways = (unit(across), unit(up))
    spot = np.zeros_like(offset)
    for way, half in zip(ways, (width_m / 2, height_m / 2), strict=True):
        spot = spot + np.clip(np.sum(offset * way, axis=-1), -half, half)[..., None] * way
    found: F = np.linalg.norm(offset - spot, axis=-1)
    return found
