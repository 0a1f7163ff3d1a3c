"""How light changes with distance and over a group, counted in stops.

The exact irradiance of a source is in sources; this is the arithmetic a photographer does on the floor.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shotplans.light.units import F, Numbers, require_positive


def inverse_square_stops(from_m: Numbers, to_m: Numbers) -> F:
    """Stops lost by moving a small light from one distance to another, 2 log2(to / from): positive = loss.

    Any shape; ValueError unless above zero. Source: [CIE-DISTANCE].
    """
    require_positive(from_m=from_m, to_m=to_m)
    found: F = 2 * np.log2(np.asarray(to_m, dtype=np.float64) / from_m)
    return found


def spread_stops(readings_stops: ArrayLike, axis: int = -1) -> F:
    """Greatest less least reading along an axis, stops; ValueError for no readings. Source: definition."""
    readings = np.asarray(readings_stops, dtype=np.float64)
    return np.asarray(readings.max(axis=axis) - readings.min(axis=axis))[()]


def worst_pair(values: ArrayLike) -> tuple[int, int]:
    """Places of the brightest and of the dimmest value in a row (the first of equals).

    ValueError for no values. Source: definition.
    """
    row = np.asarray(values, dtype=np.float64)
    return int(np.argmax(row)), int(np.argmin(row))


def point_levels_stops(light_m: ArrayLike, places_m: ArrayLike) -> F:
    """Level at places under a bare point source, stops over that at one metre: -2 log2 of the distance.

    `light_m` (..., 3), `places_m` (..., n, 3) in metres; the turn of meter and skin is left out. ValueError where a
    place is the source's. Source: inverse square [CIE-DISTANCE].
    """
    away = np.asarray(places_m, dtype=np.float64) - np.asarray(light_m, dtype=np.float64)[..., None, :]
    square = np.square(away).sum(axis=-1)
    require_positive(square_of_distance_m2=square)
    found: F = -np.log2(square)
    return found


def movement_for_stops(distance_m: Numbers, stops: Numbers) -> F:
    """Metres to move a small light for that many stops more: d (2^(-stops/2) - 1); negative = closer.

    Any shape; ValueError unless d > 0. Source: inverse square [CIE-DISTANCE], solved for the distance.
    """
    require_positive(distance_m=distance_m)
    share: F = np.expm1(-np.log(2) / 2 * np.asarray(stops))
    return np.asarray(distance_m, dtype=np.float64) * share
