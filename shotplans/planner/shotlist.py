"""Step 8: the shot list as the order of a day. What is photographed when, of whom, with which card, how long, and what
falls off the end of the booked time.

Belongs here: putting pictures, order, minutes and cards together as the document has them. Frames and minutes follow
the house's rules. Common practice, no source.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor
from typing import Any

import numpy as np

from shotplans.planner import names, orientations, pictures, pose_cards, set_changes, shot_case, shot_order
from shotplans.planner.pictures import Cast, Picture
from shotplans.planner.relations import is_small
from shotplans.planner.request import Request
from shotplans.planner.rules import House
from shotplans.planner.shots import frames_for
from shotplans.planner.words.joined import all_of
from shotplans.planner.words.poses import LAST, ORIENTATION
from studio.tongue import gettext as _

STEP = 0.25  # steps in which what is left of the booked time is given to the pictures


@dataclass(frozen=True)
class Listed:
    """The list: `least` is what pictures and changes need in minutes, `changes` the part that changes take;
    `proposed` what could be taken beside."""

    shots: list[dict[str, Any]]
    proposed: list[dict[str, Any]]
    least: float
    changes: float

    @property
    def setups(self) -> list[str]:
        """Set-ups in the order to shoot."""
        return list(dict.fromkeys(s["setup"] for s in self.shots))

    @property
    def off(self) -> list[int]:
        """Numbers of the pictures for which no time is left."""
        return [s["n"] for s in self.shots if s["falls_off"]]


@dataclass(frozen=True)
class _Day:
    """Pictures in the order found, with minutes each may take and when it begins."""

    listed: list[Picture]
    minutes: list[float]
    begins: list[float]
    least: float
    changes: float


def listed(
    request: Request, setups: Sequence[dict[str, Any]], in_turn: set[str], house: House, extra: float = 0.0
) -> Listed:
    """The list of a whole brief in the order to shoot; `extra` minutes of the booked time are for what notes ask."""
    cast = Cast(request.brief, setups, {s.label: s for s in request.sitters}, frozenset(in_turn))
    booked = None if not request.brief.minutes else max(1.0, float(request.brief.minutes) - extra)
    wanted = pictures.wanted(cast)
    day = _ordered(request, cast, wanted, house, booked)
    while (spare := _too_much(day, cast, house, booked)) is not None:
        wanted = [p for p in wanted if p is not spare]
        day = _ordered(request, cast, wanted, house, booked)
    shots = [_shot(request, cast, day, n, house, booked) for n in range(len(day.listed))]
    _cues(shots, day)
    more = [_proposal(p) for p in pictures.proposals(cast, day.listed)]
    return Listed(shots, more, day.least, day.changes)


def _too_much(day: _Day, cast: Cast, house: House, booked: float | None) -> Picture | None:
    """What nobody asked for makes room first: the last of it where time is short, or where it comes after somebody's
    patience."""
    spare = [n for n, p in enumerate(day.listed) if p.code == "proposed"]
    ends = [day.begins[n] + day.minutes[n] for n in spare]
    over = [
        n for n, end in zip(spare, ends, strict=True)
        if booked and end > shot_case.limit(cast, day.listed[n].who, house) + 1e-6
    ]  # fmt: skip
    if booked and spare and _ends(day) > booked + 1e-6:
        return day.listed[spare[-1]]
    return day.listed[over[-1]] if over else None


def _ordered(request: Request, cast: Cast, wanted: list[Picture], house: House, booked: float | None) -> _Day:
    pace = request.pace
    least = [shot_case.least(cast, p, house, pace) for p in wanted]
    changes = set_changes.table(cast.setups, house, pace.change_minutes if pace else None)
    if not wanted:
        return _Day([], [], [], 0.0, 0.0)
    case = shot_case.case(cast, wanted, least, changes, house, booked)
    order = np.arange(len(wanted)) if request.brief.shots_in_order else shot_order.found(case)
    own = [wanted[i] for i in order]
    between = [0.0, *(float(case.between[a, b]) for a, b in pairwise(order))]
    shortest = [least[i] for i in order]
    due = [float(case.due[i]) if case.late[i] else float("inf") for i in order]
    minutes = _stretched([shot_case.most(cast, p, house) for p in own], shortest, between, due, house, booked)
    begins = [sum(minutes[:n]) + sum(between[: n + 1]) for n in range(len(own))]
    moved = sum(changes[a.setup, b.setup] for a, b in pairwise(own))
    return _Day(own, minutes, begins, sum(shortest) + moved, moved)


def _stretched(
    most: list[float], least: list[float], between: list[float], due: list[float], house: House, booked: float | None
) -> list[float]:
    """Minutes each picture is given: as many times its least as booked time, musts and patience allow."""
    if booked is None:
        return least

    def late(minutes: list[float]) -> float:
        ends = [sum(minutes[: n + 1]) + sum(between[: n + 1]) for n in range(len(least))]
        return sum(max(0.0, end - date) for end, date in zip(ends, due, strict=True))

    factor = house.number("shot_time", "stretch")
    while factor > 1.0:
        given = [max(short, floor(2 * min(short * factor, end)) / 2) for short, end in zip(least, most, strict=True)]
        if sum(given) + sum(between) <= booked + 1e-6 and late(given) <= late(least) + 1e-6:
            return given
        factor -= STEP
    return least


def _ends(day: _Day) -> float:
    return day.begins[-1] + day.minutes[-1] if day.listed else 0.0


def _shot(request: Request, cast: Cast, day: _Day, n: int, house: House, booked: float | None) -> dict[str, Any]:
    """One picture as the document has it, its cue still to come."""
    picture, brief = day.listed[n], request.brief
    setup = next(s for s in cast.setups if s["name"] == picture.setup)
    who = [cast.people[w] for w in picture.who]
    way, why = orientations.decided(brief, who, picture.framing)
    if setup["camera"] and brief.orientation == "either" and set(picture.who) == set(cast.members(setup)):
        held = setup["camera"]["orientation"]  # the set-up's own frame is computed for it
        way, why = held, why if held == way else _(ORIENTATION["set"])
    more = house.number("space_for_words", "more_frames") if brief.copy_space in ("left", "right") else 0
    library = pose_cards.library(request.cards)
    upright = any(shot_case.stands(picture, s) for s in who)
    ends = day.begins[n] + day.minutes[n]
    return {
        "n": n + 1,
        "setup": picture.setup,
        "who": list(picture.who),
        "framing": picture.framing,
        "cue": "",
        "last": _last(picture, cast),
        "seat": next((p["seat"] for p in setup["sitters"] if p["label"] in picture.who and p["seat"]), None),
        "frames": frames_for(len(who), house) + ceil(more),
        "must": picture.must,
        "minutes": round(day.minutes[n], 1) if booked else None,
        "words": picture.words,
        "proposed": picture.code == "proposed",
        "key": key(picture.setup, picture.who, picture.words),
        "starts_min": round(day.begins[n], 1) if booked else None,
        "falls_off": bool(booked and ends > booked + 1e-6),
        "orientation": way,
        "orientation_why": why,
        "pose": pose_cards.printed(library[picture.card or pose_cards.kind_of(who, picture.words)], who, upright),
    }  # fmt: skip


def _last(picture: Picture, cast: Cast) -> list[str]:
    """Who is placed last: the small ones among others."""
    small = [w for w in picture.who if is_small(cast.people[w])]
    return small if len(small) < len(picture.who) else []


def last_said(who: Sequence[str]) -> str:
    """That sentence; nothing where nobody is."""
    return _(LAST).format(names=all_of(who)) if who else ""


def _cues(shots: list[dict[str, Any]], day: _Day) -> None:
    """What is said at each picture: its sentence, who is placed last, and with a set-up's first picture
    the base of its card; the other cards are on the shot list itself."""
    said: set[str] = set()
    for shot, picture in zip(shots, day.listed, strict=True):
        parts = [own for own in (picture.words, last_said(shot["last"])) if own]
        if not picture.words or shot["setup"] not in said:
            parts.append(pose_cards.said(shot["pose"]))
        said.add(shot["setup"])
        shot["cue"] = " ".join(parts)


def key(setup: str, who: Iterable[str], words: str) -> str:
    """What a picture is known by from one version of a plan to the next: set-up, people and sentence, as a number."""
    return hashlib.sha256(json.dumps([setup, sorted(who), words]).encode()).hexdigest()[:12]


def known_by(shots: Iterable[dict[str, Any]], people: Mapping[str, str]) -> None:
    """Give each picture the key it keeps when somebody gets another name: `people` are their own keys by name, which
    stand in place of names, in sentences, too."""
    for shot in shots:
        words = names.replaced(shot["words"], {label: f"#{own}" for label, own in people.items()})
        shot["key"] = key(shot["setup"], [people.get(w, w) for w in shot["who"]], words)


def _proposal(picture: Picture) -> dict[str, Any]:
    return {"setup": picture.setup, "who": list(picture.who), "framing": picture.framing, "words": picture.words}
