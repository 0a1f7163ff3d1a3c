"""One key that could be built, and what it is worth: score less what it breaks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.planner.emitters import Emitter
from shotplans.planner.judge import Full
from shotplans.planner.people import Pose

F = NDArray[np.float64]
BROKEN_COST = 3.0  # a broken limit outweighs any score


@dataclass(frozen=True)
class Choice:
    """One key that could be built: who sits how, what stands where, how good it is and what it breaks."""

    pose: Pose
    emitter: Emitter
    distance_m: float
    bearing_deg: float
    height_deg: float
    score: float
    broken: float
    feather_deg: float = 0.0  # the aim turned from the eyes at the mark, past the near face
    by_head: float = 0.0  # the part of `broken` that hangs on the head: its power, its mass on the stands

    @property
    def value(self) -> float:
        """Score less what is broken, for ranking."""
        return self.score - BROKEN_COST * self.broken - (1.0 if self.broken > 0 else 0.0)

    @property
    def without_head(self) -> float:
        """The value it would have behind a head of any power and no mass."""
        rest = max(0.0, self.broken - self.by_head)
        return self.score - BROKEN_COST * rest - (1.0 if rest > 1e-9 else 0.0)


def value_of(judged: Full) -> F:
    """Score less what is broken, as `Choice.value`."""
    return np.asarray(judged.score - BROKEN_COST * judged.broken - (judged.broken > 0), dtype=np.float64)
