"""The hazard walk before the sitters come in: four ticks with this plan's own numbers. Belongs here: what each tick
means. Not here: who ticked it, the page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from shotplans.sheets.measures import METRIC, Measures
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
CODES = ("cables", "weights", "exits", "seats")
NAMES = {"cables": noop("Cables"), "weights": noop("Weights"), "exits": noop("Exits"), "seats": noop("Seats")}


@dataclass(frozen=True)
class Check:
    """One tick: its name, what it means here."""

    code: str
    name: str
    says: str


def checks(setup: Entry, request: Entry, measures: Measures = METRIC) -> tuple[Check, ...]:
    """The four, in the order one walks: floor, stands, doors, seats. Weights and seats name what this set-up has."""
    said = {
        "cables": _("Flat, taped or covered, off the sitters' path, a loop at each stand's foot.") + _circuits(setup),
        "weights": _weights(setup, measures),
        "exits": _(
            "Doors, extinguisher and the way to the set free; the first-aid kit in sight; nothing loose overhead."
        ),
        "seats": _seats(setup, request, measures),
    }
    return tuple(Check(code, _(NAMES[code]), said[code]) for code in CODES)


def _circuits(setup: Entry) -> str:
    load = ((setup.get("expected") or {}).get("load") or ()) if setup["camera"] else ()
    fed = [
        _("{letters} on {circuit}").format(letters=", ".join(row["letters"]), circuit=row["circuit"])
        for row in load
        if row["letters"]
    ]
    return f" {'; '.join(fed)}." if fed else ""


def _weights(setup: Entry, measures: Measures) -> str:
    wanted = [(x["letter"], float(x.get("sandbag_kg") or 0.0), x.get("arm_m")) for x in setup["lights"] if x["stand"]]
    bags = ", ".join(
        _("{letter} {mass} at least").format(letter=letter, mass=measures.mass(kg)) for letter, kg, _arm in wanted if kg
    )
    boomed = [letter for letter, _kg, arm in wanted if arm]
    found = [
        _("A leg under each load, a bag on each column: {bags}.").format(bags=bags)
        if bags
        else _("A leg under each load, a bag on each column.")
    ]
    if boomed:
        found.append(
            _("Boom {letters}: counterweight and safety cord on, its end flagged.").format(letters=", ".join(boomed))
        )
    return " ".join(found)


def _seats(setup: Entry, request: Entry, measures: Measures) -> str:
    kit = {s["id"]: s for s in request["kit"].get("seats") or ()}
    used = list(dict.fromkeys(s["seat"] for s in setup["sitters"] if s["seat"]))
    found = _("Firm, on a dry floor, nothing to step over.")
    if used:
        named = [_seat(code, kit.get(code, {}), measures) for code in used]
        return f"{found} {'; '.join(named)}."
    return f"{found} {_('Nobody sits here; a chair stands ready.')}"


def _seat(code: str, seat: Entry, measures: Measures) -> str:
    high = float(seat.get("height_m") or 0.0)
    short = measures.near(high) if measures.is_imperial else f"{100 * high:.0f} cm"
    said = _("{seat} {height} high").format(seat=code, height=short) if high else code
    return _("{seat}, with arms").format(seat=said) if seat.get("arms") else said
