"""What heads draw from circuits and batteries: continuous load, peaks while they recycle, frames a charge holds.

Simple sums of energy. Inrush, ageing cells, cold and what a maker's electronics keep for themselves are left out;
local electrical rules, makers' instructions and licensed people come first.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

CONTINUOUS_SHARE = 0.8
"""Share of a breaker's rating for three hours or more [NEC]; elsewhere than in the US a prudent rule only."""

CHARGED_SHARE = 0.7
"""Share of the energy drawn that reaches the tube, the rest is warmth: value from memory."""


def continuous_limit_w(volts: Numbers, breaker_amps: Numbers) -> F:
    """Continuous load a circuit should carry, W: 0.8 x volts x breaker amperes; any shape.

    ValueError unless above zero. Source: [NEC].
    """
    require_positive(volts=volts, breaker_amps=breaker_amps)
    return np.asarray(volts, dtype=np.float64) * breaker_amps * CONTINUOUS_SHARE


def staggered_peak_a(recycling_amps: ArrayLike, steady_amps: Numbers = 0.0) -> float:
    """Peak current when one head recycles after the other, A: the largest peak of all plus the steady current.

    `recycling_amps` 1-D, may be empty; all at once it is their sum instead. ValueError below zero. Source: currents of
    one phase add (Kirchhoff); that heads can be made to wait is common practice, no source.
    """
    require_not_negative(recycling_amps=recycling_amps, steady_amps=steady_amps)
    return float(np.max(np.append(np.asarray(recycling_amps, dtype=np.float64), 0.0)) + steady_amps)


def energy_below_full(full: Numbers, power_below_full_stops: Numbers) -> F:
    """Part of an energy or a time that goes with it at a power below full: full x 2^-stops; any shape.

    Serves for a flash's energy (Ws, by the meaning of a power fraction [GN]) and for its recycling time (s) under the
    stated assumption that the charger feeds at a constant power; real ones differ at the low end. ValueError for a
    negative full value or power.
    """
    require_not_negative(full=full, power_below_full_stops=power_below_full_stops)
    return np.asarray(full, dtype=np.float64) * np.exp2(-np.asarray(power_below_full_stops, dtype=np.float64))


def frames_on_charge(battery_ws: Numbers, flash_ws: Numbers) -> F:
    """Flashes one charge holds, a whole number: floor(battery x 0.7 / energy of one flash); any shape.

    `flash_ws` is the energy at the power set. What the head draws between flashes is not counted, so this is the most.
    ValueError for a negative battery or a flash not above zero. Source: conservation of energy; the 0.7 are a value
    from memory.
    """
    require_not_negative(battery_ws=battery_ws)
    require_positive(flash_ws=flash_ws)
    found: F = np.floor(np.asarray(battery_ws, dtype=np.float64) * CHARGED_SHARE / flash_ws + 1e-9)
    return found


def frames_at_power(frames_at_full: Numbers, power_below_full_stops: Numbers) -> F:
    """Flashes one charge holds at a power below full, from the number at full power: n x 2^stops, whole; any shape.

    ValueError for a negative number or power. Source: conservation of energy, as in `frames_on_charge`.
    """
    require_not_negative(frames_at_full=frames_at_full, power_below_full_stops=power_below_full_stops)
    found: F = np.floor(np.asarray(frames_at_full, dtype=np.float64) * np.exp2(power_below_full_stops) + 1e-9)
    return found
