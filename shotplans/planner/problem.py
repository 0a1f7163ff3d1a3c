"""One broken limit: how far, in which unit, and the values its words need."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from shotplans.light.units import round_to
from shotplans.planner import words


@dataclass(frozen=True)
class Problem:
    """A broken limit: by how much, in which unit, the values its words need; `mend` where trying found one."""

    setup: str | None
    limit: str
    short_by: float
    unit: str
    code: str
    values: dict[str, Any] = field(default_factory=dict)
    mend: str = ""

    def printed(self) -> dict[str, Any]:
        """The problem in words, as the plan's document holds it."""
        says, mend = words.problem(self.code, self.values, self.short_by)
        return {
            "setup": self.setup, "limit": self.limit, "short_by": self.short_by, "unit": self.unit, "says": says,
            "mend": self.mend or mend,
        }  # fmt: skip


def up(value: float) -> float:
    """A shortage in metres, rounded up to 5 cm: a plan may ask for a little more, never for less than it needs."""
    return float(round_to(np.ceil(value / 0.05 - 1e-9) * 0.05, 0.05))
