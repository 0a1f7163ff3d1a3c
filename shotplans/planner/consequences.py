"""What is known of people and picture, as consequences that have no other home in the plan; and whether the time holds.

Belongs here: the lists the document takes (`consequences`, `retouch`, what to bring) and the one limit of time.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shotplans.planner import rules
from shotplans.planner.consequence import Asked, Consequence, wishes
from shotplans.planner.consequences_of_pictures import of_pictures
from shotplans.planner.consultation import extra_minutes, least_minutes, of_sitters
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem
from shotplans.planner.request import Request
from shotplans.planner.shotlist import Listed
from shotplans.planner.words.consequences import BROUGHT, RETOUCH
from studio.tongue import gettext as _

Shots = Sequence[dict[str, Any]]


def _found(asked: Asked) -> list[Consequence]:
    return [*of_sitters(asked), *of_pictures(asked)]


def brought(request: Request, solved: Sequence[Solved]) -> list[tuple[str, int]]:
    """What the consequences put on the packing list beside the kit: the word and how many."""
    codes = {c.code for c in _found(Asked(request, tuple(solved), rules.house(request.rules)))}
    words = dict.fromkeys(word for code, listed in BROUGHT.items() if code in codes for word in listed)
    props = dict.fromkeys(str(p.label) for p in request.brief.props if p.label)
    return [(word, 1) for word in (*words, *props)]


def consequences(request: Request, solved: Sequence[Solved], day: Listed) -> list[dict[str, Any]]:
    """Rows kind, says, number, unit, rule, from: each a thing to do, in the order people, picture, minutes."""
    asked = Asked(request, tuple(solved), rules.house(request.rules))
    found = _found(asked)
    extra = extra_minutes(asked)
    if extra:
        found.append(_minutes(asked, day, extra))
    printed: dict[str, dict[str, Any]] = {}
    for row in (c.printed() for c in found):
        first = printed.setdefault(row["says"], row)  # two set-ups may ask the same
        first["from"] = list(dict.fromkeys([*first["from"], *row["from"]]))
    return list(printed.values())


def _need(asked: Asked, day: Listed) -> float:
    """Minutes the pictures, the changes of set-up and the notes need together."""
    return round(max(day.least + extra_minutes(asked), least_minutes(asked)), 1)


def _minutes(asked: Asked, day: Listed, extra: float) -> Consequence:
    booked = asked.request.brief.minutes
    values = {
        "extra": f"{extra:g}", "need": f"{_need(asked, day):g}",
        "booked": _(" of the {booked} booked").format(booked=f"{booked:g}") if booked else "",
    }  # fmt: skip
    paths = ("brief.minutes",)
    return Consequence("minutes", "time", "pace", paths, extra, "min", values)


def problems(request: Request, day: Listed) -> list[Problem]:
    """The limit of time: pictures, changes of set-up and notes against the minutes booked, and what falls off."""
    asked = Asked(request, (), rules.house(request.rules))
    booked = request.brief.minutes
    need = _need(asked, day)
    if not booked or need <= booked + 1e-9:
        return []
    short = round(need - booked, 1)
    pace = asked.number("pace", "shot_minutes")
    fewer = min(len(day.shots), -(-short // pace))
    off = _left_off(day.off)
    values = {"need": f"{need:g}", "booked": f"{booked:g}", "fewer": f"{fewer:.0f}", "off": off}
    return [Problem(None, "time", short, "min", "time_short", values)]


def _left_off(numbers: Sequence[int]) -> str:
    said = _(", and no time is left for {numbers} of the list")
    return said.format(numbers=", ".join(map(str, numbers))) if numbers else ""


def retouch(request: Request, shots: Shots) -> list[dict[str, Any]]:
    """How far each picture is worked on afterwards: as agreed; light, to be asked, where a blemish is wished softer."""
    level = str(request.brief.retouch)
    people = {s.label: s for s in request.sitters}
    found = []
    for shot in shots:
        today = any(wishes(people[w], "softer", "blemish") for w in shot["who"])
        if level == "none" and not today:
            continue
        agreed = level != "none"
        found.append({"shot": shot["n"], "level": level if agreed else "light", "why": _(RETOUCH[agreed])})
    return found
