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
from shotplans.planner.anatomy import HEAD_HEIGHT_M
from shotplans.planner.candidates import STEP_M

Tree = Mapping[str, Any]
KIND_COSTS = 0.5  # another kind of modifier weighs like a size half a stop of area off: common practice, no source
# How far a plan may lie from a locked value and still keep it: what a person sets, rounded, and the planner's bands
# about a standard. Common practice, no source.
NEAREST_M = 0.3  # no front is put nearer to a face
ALLOWED = {
    "lens_mm": 0.5, "camera_m": 0.1, "camera_above_eyes_m": 0.05, "head_share": 0.03, "key_m": 0.1,
    "key_bearing_deg": 5.0, "key_height_deg": 7.5, "fill_below_key_stops": 0.3, "background_lightness": 3.0,
    "kelvin": 150.0,
}  # fmt: skip


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


def alike_from_m(was_m: float, wanted: Tree, instead: Tree) -> float:
    """Where another front looks as large as one did from `was_m`, m, on 5 cm and no nearer than 0.3: by the ratio of
    their sizes. Geometry."""
    return round(max(NEAREST_M, float(round_to(was_m * size_m(instead) / size_m(wanted), STEP_M))), 2)


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
    are the kits. Nothing is locked that was not locked before; what was keeps its own value, which that day was left
    for a reason of its own.
    """
    found = {key: value for key, value in (former or {}).items() if value is not None}
    held = {name: found[name] for name in found.get("locked") or () if name in found}
    key = next((x for x in built["lights"] if x["role"] == "key" and x["head"]), None)
    planned = next((x for x in setup["lights"] if key and x["letter"] == key["letter"]), None)
    found["lens_mm"], found["camera_m"] = setup["camera"]["focal_mm"], built["camera"]["distance_m"]
    expected = setup.get("expected") or {}
    if expected.get("fill_below_key_stops") is not None:
        found["fill_below_key_stops"] = expected["fill_below_key_stops"]
    if (setup.get("background") or {}).get("lightness") is not None:
        found["background_lightness"] = setup["background"]["lightness"]
    if key is None or planned is None:
        return found | held, None
    found |= {
        "key_modifier": key["modifier"], "key_m": key["distance_m"], "key_bearing_deg": key["bearing_deg"],
        "key_height_deg": _height_deg(key, planned),
    }  # fmt: skip
    found |= held
    swap = _swap(key | {"modifier": found["key_modifier"], "distance_m": found["key_m"]}, then, today)
    if swap is not None:
        found |= {"key_modifier": swap.instead, "key_m": swap.instead_m}
    return found, swap


def key_side(built: Sequence[Tree]) -> str | None:
    """The side all keys stood on as shot, by the planner's word; None where they did not agree."""
    keys = [x for one in built for x in one["lights"] if x["role"] == "key" and x["head"]]
    sides = {"camera_right" if float(x["bearing_deg"]) > 0 else "camera_left" for x in keys if x["bearing_deg"]}
    return sides.pop() if len(sides) == 1 else None


def _swap(key: Tree, then: Tree, today: Tree) -> Swap | None:
    if any(key["modifier"] in (m["id"], m.get("label")) for m in today["modifiers"]):
        return None
    wanted = next((m for m in then["modifiers"] if key["modifier"] in (m["id"], m.get("label"))), None)
    instead = nearest(wanted, today["modifiers"]) if wanted else None
    if wanted is None or instead is None:
        return None
    was = float(key["distance_m"])
    return Swap(str(wanted.get("label") or wanted["id"]), str(instead["id"]), was, alike_from_m(was, wanted, instead))


def _height_deg(key: Tree, planned: Tree) -> float:
    """The key's height angle as built: from the planned one, the height and the distance typed over."""
    angle = math.radians(float(planned["height_angle_deg"]))
    level, rise = (float(planned["distance_m"]) * f(angle) for f in (math.cos, math.sin))
    rise += float(key["centre_height_m"]) - float(planned["centre_height_m"])
    level *= float(key["distance_m"]) / float(planned["distance_m"])
    return float(max(-30.0, min(85.0, round(math.degrees(math.atan2(rise, level))))))


