"""Heads: what a flash or steady lamp delivers, and the settings its own dial can stand at.

The spread of the light and the drop inside a modifier's shape are in sources; which head to use is the
planner's.
"""

from __future__ import annotations

import math

import numpy as np

from shotplans.light.exposure import luminous_exposure_lxs
from shotplans.light.units import F, Numbers, require_not_negative, require_positive, round_to

DIAL_SCALES = ("fraction", "ten", "watt_seconds", "stops")
LUMENS_PER_WATT = 60.0
"""Upper limit of light from stored energy through a soft front, lm s per Ws (common practice, no source)."""

T01_OVER_T05 = 3.0
"""Trade rule for t0.1 over t0.5 [FLASH-T]; ln 10 / ln 2 = 3.32 for a tail that is never cut off."""

_FULL_ON_TEN = 10.0
_MOST_RUNGS = 100_000
_DUST = 1e-9


def flash_exposure_1m_lxs(f_number_1m_iso100: Numbers, loss_stops: Numbers) -> F:
    """Exposure on the axis 1 m from the front at full power, lx s: C N^2/100 less the modifier's loss in
    stops.

    Any shape; ValueError unless N is above zero. Sources: [ISO2720], [GN].
    """
    found: F = luminous_exposure_lxs(f_number_1m_iso100, 100) * np.exp2(-np.asarray(loss_stops))
    return found


def full_power_limit_lxs(energy_ws: Numbers, front_area_m2: Numbers, factor_1m: Numbers) -> F:
    """Most that a diffuse front can give on its axis at 1 m, lx s: energy x 60 lm/W x F / A; any shape.

    F is the front's configuration factor at 1 m (0 to 1): the front's luminous exitance H/F times its area A
    cannot pass the light the tube makes. ValueError unless above zero. Source: [HOWELL] E = M F; the 60 lm/W
    are common practice, no source.
    """
    require_positive(energy_ws=energy_ws, front_area_m2=front_area_m2, factor_1m=factor_1m)
    return np.asarray(energy_ws, dtype=np.float64) * LUMENS_PER_WATT * factor_1m / front_area_m2


def least_loss_stops(
    f_number_1m_iso100: Numbers, energy_ws: Numbers, front_area_m2: Numbers, factor_1m: Numbers
) -> F:
    """Least loss, in stops, that a diffuse front can have before a head without giving more light than the tube makes:
    log2 of the head's bare exposure at 1 m over `full_power_limit_lxs`; below zero where even a gain is possible. Any
    shape; range, errors and sources as there.
    """
    most = full_power_limit_lxs(energy_ws, front_area_m2, factor_1m)
    found: F = np.log2(flash_exposure_1m_lxs(f_number_1m_iso100, 0.0) / most)
    return found


def dial_ladder(scale: str, step: float, range_stops: float, energy_ws: float | None = None) -> F:
    """Every setting the dial can stand at, in stops below full power, 1-D, ascending from 0.

    `fraction`: 1/1, 1/2, 1/4 ... and steps of `step` stops down from each. `ten`: 10.0 is full and one whole
    number one stop, `step` in those numbers. `stops`: steps of `step` stops. `watt_seconds`: steps of `step`
    Ws down from `energy_ws`, and the bottom end at energy / 2^range. A step written 0.33 is meant as a
    third. ValueError for an unknown scale, a step not above zero, a range below zero, `watt_seconds` without
    an energy, or more than 100,000 settings. Source: common practice, no source.
    """
    require_positive(step=step)
    require_not_negative(range_stops=range_stops)
    if scale == "watt_seconds":
        full_ws = _energy(energy_ws)
        bottom_ws = full_ws * 2.0**-range_stops
        settable = np.append(full_ws - step * _counting((full_ws - bottom_ws) / step), bottom_ws)
        distinct: F = settable[np.append(settable[:-1] > bottom_ws * (1 + _DUST), True)]
        found: F = np.log2(full_ws / distinct)
        found[0] = 0.0  # the first is always full power, also where the bottom lies within a hair of it
        return found
    if scale not in DIAL_SCALES:
        raise ValueError(f"dial scale must be one of {', '.join(DIAL_SCALES)}, not {scale!r}")
    step = _as_a_part_of_a_stop(step)
    if scale == "fraction" and step < 1:
        whole = _counting(range_stops)
        part = step * _counting((1 - step / 2) / step)
        ladder: F = np.add.outer(whole, part).ravel()
    else:
        ladder = step * _counting(range_stops / step)
    settings: F = np.round(ladder[ladder <= range_stops + _DUST], 12)
    return settings


def dial_text(
    scale: str, step: float, range_stops: float, energy_ws: float | None, power_below_full_stops: float
) -> str:
    """A setting in the head's own writing: "1/4 -0.4", "8.3", "150 Ws" or "-2.4 stops".

    A fraction is the next higher simple one less tenths, so 2.4 below full is "1/4 -0.4". Watt seconds are
    the nearest the dial can show. ValueError as in `dial_ladder`, or for a setting above full power. Source:
    common practice, no source.
    """
    require_positive(step=step)
    require_not_negative(range_stops=range_stops, power_below_full_stops=power_below_full_stops)
    below = power_below_full_stops
    if scale == "watt_seconds":
        full_ws = _energy(energy_ws)
        wanted_ws = full_ws * 2.0**-below
        clicked_ws = full_ws - step * round_to((full_ws - wanted_ws) / step, 1)
        bottom_ws = full_ws * 2.0**-range_stops
        nearest_ws = min((max(clicked_ws, bottom_ws), bottom_ws), key=lambda ws: abs(ws - wanted_ws))
        return f"{round_to(nearest_ws, 0.1):g} Ws"
    if scale == "fraction":
        whole, tenths = divmod(round(round_to(10 * below, 1)), 10)
        return f"1/{2**whole}" + (f" -0.{tenths}" if tenths else "")
    if scale == "ten":
        return f"{round_to(_FULL_ON_TEN - below, 0.1):.1f}"
    if scale == "stops":
        return f"{round_to(-below, 0.1):.1f} stops"
    raise ValueError(f"dial scale must be one of {', '.join(DIAL_SCALES)}, not {scale!r}")


def t01_from_t05(t05_s: Numbers) -> F:
    """Duration above 10 % of the peak from that above 50 %, s: x 3, in truth 3 to 3.32; any shape.

    ValueError below zero. Trade rule [FLASH-T]; flashes that are cut off electronically do not follow it.
    """
    require_not_negative(t05_s=t05_s)
    return np.asarray(t05_s, dtype=np.float64) * T01_OVER_T05


def _energy(energy_ws: float | None) -> float:
    if energy_ws is None:
        raise ValueError("a dial in watt seconds needs the head's energy_ws")
    require_positive(energy_ws=energy_ws)
    return energy_ws


def _counting(last: float) -> F:
    """0, 1, 2 ... up to and including `last`, with room for binary dust."""
    if last > _MOST_RUNGS:
        raise ValueError(f"the dial would have more than {_MOST_RUNGS} settings: take a larger step")
    return np.arange(math.floor(last + _DUST) + 1, dtype=np.float64)


def _as_a_part_of_a_stop(step: float) -> float:
    """The exact part of a stop that a rounded step stands for: 0.33 -> 1/3; others unchanged."""
    parts = max(1, round(1 / step))
    return 1 / parts if abs(parts * step - 1) <= 0.02 else step
