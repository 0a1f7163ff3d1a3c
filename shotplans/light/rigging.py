"""Weights on stands and booms as simple static sums: lever, legs, a steady push.

Deliberately without wind, knocks, a bending column or legs half spread: cautions about those, and the choice of
stand, are the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

GRAVITY_M_S2 = 9.80665


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


def edge_inside_m(footprint_m: Numbers, legs: int = 3) -> F:
    """Way from the column to the line between two neighbouring feet, m: (footprint / 2) cos(180 deg / legs).

    `footprint_m` is the diameter of the circle through the feet, the legs stand evenly about the column; three legs:
    a quarter of the footprint. Any shape; ValueError for a negative footprint or fewer than three legs. Geometry.
    """
    require_not_negative(footprint_m=footprint_m, legs_above_three=legs - 3)
    found: F = np.asarray(footprint_m, dtype=np.float64) / 2 * np.cos(np.pi / legs)
    return found


def boom_centre_m(reach_m: Numbers, counter_arm_m: Numbers) -> F:
    """Where an even arm's own weight lies, m from the pivot, + toward the lamp: (reach - counter arm) / 2.

    Any shape; ValueError below zero. Source: middle of a uniform rod.
    """
    require_not_negative(reach_m=reach_m, counter_arm_m=counter_arm_m)
    return (np.asarray(reach_m, dtype=np.float64) - counter_arm_m) / 2


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


def push_that_tips_n(margin_nm: Numbers, height_m: Numbers) -> F:
    """Steady sideways push at a height that uses up a tipping margin, N: margin / height; any shape, 0 where none.

    `margin_nm` without any push in it. ValueError unless the height is above zero. Source: [LEVER].
    """
    require_positive(height_m=height_m)
    found: F = np.maximum(np.asarray(margin_nm, dtype=np.float64) / height_m, 0.0)
    return found


def sandbag_kg(
    load_kg: Numbers,
    beyond_edge_m: Numbers,
    stand_kg: Numbers,
    stand_inside_m: Numbers,
    bag_inside_m: Numbers,
    push_nm: Numbers = 0.0,
    safety: float = 1.5,
) -> F:
    """Sandbag that keeps a stand from tipping with a margin, kg; never below zero; any shape.

    The least mass, `bag_inside_m` within the edge of the legs, with which holding moment >= safety x load moment +
    `push_nm`, a push to be stood besides. A load inside the edge (negative `beyond_edge_m`) holds too, without the
    safety. ValueError for a negative mass or push, a bag arm not above zero or a safety below 1. Source: [LEVER]; the
    factor 1.5 is common practice, no source.
    """
    require_not_negative(load_kg=load_kg, stand_kg=stand_kg, push_nm=push_nm, safety_above_one=safety - 1)
    require_positive(bag_inside_m=bag_inside_m)
    load = np.asarray(load_kg, dtype=np.float64) * beyond_edge_m
    tips = np.where(load > 0, safety * load, load) + np.asarray(push_nm, dtype=np.float64) / GRAVITY_M_S2
    found: F = np.maximum((tips - np.asarray(stand_kg) * stand_inside_m) / bag_inside_m, 0.0)
    return found