def departures(document: Tree, locked: Tree, cameras: Sequence[Tree] = ()) -> Iterator[Departure]:
    """Where a plan does not keep what a standard locks, set-up by set-up; set-ups without a light have nothing to keep.

    `locked` are the locked values alone, by the planner's names; `cameras` the kit's, for the head's share of a frame.
    """
    for setup in document["setups"]:
        if setup["camera"] is None or not any(x["role"] == "key" for x in setup["lights"]):
            continue
        got = planned_values(setup, cameras)
        for name, wanted in locked.items():
            if got.get(name) is not None and not _kept(name, wanted, got[name]):
                yield Departure(setup["name"], name, _said(wanted), _said(got[name]))


def planned_values(setup: Tree, cameras: Sequence[Tree]) -> dict[str, Any]:
    """What a planned set-up comes to in everything a standard can lock; None where the plan does not say."""
    camera, key = setup["camera"], next(x for x in setup["lights"] if x["role"] == "key")
    return {
        "lens_mm": camera["focal_mm"], "camera_m": camera["distance_m"],
        "camera_above_eyes_m": round(camera["height_m"] - _eyes_m(setup), 2), "head_share": head_share(setup, cameras),
        "key_modifier": key["modifier"], "key_m": key["distance_m"], "key_bearing_deg": abs(key["bearing_deg"]),
        "key_height_deg": key["height_angle_deg"],
        "fill_below_key_stops": (setup.get("expected") or {}).get("fill_below_key_stops"),
        "background_lightness": (setup.get("background") or {}).get("lightness"),
        "kelvin": camera.get("white_balance_k"),
    }  # fmt: skip


def _eyes_m(setup: Tree) -> float:
    """Height of the eyes the camera was set to, m: the mean of those in the picture, the middle one of people in turn
    (as `planner.poses` has it)."""
    eyes = sorted(float(x["face_m"][1]) for x in setup["sitters"])
    return eyes[len(eyes) // 2] if setup.get("changes_per_person") else sum(eyes) / len(eyes)


def head_share(setup: Tree, cameras: Sequence[Tree]) -> float | None:
    """A head in the frame's height, 0 to 1: 0.23 m (`planner.anatomy`) over the field's height, which follows from its
    width and the sensor's sides."""
    body = next((c for c in cameras if c["id"] == setup["camera"]["body"]), None)
    wide = (setup.get("expected") or {}).get("field_width_m")
    if body is None or not wide:
        return None
    short, long = sorted((float(body["sensor_width_mm"]), float(body["sensor_height_mm"])))
    aspect = short / long if setup["camera"]["orientation"] == "upright" else long / short
    return round(HEAD_HEIGHT_M * aspect / float(wide), 2)


def _kept(name: str, wanted: Any, got: Any) -> bool:
    if name == "key_modifier":
        return bool(wanted == got)
    want = abs(float(wanted)) if name == "key_bearing_deg" else float(wanted)
    return abs(float(got) - want) <= ALLOWED[name] + 1e-6


def _said(value: Any) -> str:
    return f"{value:g}" if isinstance(value, int | float) else str(value)


# What of a standard a change on the set touches: of the camera, of a light by its role, of the ground. Fill and ground
# are held by their readings: a dial turned until its reading is met keeps them.
LOCKS: dict[tuple[str, str], tuple[str, ...]] = {
    ("camera", "lens"): ("lens_mm", "head_share"), ("camera", "distance"): ("camera_m", "head_share"),
    ("camera", "height"): ("camera_above_eyes_m",), ("key", "modifier"): ("key_modifier",),
    ("key", "distance"): ("key_m",), ("key", "bearing"): ("key_bearing_deg",), ("key", "height"): ("key_height_deg",),
    ("ground", "distance"): ("background_lightness",), ("ground", "ground"): ("background_lightness",),
}  # fmt: skip


def locked_by(request: Tree, setup: Tree, about: str, what: str) -> bool:
    """Whether a plan's standard locks what is about to be noted as changed, of the camera, a light or the ground."""
    brief = request["brief"]
    own = next((s.get("standard") for s in brief.get("setups") or () if s["name"] == setup["name"]), None)
    locked = (own or brief.get("standard") or {}).get("locked") or ()
    role = next((x["role"] for x in setup["lights"] if x["letter"] == about), about)
    return bool(set(LOCKS.get((role, what), ())) & set(locked))
