"""Which head hangs on which circuit: continuous watts against four fifths of the breaker, peak amperes beside it.

A planning aid: local electrical rules, makers' instructions and licensed people come first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shotplans.light.rigging import continuous_limit_w
from shotplans.planner.plan import Light
from shotplans.planner.room import Circuit


def loads(lights: Sequence[Light], circuits: Sequence[Circuit]) -> list[dict[str, Any]]:
    """The heaviest head first, each on the circuit with most watts left; empty when no circuits are known."""
    if not circuits:
        return []
    watts = [0.0] * len(circuits)
    amps = [0.0] * len(circuits)
    limit = [round(float(continuous_limit_w(c.volts, c.breaker_amps)), 0) for c in circuits]
    heads = [x.emitter.head for x in lights if x.emitter]
    for head in sorted(heads, key=lambda h: (-drawn(h.watts, h.modelling_watts, h.light), h.id)):
        at = max(range(len(circuits)), key=lambda n: limit[n] - watts[n])
        watts[at] += drawn(head.watts, head.modelling_watts, head.light)
        amps[at] += float(head.peak_amps or 0.0)
    return [
        {"circuit": c.label, "watts": round(watts[n], 0), "peak_amps": round(amps[n], 1), "limit_watts": limit[n]}
        for n, c in enumerate(circuits)
    ]


def drawn(watts: float | None, modelling_watts: float | None, light: str) -> float:
    """Continuous watts of a head: a flash adds its modelling lamp to what recycling draws on average."""
    return float(watts or 0.0) + (float(modelling_watts or 0.0) if light == "flash" else 0.0)
