"""Power and place of a plan: load by circuit, how long a lead each light wants, how much ceiling and floor is left.
Belongs here: those figures from the frozen plan, each with its caution. Not here: rows, layout. Advice only: local
electrical, fire and building rules, makers' instructions and licensed people come first."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.planner.batteries import on_battery
from shotplans.planner.request import Request
from shotplans.sheets.measures import FOOT_M, Measures
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
SLACK_M = 1.5  # a loop at the stand's foot and a way round: common practice, no source
HEAD_DOWN_M = 0.3  # a head's socket hangs about so far under its middle: value from memory
LEADS_M = (5.0, 10.0, 15.0, 20.0, 25.0)  # as sold; a longer way wants another socket
LEADS_FT = (15, 25, 50, 100)
TIGHT_M = 0.2  # under a ceiling, and beside a wall: common practice, no source
PATH_M = 0.9  # a way past the set that a wheelchair goes: the figure of the planner's own caution
CAUTIONS = {
    "power": noop(
        "Loads are sums of rated watts, kept at four fifths of each breaker; flash heads draw "
        "several times their average while they recycle. Local electrical rules and makers' "
        "instructions come first; new or fixed wiring is for a licensed electrician."
    ),
    "leads": noop(
        "Leads whole, unwound, flat and covered on any path, none through water or a closing door. "
        "Lengths are reckoned along the floor to the nearest side wall: measure where the sockets "
        "are."
    ),
    "place": noop(
        "Raise what is tall slowly, with somebody watching its top; exits, extinguishers and "
        "detectors stay free. The rules of the building and of its fire officer come first."
    ),
}


@dataclass(frozen=True)
class Load:
    """One circuit of one set-up: what hangs on it against four fifths of its breaker."""

    setup: str
    circuit: str
    letters: str
    watts: float
    limit_watts: float
    peak_amps: float
    over: bool


@dataclass(frozen=True)
class Lead:
    """How long a lead one light wants: reckoned, and the next length sold; None where none is long enough."""

    setup: str
    letter: str
    needs_m: float
    lead_m: float | None


@dataclass(frozen=True)
class Clearance:
    """One set-up in its room: the tallest light's gap to the ceiling, the set's length and what is left of the room."""

    setup: str
    letter: str
    ceiling_gap_m: float
    set_length_m: float
    room_length_m: float
    tight: bool


def loads(document: Entry) -> list[Load]:
    """As the plan reckoned them; a set-up without known circuits has none."""
    found = []
    for setup in _built(document):
        for row in (setup.get("expected") or {}).get("load") or ():
            if row["letters"]:
                found.append(Load(
                    setup["name"], row["circuit"], ", ".join(row["letters"]), row["watts"], row["limit_watts"],
                    row["peak_amps"], row["watts"] > row["limit_watts"],
                ))  # fmt: skip
    return found


def leads(document: Entry, request: Request) -> list[Lead]:
    """For each light on the mains: down the stand, along the floor square to the nearer side wall, and some slack, m.

    Where the sockets are is not known, so the wall beside the set is taken; common practice, no source.
    """
    alone = {str(head.id) for head in request.kit.heads if on_battery(head)}
    found = []
    for setup in _built(document):
        for light in setup["lights"]:
            if light["head"] and light["head"] not in alone:
                needs = _lead_m(light, setup["room"])
                long_enough = next((m for m in LEADS_M if m >= needs), None)
                found.append(Lead(setup["name"], light["letter"], needs, long_enough))
    return found


def _lead_m(light: Entry, room: Entry) -> float:
    foot = light.get("foot_m") or (light["position_m"][0], light["position_m"][2])
    aside = max(0.0, float(room["mark_from_side_wall_m"]) - abs(float(foot[0])))
    down = max(0.0, float(light["centre_height_m"]) - HEAD_DOWN_M)
    return round(math.ceil(10 * (aside + down + float(light.get("arm_m") or 0.0) + SLACK_M)) / 10, 1)


def clearances(document: Entry, request: Entry) -> list[Clearance]:
    """The tallest light under the ceiling, and ground to camera in the length of the room the set looks along, m."""
    room = request["room"]
    found = []
    for setup in _built(document):
        tall = max(setup["lights"], key=lambda x: float(x["top_height_m"]), default=None)
        if tall is None:
            continue
        placed = setup["room"]
        length = float(room["width_m"] if placed["axis"] == "width" else room["depth_m"])
        used = sum(float(placed[k]) for k in ("ground_from_wall_m", "mark_from_ground_m", "camera_from_mark_m"))
        gap = round(float(room["ceiling_m"]) - float(tall["top_height_m"]), 2)
        tight = gap < TIGHT_M or length - used < PATH_M
        found.append(Clearance(setup["name"], tall["letter"], gap, round(used, 2), length, tight))
    return found


def _built(document: Entry) -> Iterator[Entry]:
    return (setup for setup in document["setups"] if setup["camera"] is not None)


def lead_words(lead: Lead, measures: Measures) -> str:
    """What to lay: "10 m lead for 8.2 m"."""
    needs = measures.length(lead.needs_m)
    sold = lead.lead_m
    words = f"{sold:g} m" if sold else ""
    if measures.is_imperial:
        feet = next((ft for ft in LEADS_FT if ft * FOOT_M >= lead.needs_m), None)
        words = f"{feet} ft" if feet else ""
    return (
        _("{sold} lead for {needs}").format(sold=words, needs=needs)
        if words
        else _("{needs}: longer than any one lead; another socket").format(needs=needs)
    )
