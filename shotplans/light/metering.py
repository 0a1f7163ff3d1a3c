"""Incident meters: what a dome and a recessed flat receptor read for lights at an angle.

Turning a reading into an f-number is in exposure; where to place the meter is the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.sources import cone_irradiance
from shotplans.light.units import F, Numbers, require_not_negative

DOME_OVER_PLANE_UNIFORM = 1.5

_SMALL_SOURCE_RAD = 1e-3


def dome_reading(cos_t: Numbers, e_perp: Numbers, alpha_rad: Numbers = 0.0) -> F:
    """What a hemispherical dome reads, in the unit of `e_perp`: E (1/(1 + cos alpha) + cos(t)/2); any shape.

    `e_perp` is the light's irradiance on a plane facing it, t its angle from the dome's axis (0 to 180),
    alpha its angular radius (0 to 90 degrees). A small source on the axis reads its E; at alpha = 0 this is
    E (1 + cos t)/2. Over a wide source L [pi (1 - cos alpha) + (pi/2) sin^2(alpha) cos t], with L = E/(pi
    sin^2 alpha). ValueError for |cos t| above 1, negative light or alpha outside its range. Source:
    projected area of a half-lit sphere [LIGHT-4].
    """
    cos_t, alpha = _checked(cos_t, e_perp, alpha_rad)
    found: F = np.asarray(e_perp, dtype=np.float64) * (1 / (1 + np.cos(alpha)) + cos_t / 2)
    return found


def recessed_reading(cos_t: Numbers, e_perp: Numbers, alpha_rad: Numbers = 0.0) -> F:
    """What a recessed flat receptor reads, in the unit of `e_perp`: E cos t, nothing past 90 degrees.

    Any shape. A wide source cut by the receptor's horizon counts as far as it is seen. Range and errors as
    in `dome_reading`. Sources: [CIE-DISTANCE], [LIGHT-1] for the cut.
    """
    cos_t, alpha = _checked(cos_t, e_perp, alpha_rad)
    # So small a source is a point to a millionth; below, dividing the cone by sin^2 would lose figures.
    wide = np.maximum(alpha, _SMALL_SOURCE_RAD)
    share = cone_irradiance(cos_t, wide) / (np.pi * np.square(np.sin(wide)))
    found: F = np.asarray(e_perp, dtype=np.float64) * np.where(
        alpha < _SMALL_SOURCE_RAD, np.maximum(cos_t, 0.0), share
    )
    return found


def dome_uniform(hemisphere_irradiance: Numbers) -> F:
    """What a dome reads in even surroundings that light a plane with this irradiance: 1.5 times; any shape.

    The half space before the dome shines evenly with radiance L, the body behind it gives nothing. A plane
    gets the integral of L cos t over the half space, pi L. The dome counts each direction with (1 + cos
    t)/2, so (2 pi L + pi L)/2 = 1.5 pi L. ValueError below zero. Source: own derivation from [LIGHT-4] (its
    cone form at alpha = 90 degrees gives the same).
    """
    require_not_negative(hemisphere_irradiance=hemisphere_irradiance)
    return np.asarray(hemisphere_irradiance, dtype=np.float64) * DOME_OVER_PLANE_UNIFORM


def dome_error_stops(t_deg: Numbers) -> F:
    """Stops that a dome turned t degrees off a small light reads against facing it: log2((1 + cos t)/2), <=
    0.

    Any shape, |t| up to 180 (there -inf); ValueError beyond. Source: [LIGHT-4].
    """
    angle = np.asarray(t_deg, dtype=np.float64)
    if not np.all(np.abs(angle) <= 180):
        raise ValueError(f"t_deg must lie within 180 degrees, not {t_deg!r}")
    with np.errstate(divide="ignore"):
        found: F = 2 * np.log2(np.maximum(np.cos(np.radians(angle) / 2), 0.0))
    return np.where(np.abs(angle) == 180, -np.inf, found)[()]


def _checked(cos_t: Numbers, e_perp: Numbers, alpha_rad: Numbers) -> tuple[F, F]:
    require_not_negative(e_perp=e_perp)
    cosines, alpha = np.asarray(cos_t, dtype=np.float64), np.asarray(alpha_rad, dtype=np.float64)
    if not np.all(np.abs(cosines) <= 1 + 1e-12):
        raise ValueError("cos_t must lie between -1 and 1")
    if not np.all((alpha >= 0) & (alpha <= np.pi / 2)):
        raise ValueError("alpha_rad must lie between 0 and a quarter turn")
    return cosines, alpha
