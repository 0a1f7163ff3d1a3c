"""Batteries between two sittings: what one took, what the pause puts back, whether it lasts for the next. Belongs here:
that sum from frozen plans. Not here: one sitting's own shot list (`batteries`), rows or words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from shotplans.planner.batteries import RESERVE_SHARE, held

Entry = Mapping[str, Any]
CHARGE_HOURS = 3.0  # from empty to full, where the maker's figure is not known: common practice, no source


@dataclass(frozen=True)
class Use:
    """What one sitting takes of one head's charge: a share of what may be used of a full one, 0 to above 1."""

    sitting: str
    head: str
    share: float
    starts_at: datetime
    ends_at: datetime


@dataclass(frozen=True)
class Short:
    """A head whose battery, charged from the end of the sitting before, does not last for the next one. `left` is the
    share there is, `minutes` the pause."""

    use: Use
    before: Use
    left: float
    minutes: int


def uses(sitting: str, document: Entry, request: Entry, starts_at: datetime, ends_at: datetime) -> list[Use]:
    """What a plan takes of each battery: frames of its shots over those a charge holds at the power planned."""
    heads = {h["id"]: h for h in request["kit"]["heads"]}
    found: dict[str, float] = {}
    for setup in document["setups"]:
        frames = sum(int(s["frames"]) for s in document.get("shots") or () if s["setup"] == setup["name"])
        for light in setup["lights"]:
            holds = _holds(heads.get(light["head"] or "", {}), float(light.get("power_below_full_stops") or 0.0))
            if holds is not None:
                found[light["head"]] = found.get(light["head"], 0.0) + frames / max(holds * RESERVE_SHARE, 1e-9)
    return [Use(sitting, head, share, starts_at, ends_at) for head, share in found.items()]


def _holds(head: Entry, stops: float) -> int | None:
    """Frames a full charge holds; None for a head on the mains or a steady one."""
    if head.get("light") == "steady":
        return None
    return held(head.get("battery_full_power_shots"), head.get("battery_ws"), head.get("energy_ws"), stops)


def short(found: Sequence[Use], hours: float = CHARGE_HOURS) -> list[Short]:
    """Sittings in the order of the day whose battery is not full enough, one battery to each head, full at first."""
    by_head: dict[str, list[Use]] = {}
    for use in sorted(found, key=lambda one: (one.starts_at, one.sitting)):
        by_head.setdefault(use.head, []).append(use)
    said = []
    for in_order in by_head.values():
        left = 1.0
        for n, use in enumerate(in_order):
            if n:
                before = in_order[n - 1]
                pause_h = max(0.0, (use.starts_at - before.ends_at).total_seconds() / 3600)
                left = min(1.0, left + pause_h / hours)
                if use.share > left + 1e-9 and use.share <= 1.0:  # above a whole charge its own plan says so
                    said.append(Short(use, before, left, int(pause_h * 60)))
            left = max(0.0, left - use.share)
    return said
