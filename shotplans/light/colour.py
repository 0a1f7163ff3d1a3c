"""Colour of light: temperatures in mired, what a modifier's cloth adds, and when a difference shows.

Heads bring their colour temperature with them; which light is judged against which is the planner's. Colour by power
is not known for a head until it is read, so it is a width, not a shift.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

CLOTH_MIRED = 5.0
"""Warming by each layer of white cloth (value from memory; a new cloth less, an old one more)."""

POWER_SPREAD_K = 400.0
"""The trade's figure for how far a flash drifts from full to lowest power [COLOUR-DRIFT] (weak source)."""

SEEN_MIRED = 10.0
"""From here a difference between two lights on one face begins to be seen (common practice, no source)."""

PLAIN_MIRED = 15.0
"""From here it is plain (common practice, no source)."""


def mired(kelvin: Numbers) -> F:
    """Reciprocal megakelvin of a colour temperature, 10^6 / K; any shape; ValueError unless above zero.

    Equal steps of it are about equal steps to the eye from 2800 to 10000 K. Source: definition [MIRED].
    """
    require_positive(kelvin=kelvin)
    found: F = 1e6 / np.asarray(kelvin, dtype=np.float64)
    return found


def shifted_kelvin(kelvin: Numbers, shift_mired: Numbers) -> F:
    """Colour temperature after a shift in mired (+ warmer, - bluer); any shape.

    ValueError where nothing is left (the shift takes the mired to 0 or under). Source: filters add in mired [MIRED].
    """
    left = mired(kelvin) + np.asarray(shift_mired, dtype=np.float64)
    if np.any(left <= 0):
        raise ValueError(f"a shift of {shift_mired!r} mired leaves no colour temperature")
    found: F = 1e6 / left
    return found


def warmer_mired(kelvin: Numbers, than_kelvin: Numbers) -> F:
    """Mired by which one light is warmer (+) or bluer (-) than another; any shape. Source: [MIRED]."""
    return mired(kelvin) - mired(than_kelvin)


def cloth_mired(layers: Numbers) -> F:
    """Warming, in mired, by layers of white diffusing cloth; any shape, >= 0. Value from memory."""
    require_not_negative(layers=layers)
    found: F = CLOTH_MIRED * np.asarray(layers, dtype=np.float64)
    return found


def power_spread_mired(kelvin: Numbers, stops_apart: Numbers, range_stops: Numbers) -> F:
    """Width, in mired, of the colour drift between two powers of one kind of head; any shape.

    The trade's 400 K over the whole range, shared out by stops; which way a head drifts is unknown until read.
    ValueError for a range not above zero. Source: [COLOUR-DRIFT] (weak).
    """
    require_positive(kelvin=kelvin, range_stops=range_stops)
    share = np.minimum(np.abs(np.asarray(stops_apart, dtype=np.float64)) / np.asarray(range_stops), 1.0)
    half = 0.5 * POWER_SPREAD_K * share
    at = np.asarray(kelvin, dtype=np.float64)
    found: F = 1e6 / (at - half) - 1e6 / (at + half)
    return found
