"""Heads that live on a battery: the frames a charge holds at the power planned, and when a head is ready again.

The frames wanted are the shot list's; what a head draws between flashes is not known, so a reserve is kept.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil
from typing import Any

from shotplans.light import power
from shotplans.planner import kit as owned
from shotplans.planner.plan import Light, Solved
from shotplans.planner.problem import Problem

RESERVE_SHARE = 0.8  # of a charge is planned with; the rest is for cold, age and the modelling lamp: common practice


def on_battery(head: owned.Head) -> bool:
    """Whether a head is fed by a battery, so that no circuit carries it."""
    return head.battery_ws is not None or head.battery_full_power_shots is not None


def frames(light: Light) -> int | None:
    """Frames of one full charge at the power planned; None for a head on the mains, a panel or a steady head."""
    head = light.emitter.head if light.emitter else None
    if head is None or head.light == "steady":
        return None
    return held(head.battery_full_power_shots, head.battery_ws, head.energy_ws, light.power_stops)


def held(at_full: float | None, battery_ws: float | None, energy_ws: float | None, below_stops: float) -> int | None:
    """Flashes of one full charge at a power below full, by the maker's count at full power, else by the energies, Ws;
    None where neither is known: the head hangs on the mains."""
    if at_full is not None:
        return int(power.frames_at_power(float(at_full), below_stops))
    if battery_ws is None:
        return None
    return int(power.frames_on_charge(float(battery_ws), power.energy_below_full(float(energy_ws or 1.0), below_stops)))


def ready_s(light: Light) -> float:
    """Seconds until a flash is ready again at the power planned; 0 for a panel or a steady head."""
    head = light.emitter.head if light.emitter else None
    if head is None or head.light == "steady":
        return 0.0
    return float(power.energy_below_full(float(head.recycle_s or 0.0), light.power_stops))


def problems(solved: Sequence[Solved], shots: Sequence[Mapping[str, Any]]) -> list[Problem]:
    """Charges that do not last the shot list, over all set-ups, and minutes that the recycling does not allow."""
    return [*_charges(solved, shots), *_pace(solved, shots)]


def _wanted(shots: Sequence[Mapping[str, Any]], name: str) -> int:
    return sum(int(s["frames"]) for s in shots if s["setup"] == name)


def _charges(solved: Sequence[Solved], shots: Sequence[Mapping[str, Any]]) -> list[Problem]:
    used: dict[str, tuple[float, int, Light]] = {}
    for one in solved:
        wanted = _wanted(shots, one.setup.name)
        for light in one.lights:
            holds = frames(light)
            if holds is not None and light.emitter is not None:
                share, sum_, _ = used.get(light.emitter.head.id, (0.0, 0, light))
                used[light.emitter.head.id] = (share + wanted / max(holds * RESERVE_SHARE, 1e-9), sum_ + wanted, light)
    found = []
    for head, (charges, wanted, light) in used.items():
        if charges > 1 + 1e-9:
            assert light.emitter is not None
            spare = min(wanted, ceil(charges - 1 - 1e-9))  # a charge that holds no frame at all: one for each
            values = {"head": light.emitter.head.label or head, "wanted": wanted, "lasts": int(wanted / charges)}
            found.append(Problem(None, "battery", float(spare), "batteries", "battery", values))
    return found


def _pace(solved: Sequence[Solved], shots: Sequence[Mapping[str, Any]]) -> list[Problem]:
    found = []
    for one in solved:
        slowest = max(one.lights, key=lambda x: (ready_s(x), x.letter), default=None)
        minutes = sum(float(s["minutes"] or 0.0) for s in shots if s["setup"] == one.setup.name)
        wait_min = ready_s(slowest) * _wanted(shots, one.setup.name) / 60 if slowest else 0.0
        if slowest is not None and minutes > 0 and wait_min > minutes:
            values = {"letter": slowest.letter, "ready": f"{ready_s(slowest):.1f}"}
            short = max(0.1, round(wait_min - minutes, 1))
            found.append(Problem(one.setup.name, "time", short, "min", "recycling_slow", values))
    return found
