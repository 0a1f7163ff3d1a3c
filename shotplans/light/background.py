"""Tone of the background: from reflectance and light to the lightness it has in the picture, and what it throws back.

The camera's own tone curve and colour are left out; which tone a brief wants is the planner's. What a bright ground
does inside the lens is in `flare`.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.sources import rect_factor, rect_irradiance
from shotplans.light.units import F, Numbers, require_not_negative, require_positive

_TOE_END = (6 / 29) ** 3
_TOE_SLOPE = (29 / 3) ** 3


def lightness(relative_luminance: Numbers) -> F:
    """Lightness L* (0 to 100) of a luminance relative to white: 116 Y^(1/3) - 16, or 903.3 Y in the dark toe.

    Any shape, Y >= 0 (above 1 gives more than 100); ValueError below zero. Source: [CIE-LAB].
    """
    require_not_negative(relative_luminance=relative_luminance)
    y = np.asarray(relative_luminance, dtype=np.float64)
    found: F = np.where(y > _TOE_END, 116 * np.cbrt(y) - 16, _TOE_SLOPE * y)
    return found[()]


def relative_luminance(lightness: Numbers) -> F:
    """Luminance relative to white (1) of a lightness L*; the inverse of `lightness`.

    Any shape, L* >= 0. [CIE-LAB]
    """
    require_not_negative(lightness=lightness)
    level = np.asarray(lightness, dtype=np.float64)
    found: F = np.where(level > 8, ((level + 16) / 116) ** 3, level / _TOE_SLOPE)
    return found[()]


def ground_lightness(reflectance: Numbers, reading_above_setting_stops: Numbers) -> F:
    """L* of a ground that reads s stops above the camera's setting: Y = rho 2^s, clipped at white (100).

    Holds where the setting renders an 18 % grey as 18 %, without a camera's tone curve. Any shape;
    ValueError for a negative reflectance. Sources: [CIE-LAB], [GREY].
    """
    require_not_negative(reflectance=reflectance)
    luminance = np.asarray(reflectance, dtype=np.float64) * np.exp2(reading_above_setting_stops)
    return lightness(np.minimum(luminance, 1.0))


def stops_for_lightness(reflectance: Numbers, lightness: Numbers) -> F:
    """Stops above the setting that a ground must read to show this L*: log2(Y / rho); any shape.

    L* of 0 gives -inf. ValueError unless rho > 0 and L* >= 0. Sources: [CIE-LAB], [GREY].
    """
    require_positive(reflectance=reflectance)
    with np.errstate(divide="ignore"):
        found: F = np.log2(relative_luminance(lightness) / np.asarray(reflectance, dtype=np.float64))
    return found


def spread_stops(exposures: Numbers) -> F:
    """Stops from the darkest to the lightest of the exposures on a ground, log2(max / min), over the last axis.

    Shape (..., n), n >= 1, one unit; ValueError unless above zero. Source: definition of the stop [EV].
    """
    require_positive(exposures=exposures)
    got = np.asarray(exposures, dtype=np.float64)
    found: F = np.log2(got.max(axis=-1) / got.min(axis=-1))
    return found


def glow(
    points: F, normals: F, cells: F, exposures: F, *, cell_width_m: float, cell_height_m: float, reflectance: float
) -> F:
    """What a lit ground throws back on surfaces before it, in the unit of `exposures`: sum of rho E / pi x cell.

    `points` and unit `normals` (n, 3), metres; `cells` (m, 3) are the middles of equal rectangles of the ground,
    which faces +z, `exposures` (m,) what falls on each. Matt ground, one reflection, nothing in between; exact for
    even cells, cut at each surface's own horizon. ValueError for a reflectance outside 0 to 1, negative light or cells
    without a size. Sources: [HOWELL], [LAMBERT].
    """
    require_not_negative(exposures=exposures, reflectance=reflectance)
    require_positive(cell_width_m=cell_width_m, cell_height_m=cell_height_m)
    if reflectance > 1:
        raise ValueError(f"a reflectance lies between 0 and 1, not {reflectance!r}")
    facing = np.array([0.0, 0.0, 1.0])
    seen = rect_irradiance(
        points[:, None, :], normals[:, None, :], cells[None, :, :], facing, cell_width_m, cell_height_m
    )
    found: F = reflectance / np.pi * (seen * exposures).sum(axis=-1)
    return found


def distance_for_glow(share: float, width_m: float, height_m: float) -> float:
    """Metres before the middle of an even ground at which its configuration factor has fallen to `share`.

    0 < share < 1, sides above zero, else ValueError. By bisection to 0.1 mm of a factor that only falls with
    distance. Source: [HOWELL], centred rectangle.
    """
    require_positive(share=share, width_m=width_m, height_m=height_m)
    if share >= 1:
        raise ValueError(f"a configuration factor is below 1, not {share!r}")
    near, far = 1e-4, float(np.sqrt(width_m * height_m / (np.pi * share))) + 1e-3
    while far - near > 1e-4:
        middle = 0.5 * (near + far)
        near, far = (middle, far) if float(rect_factor(middle, width_m, height_m)) > share else (near, middle)
    return 0.5 * (near + far)
