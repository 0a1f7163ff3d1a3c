"""Planned against real times before and after sittings, and the buffer they suggest. Belongs here: that sum from pairs
of minutes. Not here: rows or pages."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

LEAST = 3  # sittings before anything is suggested: common practice, no source
SHARE = 0.8  # of the sittings that the suggested buffer would have held: common practice, no source
STEP_MIN = 5
MOST_MIN = 600


@dataclass(frozen=True)
class Times:
    """What sittings of one kind took beside what was planned, minutes: their middle, and how many went over."""

    sittings: int
    planned: float
    real: float
    over: int
    suggested: int | None  # None: too few to say

    def differs_from(self, buffer: int) -> bool:
        return self.suggested is not None and self.suggested != buffer


def times(pairs: Sequence[tuple[float, float]]) -> Times | None:
    """From (planned, real) minutes of each sitting; None without any.

    Suggested is the time that would have held four fifths of them, up to the next five minutes.
    """
    if not pairs:
        return None
    real = sorted(max(0.0, one) for _, one in pairs)
    suggested = None
    if len(real) >= LEAST:
        held = real[math.ceil(SHARE * len(real)) - 1]
        suggested = min(MOST_MIN, STEP_MIN * math.ceil(held / STEP_MIN - 1e-9))
    over = sum(one > planned + 1e-9 for planned, one in pairs)
    return Times(len(pairs), _middle([p for p, _ in pairs]), _middle(real), over, suggested)


def _middle(values: Sequence[float]) -> float:
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2
