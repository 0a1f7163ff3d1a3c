"""Veiling glare: light that a lens scatters over the whole picture, and how far it lifts the blacks.

Luminances are relative to a white of reflectance 1 at the camera's setting. A bright ground in the picture and a lamp
that shines on the front of the lens are both counted as even veils; ghosts (images of a lamp between the glasses) are
not computed.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

GLARE_INDEX = 0.02
"""Share of a bright field's light that a lens spreads over its image (1 to 3 %, value from memory) [GLARE]."""


def veil(share_of_frame: Numbers, luminance: Numbers, glare_index: float = GLARE_INDEX) -> F:
    """Luminance of the veil from a bright part of the picture: index x share x its luminance; any shape.

    `share_of_frame` 0 to 1, `luminance` of that part (white at the setting = 1). The index is that of a field bright
    all over; that a part gives its share is an assumption. ValueError outside. Source: [GLARE].
    """
    require_not_negative(share_of_frame=share_of_frame, luminance=luminance, glare_index=glare_index)
    share = np.asarray(share_of_frame, dtype=np.float64)
    if np.any(share > 1):
        raise ValueError(f"a share of the frame is at most 1, not {share_of_frame!r}")
    found: F = glare_index * share * np.asarray(luminance, dtype=np.float64)
    return found


def veil_of_lamp(on_lens: Numbers, setting: Numbers) -> F:
    """Luminance of the veil from light that falls on the front of the lens from anywhere before it: 0.02 E / H.

    `on_lens` is the exposure on the lens's front, `setting` the exposure of the camera's setting, in one unit; any
    shape. A field of luminance Y all round the front puts Y H on it, so this is `veil` of that field: the same light
    from one side is taken to scatter as much. Good to a factor of two; a hood takes it away. ValueError for negative
    light or a setting not above zero. Source: own derivation from [GLARE].
    """
    require_not_negative(on_lens=on_lens)
    require_positive(setting=setting)
    found: F = GLARE_INDEX * np.asarray(on_lens, dtype=np.float64) / np.asarray(setting, dtype=np.float64)
    return found


def black_lift_stops(black: Numbers, veil: Numbers) -> F:
    """Stops by which a veil lifts a dark part of luminance `black`: log2((black + veil) / black); any shape.

    ValueError unless black > 0 and veil >= 0. Source: a veil adds the same light everywhere [GLARE], by which the
    flare factor [FLARE-FACTOR] is of the stated size.
    """
    require_positive(black=black)
    require_not_negative(veil=veil)
    found: F = np.log2(1 + np.asarray(veil, dtype=np.float64) / np.asarray(black, dtype=np.float64))
    return found


def luminance_for_lift(lift_stops: Numbers, black: Numbers, share_of_frame: Numbers, glare_index: float) -> F:
    """The brightest luminance a part of the picture may have before blacks rise by `lift_stops`; any shape.

    Inverse of `veil` and `black_lift_stops`; infinite where the part has no share. Source: [GLARE].
    """
    require_not_negative(lift_stops=lift_stops)
    require_positive(black=black)
    allowed = np.asarray(black, dtype=np.float64) * (np.exp2(lift_stops) - 1)
    with np.errstate(divide="ignore"):
        found: F = allowed / (glare_index * np.asarray(share_of_frame, dtype=np.float64))
    return found
