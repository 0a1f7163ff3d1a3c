"""A piece that is not to be had, and the owned one most like it: with the distance that keeps the light's apparent size
and the power that keeps its reading. Belongs here: those choices from plain trees. Not here: rows, words."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shotplans.light.units import round_to
from shotplans.records import again

Tree = Mapping[str, Any]


@dataclass(frozen=True)
class StandIn:
    """What would do instead. `distance_m` and `stops` (more power: +) are None where neither changes."""

    wanted: str
    instead: str
    letter: str = ""
    from_m: float | None = None
    distance_m: float | None = None
    stops: float | None = None

    @property
    def stops_less(self) -> float:
        return abs(self.stops or 0.0)


def stand_in(section: str, wanted: Tree, free: Sequence[Tree], light: Tree | None) -> StandIn | None:
    """The free piece of the section most like `wanted`; None where there is none. `light` is the plan's light that uses
    it, if one does."""
    pick = PICKS.get(section, _same_numbers)
    found = pick(wanted, [one for one in free if one["id"] != wanted["id"]])
    if found is None:
        return None
    letter = str(light["letter"]) if light else ""
    if light is None or section not in ("heads", "modifiers"):
        return StandIn(str(wanted["id"]), str(found["id"]), letter)
    was = float(light["distance_m"])
    if section == "heads":
        return StandIn(str(wanted["id"]), str(found["id"]), letter, was, was, _head_stops(wanted, found))
    at = again.alike_from_m(was, wanted, found)
    stops = float(found["loss_stops"]) - float(wanted["loss_stops"]) + 2 * math.log2(at / was)
    return StandIn(str(wanted["id"]), str(found["id"]), letter, was, at, _tenth(stops))


def _head_stops(wanted: Tree, found: Tree) -> float | None:
    """More power another head must give for the same reading, stops: 2 log2 of the ratio of f-numbers, log2 of that of
    lux; by the meaning of both. None where one of them is not known."""
    for key, factor in (("f_number_1m_iso100", 2.0), ("lux_1m", 1.0)):
        if wanted.get(key) and found.get(key):
            return _tenth(factor * math.log2(float(wanted[key]) / float(found[key])))
    return None


def _tenth(stops: float) -> float:
    return float(round_to(stops, 0.1)) + 0.0


def _heads(wanted: Tree, free: Sequence[Tree]) -> Tree | None:
    """The same sort of light on the same mount, the nearest output, more before less."""
    alike = [h for h in free if (h.get("light") or "flash") == (wanted.get("light") or "flash")]
    return min(
        (h for h in alike if h["mount"] == wanted["mount"]),
        key=lambda h: (abs(_head_stops(wanted, h) or 0.0), str(h["id"])), default=None,
    )  # fmt: skip


def _stands(wanted: Tree, free: Sequence[Tree]) -> Tree | None:
    """One of the kind that is as high and carries as much, the smallest such."""
    able = [
        s for s in free
        if s["kind"] == wanted["kind"] and s["max_height_m"] >= wanted["max_height_m"]
        and s["max_load_kg"] >= wanted["max_load_kg"] and (s.get("reach_m") or 0) >= (wanted.get("reach_m") or 0)
    ]  # fmt: skip
    return min(able, key=lambda s: (s["max_height_m"], s["max_load_kg"], str(s["id"])), default=None)


def _adapters(wanted: Tree, free: Sequence[Tree]) -> Tree | None:
    same = [r for r in free if (r["from"], r["to"]) == (wanted["from"], wanted["to"])]
    return min(same, key=lambda r: str(r["id"]), default=None)


def _same_numbers(wanted: Tree, free: Sequence[Tree]) -> Tree | None:
    """The piece with the fewest numbers that differ, its size weighing by how far off it is."""

    def off(one: Tree) -> tuple[float, str]:
        found = 0.0
        for key in wanted.keys() - {"id", "label"}:
            a, b = wanted.get(key), one.get(key)
            if isinstance(a, int | float) and isinstance(b, int | float) and a > 0 and b > 0:
                found += abs(math.log2(b / a))
            elif a != b:
                found += 1.0
        return found, str(one["id"])

    return min(free, key=off, default=None)


PICKS: dict[str, Callable[[Tree, Sequence[Tree]], Tree | None]] = {
    "heads": _heads, "stands": _stands, "adapters": _adapters, "modifiers": again.nearest,
}  # fmt: skip
