"""Weights on stands and booms, and load on a circuit, as simple static sums.

Deliberately without wind, knocks or a person pulling a cable: cautions about those, and the choice of stand,
are the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

GRAVITY_M_S2 = 9.80665
CONTINUOUS_SHARE = 0.8
"""Share of a breaker's rating for three hours or more [NEC]; elsewhere than in the US a prudent rule only."""


def counterweight_kg(
    load_kg: Numbers,
    arm_m: Numbers,
    counter_arm_m: Numbers,
    boom_kg: Numbers = 0.0,
    boom_centre_m: Numbers = 0.0,
) -> F:
    """Counterweight that balances a boom, kg: (load x arm + boom x its centre) / counter arm; any shape.

    Arms from the pivot; `boom_centre_m` is where the boom's own weight lies, + toward the lamp, - toward the
    counterweight; tilt does not matter while all lie on one line through the pivot. Never below zero.
    ValueError for a negative mass or arm, or a counter arm not above zero. Source: [LEVER].
    """
    require_not_negative(load_kg=load_kg, arm_m=arm_m, boom_kg=boom_kg)
    require_positive(counter_arm_m=counter_arm_m)
    moment = np.asarray(load_kg, dtype=np.float64) * arm_m + np.asarray(boom_kg) * boom_centre_m
    found: F = np.maximum(moment / counter_arm_m, 0.0)
    return found


def tipping_margin_nm(
    load_kg: Numbers, beyond_edge_m: Numbers, holding_kg: Numbers, inside_edge_m: Numbers
) -> F:
    """Moment left before a stand tips about the edge of its legs, N m: below zero it falls; any shape.

    The load hangs `beyond_edge_m` outside the line between two feet (negative: inside, where it holds too);
    stand and bag act `inside_edge_m` within it. ValueError for a negative mass. Source: [LEVER].
    """
    require_not_negative(load_kg=load_kg, holding_kg=holding_kg)
    held = np.asarray(holding_kg, dtype=np.float64) * inside_edge_m
    return GRAVITY_M_S2 * (held - np.asarray(load_kg, dtype=np.float64) * beyond_edge_m)


def sandbag_kg(
    load_kg: Numbers,
    beyond_edge_m: Numbers,
    stand_kg: Numbers,
    stand_inside_m: Numbers,
    bag_inside_m: Numbers,
    safety: float = 1.5,
) -> F:
    """Sandbag that keeps a stand from tipping with a margin, kg; never below zero; any shape.

    The least mass, `bag_inside_m` within the edge of the legs, with which holding moment >= safety x load
    moment. ValueError for a negative mass, a bag arm not above zero or a safety below 1. Source: [LEVER];
    the factor 1.5 is common practice, no source.
    """
    require_not_negative(load_kg=load_kg, stand_kg=stand_kg, safety_above_one=safety - 1)
    require_positive(bag_inside_m=bag_inside_m)
    load = safety * np.asarray(load_kg, dtype=np.float64) * beyond_edge_m
    found: F = np.maximum((load - np.asarray(stand_kg) * stand_inside_m) / bag_inside_m, 0.0)
    return found


def continuous_limit_w(volts: Numbers, breaker_amps: Numbers) -> F:
    """Continuous load a circuit should carry, W: 0.8 x volts x breaker amperes; any shape.

    ValueError unless above zero. Source: [NEC].
    """
    require_positive(volts=volts, breaker_amps=breaker_amps)
    return np.asarray(volts, dtype=np.float64) * breaker_amps * CONTINUOUS_SHARE
