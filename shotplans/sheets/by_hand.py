"""Values that a hand set, in words: what it is, how it stands, what was suggested.

Belongs here: the words of a row of a plan's `by_hand`, for page and paper alike. The reason is the page's alone: it may
cite what is known of somebody, and paper lies where sitters can read it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.sheets import wording
from shotplans.sheets.measures import Measures

Entry = Mapping[str, Any]
NAMES = {
    "distance_m": "distance", "bearing_deg": "bearing", "height_angle_deg": "above the eyes",
    "centre_height_m": "height", "height_m": "height", "power_below_full_stops": "power", "aim_m": "aim",
    "aim_words": "aim",
    "right_m": "place across", "toward_camera_m": "place toward the camera", "nose_bearing_deg": "nose",
    "chin_deg": "chin",
}  # fmt: skip


@dataclass(frozen=True)
class Said:
    """One value: of what, which, as it stands, as suggested, and why."""

    thing: str
    what: str
    value: str
    suggested: str
    reason: str = ""


def said(row: Entry, measures: Measures) -> Said:
    thing = {"light": row["name"], "sitter": row["name"]}.get(row["thing"], row["thing"])
    now, was = (_written(row["key"], row[part], measures) for part in ("value", "suggested"))
    return Said(str(thing), NAMES[row["key"]], now, was, str(row.get("reason", "")))


def _written(key: str, value: Any, measures: Measures) -> str:
    if value is None:
        return wording.NONE
    if key == "aim_words":
        return str(value)
    if key == "aim_m":
        return ", ".join(measures.signed(v) for v in value)
    if key == "power_below_full_stops":
        return wording.below_full(value)
    if key == "bearing_deg":
        return wording.bearing(value)
    if key == "nose_bearing_deg":
        return wording.turned(value)
    if key == "chin_deg":
        return wording.chin(value)
    if key == "height_angle_deg":
        return f"{value:.0f}°"
    return measures.signed(value) if key in ("right_m", "toward_camera_m") else measures.length(value)


MOST_ON_PAPER = 4


def in_short(rows: list[Entry], measures: Measures) -> str:
    """All of a set-up's values in a line of its sheet: the first few, and how many more there are."""
    found = [said(row, measures) for row in rows]
    parts = [f"{s.thing} {s.what} {s.value} (suggested {s.suggested})" for s in found[:MOST_ON_PAPER]]
    more = len(found) - MOST_ON_PAPER
    return "; ".join(parts) + (f"; and {more} more, see the plan" if more > 0 else "") + "."
