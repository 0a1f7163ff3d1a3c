"""How many frames a picture needs. Belongs here: that count. Not here: which pictures, in which order (`shotlist`)."""

from __future__ import annotations

from math import ceil

from shotplans.planner.rules import UNCHANGED, House


def frames_for(heads: int, house: House = UNCHANGED) -> int:
    """Frames to take so that one has every eye open: half the heads, three at least (12 people: 6; 8: 4; 4: 3)."""
    return ceil(max(house.number("blink", "frames_least"), heads / house.number("blink", "heads_per_frame")))
