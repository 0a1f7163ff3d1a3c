"""What it costs to go from one set-up to another: minutes, from what differs between two set-ups of a plan.

Belongs here: the cost alone. Not here: what to do, line by line (`sheets.changeover`).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from shotplans.planner.rules import UNCHANGED, House

Entry = Mapping[str, Any]
PLACED = ("distance_m", "bearing_deg", "centre_height_m", "dial")
CAMERA = ("lens", "distance_m", "height_m", "orientation", "aperture", "iso")


def minutes(before: Entry, after: Entry, house: House = UNCHANGED, pace: float | None = None) -> float:
    """Minutes from one set-up to another; never negative, none where nothing differs.

    Where one of them has no light yet nobody knows what differs: the house's usual change. `pace` is what a change
    really took, in minutes, against the house's usual one: every cost is longer or shorter by as much.
    """
    usual = house.number("pace", "change_minutes")
    factor = 1.0 if pace is None or usual <= 0 else pace / usual
    if before["name"] == after["name"]:
        return 0.0
    if before["camera"] is None or after["camera"] is None or not before["lights"] or not after["lights"]:
        return usual * factor
    found = _lights(before, after, house)
    if before["background"]["id"] != after["background"]["id"]:
        found += house.number("set_change", "ground_minutes")
    elif before["background"]["distance_m"] != after["background"]["distance_m"]:
        found += house.number("set_change", "moved_minutes")
    if any(before["camera"][key] != after["camera"][key] for key in CAMERA):
        found += house.number("set_change", "camera_minutes")
    return found * factor


def _lights(before: Entry, after: Entry, house: House) -> float:
    """Fronts that stay are moved or left; heads that stay get another front; the rest is brought or taken down."""
    old = {_front(light): light for light in before["lights"]}
    new = {_front(light): light for light in after["lights"]}
    both = [(old[front], light) for front, light in new.items() if front in old]
    moved = sum(any(a[key] != b[key] for key in PLACED) for a, b in both)
    gone = [light for front, light in old.items() if front not in new]
    come = [light for front, light in new.items() if front not in old]
    heads = {light["head"] for light in gone if light["head"]}
    fronts = sum(light["head"] in heads for light in come)
    others = len(gone) + len(come) - 2 * fronts
    number = house.number
    return (
        moved * number("set_change", "moved_minutes")
        + fronts * number("set_change", "front_minutes")
        + others * number("set_change", "light_minutes")
    )


def _front(light: Entry) -> str:
    return str(light["modifier"] or light["panel"])


def table(setups: Sequence[Entry], house: House = UNCHANGED, pace: float | None = None) -> dict[tuple[str, str], float]:
    """Minutes from each set-up to each other, by their names."""
    return {(a["name"], b["name"]): minutes(a, b, house, pace) for a in setups for b in setups}
