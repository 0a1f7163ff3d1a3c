"""Flicker: what a lamp's rise and fall with the mains does to an exposure, and shutter times that take no notice.

Light is taken as a mean with one sine on it at twice the mains' frequency. Which lamp may flicker, and what is said of
it, is the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_positive


def swing_stops(shutter_s: Numbers, modulation_depth: Numbers, flicker_hz: Numbers) -> F:
    """Stops between the brightest and the dimmest exposure that one shutter time can catch, over every phase.

    The integral of 1 + m cos(2 pi f t) over the time T, by its start, swings between 1 + m |sinc| and 1 - m |sinc|,
    with sinc = sin(pi f T)/(pi f T): log2 of their ratio. Exact for one sine; a light that follows the rectified sine
    of the mains all the way to dark (depth 1) swings as depth 2/3 does here, to 0.1 stop from half a flicker up. The
    same holds from band to band of one frame under a shutter that opens a slit. Any shape; ValueError unless the time
    and the frequency (twice the mains') are above zero and the depth lies within 0 to 1. Sources: own integral of a
    sine; [FLICKER].
    """
    require_positive(shutter_s=shutter_s, flicker_hz=flicker_hz)
    m = np.asarray(modulation_depth, dtype=np.float64)
    if not np.all((m >= 0) & (m <= 1)):
        raise ValueError(f"a modulation depth lies within 0 and 1, not {modulation_depth!r}")
    swing = m * np.abs(np.sinc(np.asarray(flicker_hz, dtype=np.float64) * shutter_s))
    found: F = np.log2((1 + swing) / (1 - swing))
    return found


def safe_shutters_s(flicker_hz: float, longest_s: float) -> F:
    """Shutter times, 1-D from the shortest, that last whole flickers, so that every phase gives the same exposure.

    n/f for n = 1, 2, 3 ... up to `longest_s`; empty where one flicker lasts longer. ValueError unless above zero.
    Source: [FLICKER].
    """
    require_positive(flicker_hz=flicker_hz, longest_s=longest_s)
    found: F = np.arange(1, int(np.floor(longest_s * flicker_hz + 1e-9)) + 1) / flicker_hz
    return found
