"""Light that the room gives back, as a stated simple estimate, and what a black panel takes away.

The room is treated as an integrating sphere of the same surface: good to about half a stop in an empty room,
and meant to be corrected by readings. Reflectances of real walls and learning from readings do not belong
here.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from shotplans.light.sources import rect_factor
from shotplans.light.units import F, Numbers, require_not_negative, require_positive

REFLECTANCE: Mapping[str, float] = MappingProxyType(
    {"white": 0.80, "light grey": 0.50, "grey": 0.25, "dark": 0.10, "black": 0.04}
)
"""Diffuse reflectance of painted surfaces by word (values from memory)."""

UNCERTAINTY_STOPS = 0.5
"""Standard uncertainty of the room's share before readings correct it (common practice, no source)."""

_MOST_REFLECTANCE = 0.98


def surface(
    width_m: float,
    depth_m: float,
    height_m: float,
    walls: str | float,
    ceiling: str | float,
    floor: str | float,
) -> tuple[float, float]:
    """Inside area of a box room, m2, and its area-weighted mean reflectance, 0 to 1.

    Surfaces are a word of REFLECTANCE or a number 0 to 1. ValueError for another word, a reflectance outside
    0 to 1 or a length not above zero. Source: [SPHERE] (mean reflectance weighted by area).
    """
    require_positive(width_m=width_m, depth_m=depth_m, height_m=height_m)
    level_m2 = width_m * depth_m
    wall_m2 = 2 * (width_m + depth_m) * height_m
    area_m2 = 2 * level_m2 + wall_m2
    given_back_m2 = wall_m2 * _reflectance(walls) + level_m2 * (_reflectance(ceiling) + _reflectance(floor))
    return area_m2, given_back_m2 / area_m2


def bounce_irradiance(flux_lm: Numbers, area_m2: Numbers, mean_reflectance: Numbers) -> F:
    """Mean illuminance from all reflections in a room, lx (lx s for flux in lm s): flux rho / (A (1 - rho)).

    Any shape; ValueError for negative flux, an area not above zero or rho outside 0 to 0.98. An estimate to
    about half a stop. Source: integrating sphere [SPHERE], formula from memory.
    """
    require_not_negative(flux_lm=flux_lm)
    require_positive(area_m2=area_m2)
    rho = np.asarray(mean_reflectance, dtype=np.float64)
    if not np.all((rho >= 0) & (rho <= _MOST_REFLECTANCE)):
        raise ValueError(
            f"mean_reflectance must lie between 0 and {_MOST_REFLECTANCE}, not {mean_reflectance!r}"
        )
    return np.asarray(flux_lm, dtype=np.float64) * rho / (np.asarray(area_m2) * (1 - rho))


def blocked_share(
    panel_width_m: Numbers, panel_height_m: Numbers, distance_m: Numbers, effect: float = 1.0
) -> F:
    """Share (0 to 1) of even surroundings' light that a black panel facing the skin takes away.

    The panel's configuration factor seen square from its middle, times `effect` (0 to 1: less than 1 for a
    panel that gives some light back or stands askew). Any shape; ValueError outside. Source: [HOWELL],
    centred rectangle.
    """
    require_positive(panel_width_m=panel_width_m, panel_height_m=panel_height_m, distance_m=distance_m)
    if not 0 <= effect <= 1:
        raise ValueError(f"effect must lie between 0 and 1, not {effect!r}")
    return rect_factor(distance_m, panel_width_m, panel_height_m) * effect


def _reflectance(given: str | float) -> float:
    if isinstance(given, str):
        if given not in REFLECTANCE:
            raise ValueError(f"a surface is one of {', '.join(REFLECTANCE)} or a number, not {given!r}")
        return REFLECTANCE[given]
    if not 0 <= given <= 1:
        raise ValueError(f"a reflectance lies between 0 and 1, not {given!r}")
    return given
