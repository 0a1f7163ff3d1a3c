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
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
THINGS = {"camera": noop("camera"), "background": noop("background")}
NAMES = {
    "distance_m": noop("distance"),
    "bearing_deg": noop("bearing"),
    "height_angle_deg": noop("above the eyes"),
    "centre_height_m": noop("height"),
    "height_m": noop("height"),
    "power_below_full_stops": noop("power"),
    "aim_m": noop("aim"),
    "aim_words": noop("aim"),
    "right_m": noop("place across"),
    "toward_camera_m": noop("place toward the camera"),
    "nose_bearing_deg": noop("nose"),
    "chin_deg": noop("chin"),
}


@dataclass(frozen=True)
class Said:
    """One value: of what, which, as it stands, as suggested, and why."""

    thing: str
    what: str
    value: str
    suggested: str
    reason: str = ""


def said(row: Entry, measures: Measures) -> Said:
    thing = row["name"] if row["thing"] in ("light", "sitter") else _(THINGS.get(row["thing"], row["thing"]))
    now, was = (_written(row["key"], row[part], measures) for part in ("value", "suggested"))
    return Said(str(thing), _(NAMES[row["key"]]), now, was, str(row.get("reason", "")))


def _written(key: str, value: Any, measures: Measures) -> str:
    if value is None:
        return _(wording.NONE)
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
    parts = [
        _("{thing} {what} {value} (suggested {suggested})").format(
            thing=s.thing, what=s.what, value=s.value, suggested=s.suggested
        )
        for s in found[:MOST_ON_PAPER]
    ]
    more = len(found) - MOST_ON_PAPER
    named = "; ".join(parts)
    return _("{named}; and {more} more, see the plan.").format(named=named, more=more) if more > 0 else f"{named}."
