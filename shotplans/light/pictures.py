"""Light in a finished picture: from the levels of a file back to how much light a grey card sent, and of what colour.

The file is taken as sRGB. A camera lays its own curve over it, which leaves the middle greys nearly where they were:
what is reckoned here of a grey card near the middle is good to one or two tenths of a stop, of a white or a black not.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shotplans.light.colour import mired
from shotplans.light.units import F, Numbers, require_positive

GREY_CARD = 0.18
"""Reflectance of the usual grey card [GREY]."""

_TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
_COOLEST_K, _WARMEST_K = 12_500.0, 2_000.0


def linear(level: Numbers) -> F:
    """Light relative to white (0 to 1) of an sRGB level (0 to 255); any shape.

    ValueError outside the range. Source: [SRGB], inverse of its encoding.
    """
    share = np.asarray(level, dtype=np.float64) / 255.0
    if not np.all((share >= 0) & (share <= 1)):
        raise ValueError(f"a level lies between 0 and 255, not {level!r}")
    found: F = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return found[()]


def luminance(rgb: ArrayLike) -> F:
    """Luminance relative to white of linear sRGB (last axis red, green, blue), 0 to 1. Source: [SRGB]."""
    found: F = np.asarray(rgb, dtype=np.float64) @ _TO_XYZ[1]
    return found


def exposure_stops(rgb: ArrayLike) -> F:
    """Stops by which a picture is exposed over (+) or under (-): log2(Y / 0.18) of a grey card.

    `rgb` linear, last axis red, green, blue. Right where Y is not clipped and near the middle, where cameras keep to
    18 % at level 118. ValueError unless it is above zero. Sources: [GREY], [SRGB].
    """
    y = luminance(rgb)
    require_positive(luminance=y)
    found: F = np.log2(y / GREY_CARD)
    return found


def kelvin(rgb: ArrayLike) -> F:
    """Correlated colour temperature, K, of linear sRGB (last axis red, green, blue), by a cubic in x and y.

    Valid from 2000 to 12500 K, near the locus within some kelvin; ValueError beyond, and for black. [CCT-CUBIC]
    """
    xyz = np.asarray(rgb, dtype=np.float64) @ _TO_XYZ.T
    whole = xyz.sum(axis=-1)
    require_positive(light=whole)
    x, y = xyz[..., 0] / whole, xyz[..., 1] / whole
    n = (x - 0.3320) / (0.1858 - y)
    found: F = 449.0 * n**3 + 3525.0 * n**2 + 6823.3 * n + 5520.33
    if not np.all((found >= _WARMEST_K) & (found <= _COOLEST_K)):
        raise ValueError(f"no white between {_WARMEST_K:.0f} and {_COOLEST_K:.0f} K: {rgb!r}")
    return found


def warmer_than_neutral_mired(rgb: ArrayLike) -> F:
    """Mired by which what should be neutral came out too warm (+) or too blue (-): against equal red, green and blue.

    Beside the white the camera was set to, it is also by how much the light was warmer than that setting, to first
    order. Limits as `kelvin`. Sources: [CCT-CUBIC], [MIRED].
    """
    return mired(kelvin(rgb)) - mired(kelvin(np.ones(3)))


def green_stops(rgb: ArrayLike) -> F:
    """Stops by which green stands over (+, greenish) or under (-, pinkish) the mean of red and blue: log2(G/sqrt(RB)).

    `rgb` linear, all above zero or ValueError. Definition.
    """
    given = np.asarray(rgb, dtype=np.float64)
    require_positive(rgb=given)
    found: F = np.log2(given[..., 1] / np.sqrt(given[..., 0] * given[..., 2]))
    return found
