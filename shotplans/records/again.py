"""Last time's light as a standard to plan by, with today's kit: what is not there is replaced by the nearest.

Belongs here: from a set-up as shot to the planner's own `standard`, and where a plan leaves one. Not here: rows or
words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from shotplans.light.units import round_to

Tree = Mapping[str, Any]
STEP_M = 0.05
KIND_COSTS = 0.5  # another kind of modifier weighs like a size half a stop of area off: common practice, no source
# How far a plan may lie from a locked value and still keep it: what a person sets, rounded, and the planner's bands.
ALLOWED = {"lens_mm": 0.5, "camera_m": 0.1, "key_m": 0.1, "key_bearing_deg": 5.0, "key_height_deg": 7.5}


@dataclass(frozen=True)
class Swap:
    """A modifier that is not to be had, what stands in for it, and the distance that keeps its apparent size."""

    wanted: str
    instead: str
    wanted_m: float
    instead_m: float


@dataclass(frozen=True)
class Departure:
    """A locked value that a plan does not keep."""

    setup_name: str
    name: str
    wanted: str
    got: str


def size_m(modifier: Tree) -> float:
    """One length for a front of any shape, m: its diameter, or the side of a square of equal area times 2 / root pi."""
    if modifier.get("diameter_m"):
        return float(modifier["diameter_m"])
    return 2 * math.sqrt(float(modifier["width_m"]) * float(modifier["height_m"]) / math.pi)


def nearest(wanted: Tree, owned: Sequence[Tree]) -> Tree | None:
    """The modifier most like one that is gone: its size first, its kind second; None where there is none."""

    def cost(one: Tree) -> tuple[float, str]:
        off = abs(math.log2(size_m(one) / size_m(wanted)))
        return off + (KIND_COSTS if one["kind"] != wanted["kind"] else 0.0), str(one["id"])

    return min(owned, key=cost, default=None)


def standard(
    built: Tree, setup: Tree, former: Tree | None, then: Tree, today: Tree
) -> tuple[dict[str, Any], Swap | None]:
    """The look of a set-up as shot, in the planner's words, and what stands in for a key modifier that is gone.

    `built` is the copy, `setup` the plan it was copied from, `former` a standard it was made under; `then` and `today`
    are the kits. Nothing is locked that was not locked before.
    """
    found = {key: value for key, value in (former or {}).items() if value is not None}
    key = next((x for x in built["lights"] if x["role"] == "key" and x["head"]), None)
    planned = next((x for x in setup["lights"] if key and x["letter"] == key["letter"]), None)
    found["lens_mm"], found["camera_m"] = setup["camera"]["focal_mm"], built["camera"]["distance_m"]
    expected = setup.get("expected") or {}
    if expected.get("fill_below_key_stops") is not None:
        found["fill_below_key_stops"] = expected["fill_below_key_stops"]
    if (setup.get("background") or {}).get("lightness") is not None:
        found["background_lightness"] = setup["background"]["lightness"]
    if key is None or planned is None:
        return found, None
    found |= {
        "key_modifier": key["modifier"], "key_m": key["distance_m"], "key_bearing_deg": key["bearing_deg"],
        "key_height_deg": _height_deg(key, planned),
    }  # fmt: skip
    swap = _swap(key, then, today)
    if swap is not None:
        found |= {"key_modifier": swap.instead, "key_m": swap.instead_m}
    return found, swap


def _swap(key: Tree, then: Tree, today: Tree) -> Swap | None:
    if any(m["id"] == key["modifier"] for m in today["modifiers"]):
        return None
    wanted = next((m for m in then["modifiers"] if m["id"] == key["modifier"]), None)
    instead = nearest(wanted, today["modifiers"]) if wanted else None
    if wanted is None or instead is None:
        return None
    at = max(0.3, float(round_to(float(key["distance_m"]) * size_m(instead) / size_m(wanted), STEP_M)))
    return Swap(str(wanted.get("label") or wanted["id"]), str(instead["id"]), float(key["distance_m"]), round(at, 2))


def _height_deg(key: Tree, planned: Tree) -> float:
    """The key's height angle as built: from the planned one, the height and the distance typed over."""
    angle = math.radians(float(planned["height_angle_deg"]))
    level, rise = (float(planned["distance_m"]) * f(angle) for f in (math.cos, math.sin))
    rise += float(key["centre_height_m"]) - float(planned["centre_height_m"])
    level *= float(key["distance_m"]) / float(planned["distance_m"])
    return float(max(-30.0, min(85.0, round(math.degrees(math.atan2(rise, level))))))


def departures(document: Tree, locked: Tree) -> Iterator[Departure]:
    """Where a plan does not keep what a standard locks, set-up by set-up; set-ups without a light have nothing to keep.

    `locked` are the locked values alone, by the planner's names; those a plan does not print are left out.
    """
    for setup in document["setups"]:
        key = next((x for x in setup["lights"] if x["role"] == "key"), None)
        if key is None or setup["camera"] is None:
            continue
        got = {
            "lens_mm": setup["camera"]["focal_mm"], "camera_m": setup["camera"]["distance_m"],
            "key_modifier": key["modifier"], "key_m": key["distance_m"], "key_bearing_deg": abs(key["bearing_deg"]),
            "key_height_deg": key["height_angle_deg"],
        }  # fmt: skip
        for name, wanted in locked.items():
            if name in got and not _kept(name, wanted, got[name]):
                yield Departure(setup["name"], name, _said(wanted), _said(got[name]))


def _kept(name: str, wanted: Any, got: Any) -> bool:
    if name == "key_modifier":
        return bool(wanted == got)
    want = abs(float(wanted)) if name == "key_bearing_deg" else float(wanted)
    return abs(float(got) - want) <= ALLOWED[name] + 1e-6


def _said(value: Any) -> str:
    return f"{value:g}" if isinstance(value, int | float) else str(value)


LOCKS = {
    ("camera", "lens"): "lens_mm", ("camera", "distance"): "camera_m", ("camera", "height"): "camera_above_eyes_m",
    ("key", "modifier"): "key_modifier", ("key", "distance"): "key_m", ("key", "bearing"): "key_bearing_deg",
    ("key", "height"): "key_height_deg",
}  # fmt: skip


def locked_by(request: Tree, setup: Tree, about: str, what: str) -> bool:
    """Whether a plan's standard locks what is about to be noted as changed, of the camera or of the key."""
    locked = (request["brief"].get("standard") or {}).get("locked") or ()
    role = next((x["role"] for x in setup["lights"] if x["letter"] == about), about)
    return LOCKS.get((role, what)) in locked
