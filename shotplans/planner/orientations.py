"""Upright or horizontal, picture by picture, and why: wall or page, then shape, then base, then the cuts asked for.

Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.planner.brief import Brief, Sitter
from shotplans.planner.framings import FRAMINGS
from shotplans.planner.people import posture_of
from shotplans.planner.words.poses import ORIENTATION
from studio.tongue import gettext as _

HEAD_M = 0.5  # width that one head more takes in a row
A_ROW = 6  # heads side by side before a second row
CLOSE = ("head", "head_and_shoulders")  # no base is in the picture
EVEN = 1.2  # width against height within which neither decides


def decided(brief: Brief, who: Sequence[Sitter], framing: str) -> tuple[str, str]:
    """The way up of one picture and the reason in a few words."""
    if brief.orientation != "either":
        return str(brief.orientation), _(ORIENTATION["ordered"])
    wide = HEAD_M * min(len(who), A_ROW)
    tall = FRAMINGS[framing].horizontal_m
    if len(who) > 1 and wide > tall * EVEN:
        return "horizontal", _(ORIENTATION["wider"])
    if wide * EVEN < tall:
        return "upright", _(ORIENTATION["taller"])
    if framing not in CLOSE:
        stands = all(posture_of(s) == "standing" for s in who)
        return ("upright", _(ORIENTATION["base_up"])) if stands else ("horizontal", _(ORIENTATION["base"]))
    return ("horizontal", _(ORIENTATION["crops"])) if brief.crops else ("upright", _(ORIENTATION["taller"]))
