"""Windows: what an overcast sky sends through one, to a place before it and to the room on the whole.

The sky is the standard overcast one, no sun, nothing standing before the window; its strength is an assumption that
weather and season move by a stop and a half either way, and by twice that on the darkest days. Where a window is, and
whether it has a blind, is the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.sources import rect_factor
from shotplans.light.units import F, Numbers, require_not_negative, require_positive

OVERCAST_LX = 10_000.0
"""Illuminance on open ground under an overcast sky, lx: the design sky of daylight reckoning [DAYLIGHT]."""

UNCERTAINTY_STOPS = 1.5
"""How far an overcast day may lie from that either way, stops: 1,000 to 30,000 lx are seen [DAYLIGHT]."""

GLASS = 0.7
"""Share of light that clear double glazing lets through [DAYLIGHT]; single glazing 0.8, dirt takes a tenth more."""

GROUND_REFLECTANCE = 0.2
"""Of what lies before a house; value from memory."""

_HORIZONTAL = 7 * np.pi / 9
_VERTICAL = 2 / 3 * (np.pi / 4 + 2 / 3)


def sky_luminance(height_deg: Numbers, ground_lx: Numbers = OVERCAST_LX) -> F:
    """Luminance (cd/m2) of the standard overcast sky at a height angle of 0 to 90 degrees; any shape.

    Lz (1 + 2 sin h)/3 with Lz = 9 E/(7 pi), E the illuminance on open ground, lx. ValueError outside. Source:
    [CIE-OVERCAST].
    """
    require_not_negative(ground_lx=ground_lx)
    height = np.asarray(height_deg, dtype=np.float64)
    if not np.all((height >= 0) & (height <= 90)):
        raise ValueError(f"the sky stands 0 to 90 degrees high, not {height_deg!r}")
    found: F = np.asarray(ground_lx) / _HORIZONTAL * (1 + 2 * np.sin(np.radians(height))) / 3
    return found


def on_the_wall(ground_lx: Numbers = OVERCAST_LX, ground_reflectance: Numbers = GROUND_REFLECTANCE) -> F:
    """Illuminance (lx) on the outside of an upright wall: 0.396 E from half the overcast sky, and half of what the
    ground gives back; any shape.

    ValueError below zero or above 1. Source: integral of [CIE-OVERCAST] over half the sky; the ground as an even
    [LAMBERT] half space.
    """
    require_not_negative(ground_lx=ground_lx, ground_reflectance=ground_reflectance)
    if not np.all(np.asarray(ground_reflectance) <= 1):
        raise ValueError(f"a reflectance lies within 0 and 1, not {ground_reflectance!r}")
    found: F = np.asarray(ground_lx) * (_VERTICAL / _HORIZONTAL + np.asarray(ground_reflectance) / 2)
    return found


def illuminance_lx(
    distance_m: Numbers,
    width_m: Numbers,
    height_m: Numbers,
    *,
    ground_lx: Numbers = OVERCAST_LX,
    glass: Numbers = GLASS,
    sky_height_deg: Numbers = 30.0,
) -> F:
    """Illuminance (lx) on a face square to a window, straight before its middle: glass x pi L F; any shape.

    F is the rectangle's configuration factor, L the sky's luminance at the height seen through the window (30 degrees
    unless said; from below the sill line ground and houses are seen instead, darker by up to two stops). Good to about
    `UNCERTAINTY_STOPS`. ValueError unless lengths are above zero and glass within 0 to 1. Sources: [HOWELL],
    [CIE-OVERCAST].
    """
    require_positive(distance_m=distance_m, width_m=width_m, height_m=height_m)
    _share(glass)
    luminance = sky_luminance(sky_height_deg, ground_lx)
    found: F = np.asarray(glass) * np.pi * luminance * rect_factor(distance_m, width_m, height_m)
    return found


def room_lx(
    window_m2: Numbers,
    surface_m2: Numbers,
    reflectance: Numbers,
    *,
    ground_lx: Numbers = OVERCAST_LX,
    glass: Numbers = GLASS,
) -> F:
    """Mean illuminance (lx) of a room's surfaces by its windows: the flux that enters over A (1 - rho); any shape.

    The integrating sphere's sum of first light and all reflections. Within half a stop of the average daylight factor
    of daylight reckoning at reflectances of 0.3 to 0.7. ValueError unless the surface is above zero, the window not
    below, glass within 0 to 1 and the reflectance under 0.98. Sources: [SPHERE], [CIE-OVERCAST].
    """
    require_positive(surface_m2=surface_m2)
    require_not_negative(window_m2=window_m2)
    _share(glass)
    rho = np.asarray(reflectance, dtype=np.float64)
    if not np.all((rho >= 0) & (rho <= 0.98)):
        raise ValueError(f"a mean reflectance lies within 0 and 0.98, not {reflectance!r}")
    found: F = np.asarray(glass) * np.asarray(window_m2) * on_the_wall(ground_lx) / (np.asarray(surface_m2) * (1 - rho))
    return found


def _share(glass: Numbers) -> None:
    if not np.all((np.asarray(glass) >= 0) & (np.asarray(glass) <= 1)):
        raise ValueError(f"glass lets through a share of 0 to 1, not {glass!r}")
