"""Which head hangs on which circuit: continuous watts against four fifths of the breaker, peak amperes beside it.

A planning aid: local electrical rules, makers' instructions and licensed people come first. Heads on a battery hang
on none.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shotplans.light.power import continuous_limit_w, staggered_peak_a
from shotplans.planner import kit as owned
from shotplans.planner.batteries import on_battery
from shotplans.planner.plan import Light
from shotplans.planner.room import Circuit

MOST_TRIES = 20_000


def loads(lights: Sequence[Light], circuits: Sequence[Circuit]) -> list[dict[str, Any]]:
    """One row a circuit: what it carries, and the letters of the lights on it; empty when no circuits are known.

    `peak_amps` is all heads of the circuit recycling at once, `staggered_amps` one after the other.
    """
    if not circuits:
        return []
    fed = [x for x in lights if x.emitter and not on_battery(x.emitter.head)]
    fed.sort(key=lambda x: (-_watts(x), x.emitter.head.id if x.emitter else ""))
    limits = [round(float(continuous_limit_w(c.volts, c.breaker_amps)), 0) for c in circuits]
    places = _spread([_watts(x) for x in fed], limits)
    return [
        _row(c, limits[n], sorted((x for x, at in zip(fed, places, strict=True) if at == n), key=lambda x: x.letter))
        for n, c in enumerate(circuits)
    ]


def drawn(watts: float | None, modelling_watts: float | None, light: str) -> float:
    """Continuous watts of a head: a flash adds its modelling lamp to what recycling draws on average."""
    return float(watts or 0.0) + (float(modelling_watts or 0.0) if light == "flash" else 0.0)


def _watts(light: Light) -> float:
    head = _head(light)
    return drawn(head.watts, head.modelling_watts, head.light)


def _head(light: Light) -> owned.Head:
    assert light.emitter is not None
    return light.emitter.head


def _row(circuit: Circuit, limit_watts: float, lights: Sequence[Light]) -> dict[str, Any]:
    heads = [_head(x) for x in lights]
    peaks = [float(h.peak_amps or 0.0) for h in heads]
    # a head's peak holds its own modelling lamp; while one recycles, the lamps of the others burn on
    standing = [
        min(p, float(h.modelling_watts or 0.0) / circuit.volts) if h.light == "flash" else p
        for h, p in zip(heads, peaks, strict=True)
    ]
    recycling = [p - s for p, s in zip(peaks, standing, strict=True)]
    return {
        "circuit": circuit.label,
        "watts": round(sum(map(_watts, lights)), 0),
        "peak_amps": round(sum(peaks), 1),
        "limit_watts": limit_watts,
        "staggered_amps": round(staggered_peak_a(recycling, sum(standing)), 1),
        "letters": [x.letter for x in lights],
    }


def _spread(watts: Sequence[float], limits: Sequence[float]) -> list[int]:
    """The circuit of each head, heaviest first: where most is left; where that overloads one, any way that does not."""
    left = list(limits)
    places = []
    for load in watts:
        at = max(range(len(left)), key=lambda n: left[n])
        left[at] -= load
        places.append(at)
    if min(left, default=0.0) >= 0:
        return places
    return _packed(watts, list(limits), [MOST_TRIES]) or places


def _packed(watts: Sequence[float], left: list[float], tries: list[int]) -> list[int] | None:
    """A way to hang all heads with no circuit overloaded, or None; of circuits alike one is tried."""
    if not watts:
        return []
    seen = set()
    for n, spare in enumerate(left):
        tries[0] -= 1
        if spare < watts[0] or spare in seen or tries[0] < 0:
            continue
        seen.add(spare)
        rest = _packed(watts[1:], [*left[:n], spare - watts[0], *left[n + 1 :]], tries)
        if rest is not None:
            return [n, *rest]
    return None
