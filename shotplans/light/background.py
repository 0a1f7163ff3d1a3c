"""Tone of the background: from reflectance and light to the lightness it has in the picture.

The camera's own tone curve and colour are left out; which tone a brief wants is the planner's.
"""

from __future__ import annotations

import numpy as np

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
