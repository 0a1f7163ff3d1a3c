"""Movement against the time the light lasts: smear on the sitter, and what a shutter lets through.

How large it comes out on a print is in `lenses`. How fast people move is common practice; which of them the plan must
freeze is the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

HAND_M_S = 1.0  # a hand while its owner speaks: common practice, no source
TODDLER_M_S = 2.0  # a toddler who is free to move: common practice, no source
TREMOR_M_S = 0.3  # 10 mm to either side five times a second, 2 pi f a: value from memory


def motion_blur_mm(speed_m_s: Numbers, duration_s: Numbers) -> F:
    """Way a subject moves while the light lasts, v t in mm; any shape; ValueError below zero. Kinematics."""
    require_not_negative(speed_m_s=speed_m_s, duration_s=duration_s)
    return np.asarray(speed_m_s, dtype=np.float64) * duration_s * 1000


def longest_for_blur_s(blur_mm: Numbers, speed_m_s: Numbers) -> F:
    """Longest time in which a movement smears no more than a blur at the sitter, s: blur / speed; any shape.

    ValueError for a negative blur or a speed not above zero. Kinematics.
    """
    require_not_negative(blur_mm=blur_mm)
    require_positive(speed_m_s=speed_m_s)
    return np.asarray(blur_mm, dtype=np.float64) / 1000 / speed_m_s


def frame_lit_share(shutter_s: Numbers, sync_s: Numbers) -> F:
    """Share of the frame a short flash lights through a focal-plane shutter, 0 to 1: t / sync time, at most 1.

    An ideal slit and a flash much shorter than the shutter's run; a leaf shutter has no such slit. Any shape;
    ValueError unless above zero. Source: geometry of two curtains [SYNC].
    """
    require_positive(shutter_s=shutter_s, sync_s=sync_s)
    found: F = np.minimum(np.asarray(shutter_s, dtype=np.float64) / sync_s, 1.0)
    return found
