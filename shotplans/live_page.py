"""Reads for the set that is moved by hand: one set-up made ready once, and each answer as rows, numbers and drawing.

Belongs here: keeping what a plan's set-up is read back to (a plan is frozen, so it is kept by its row), and wording an
answer beside the suggestion. Not here: what a gesture does (`planner.by_hand`), what follows (`planner.forecast`).
"""

from __future__ import annotations

import json
from collections import OrderedDict
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any

from django.template.loader import render_to_string
from django.utils.translation import gettext as _

from shotplans import live_numbers, live_rows
from shotplans.live_numbers import Number
from shotplans.live_rows import Aims, Cell, Row
from shotplans.models import Plan
from shotplans.planner import forecast, hand_plan
from shotplans.planner.forecast import Base, Change, Forecast
from shotplans.sheets import live, measures, scene
from shotplans.sheets.live import Layers, Sheet
from shotplans.sheets.measures import Measures
from studio import tongue
from studio.models import Profile

Entry = dict[str, Any]
MOST_READY = 24  # set-ups kept in this process: a day's, and a few that others have open
_READY: OrderedDict[tuple[Any, ...], Ready] = OrderedDict()


@dataclass(frozen=True)
class Ready:
    """A set-up ready to be moved: as suggested, drawn as suggested, and the changes that the plan itself has."""

    base: Base
    sheet: Sheet
    aims: Aims  # as the plan has it
    own: tuple[Change, ...]
    said: dict[str, list[tuple[str, str]]] = field(default_factory=dict)  # numbers as suggested
    shown: dict[str, Moving] = field(default_factory=dict)  # as the plan has it, by how ratios are written


@dataclass(frozen=True)
class Answer:
    """A moved set as its page shows it."""

    taken: tuple[Change, ...]
    layers: Layers
    rows: tuple[Row, ...]
    numbers: tuple[Number, ...]
    problems: tuple[Entry, ...]
    own_room: bool

    @property
    def changes(self) -> str:
        """The state as the page keeps it and sends it back."""
        return json.dumps([[c.thing, c.name, c.key, c.value] for c in self.taken])

    @property
    def ruler(self) -> str:
        return live.written(self.layers.laid)

    @property
    def cells(self) -> dict[str, Cell]:
        return {cell.field: cell for row in self.rows for cell in row.cells}

    @property
    def says(self) -> str:
        """The whole of it in a sentence or two, for who hears the page."""
        changed = [(row.name, [c.said for c in row.cells if c.suggested]) for row in self.rows]
        moved = [f"{name}: {', '.join(said)}" for name, said in changed if said]
        limits = ", ".join(dict.fromkeys(p["limit"] for p in self.problems))
        broken = _("Limit broken: %(limits)s.") % {"limits": limits} if limits else _("No limit is broken.")
        return f"{'; '.join(moved)}. {broken}" if moved else _("As suggested.") + f" {broken}"


@dataclass(frozen=True)
class Moving:
    """What the plan's page needs of one set-up: its number and its first answer, drawn; `rows` of its table as an
    element where they are drawn already."""

    number: int
    answer: Answer
    drawing: str
    rows: str = ""


def ready(plan: Plan, number: int, units: str) -> Ready | None:
    """A set-up of a plan, by its place in it from 1; None where nothing stands there. Kept in this process."""
    key = (plan.pk, plan.made_at, plan.fingerprint, plan.blanked_at, number, units, tongue.language())
    known = _READY.get(key)
    if known is not None:
        with suppress(KeyError):  # another thread may have let it go meanwhile
            _READY.move_to_end(key)
        return known
    if not 1 <= number <= len(plan.setups):
        return None
    name = plan.setups[number - 1]["name"]
    was = hand_plan.suggested(plan.document, name)
    try:
        assert was is not None
        base = forecast.base(plan.filled_request, was)
    except (forecast.Refused, ValueError):
        return None
    seen = scene.read(was, base.request, measures.of(units))
    assert seen is not None
    own = hand_plan.changes(plan.document, name)
    found = Ready(base, Sheet(seen, scene.in_turn(was)), forecast.aims(base, own), own)
    _READY[key] = found
    if len(_READY) > MOST_READY:
        _READY.popitem(last=False)
    return found


def moving(plan: Plan, profile: Profile) -> dict[int, Moving]:
    """Every set-up of a plan that can be moved, as the plan has it: nothing is reckoned anew, and what was drawn of it
    once stands as long as it is kept ready."""
    found = {}
    for number, entry in enumerate(plan.setups, start=1):
        prepared = ready(plan, number, profile.units)
        if prepared is None:
            continue
        shown = prepared.shown.get(profile.ratio_convention)
        if shown is None:
            shown = prepared.shown[profile.ratio_convention] = _as_planned(plan, number, entry, prepared, profile)
        found[number] = shown
    return found


def _as_planned(plan: Plan, number: int, entry: Entry, prepared: Ready, profile: Profile) -> Moving:
    problems = [p for p in plan.document["problems"] if p["setup"] == entry["name"]]
    found = answered(prepared, Forecast(prepared.own, entry, tuple(problems), prepared.aims), profile)
    drawing = drawn(number, entry["name"], found.layers)
    table = {"rows": found.rows, "imperial": profile.units == "imperial"}
    return Moving(number, found, drawing, render_to_string("shotplans/_live_table.html", table))


def answer(
    of: Ready, changes: Sequence[Change], gesture: Change | None, profile: Profile, *, settled: bool = True
) -> Answer:
    """Raises forecast.Refused for what cannot be set. Not `settled`: a hand is still moving it."""
    return answered(of, forecast.answer(of.base, changes, gesture), profile, settled=settled)


def answered(of: Ready, found: Forecast, profile: Profile, *, settled: bool = True) -> Answer:
    ways, setup = measures.of(profile.units), found.setup
    seen = scene.read(setup, of.base.request, ways)
    assert seen is not None
    layers = of.sheet.layers(seen, settled=settled)
    return Answer(
        found.changes, layers, tuple(live_rows.rows(setup, of.base.entry, profile.units, found.aims)),
        tuple(_numbers(setup, of, profile.ratio_convention, ways)), found.problems,
        layers.room is of.sheet.room,
    )  # fmt: skip


def drawn(number: int, name: str, layers: Layers) -> str:
    """The drawing with its layers and grips, as an element of the page."""
    context = {
        "n": number, "name": name, "layers": layers, "box": box(layers),
        "grips": [(grip, _grip(grip)) for grip in layers.grips], "ruler": live.written(layers.laid),
    }  # fmt: skip
    return render_to_string("shotplans/_live_drawing.html", context)


def box(layers: Layers) -> str:
    """What of the sheet is shown, as the `viewBox` of its drawing."""
    left, right = layers.across
    return f"{left:.1f} 0 {right - left:.1f} {live.SIZE_MM[1]:.0f}"


def read(text: str) -> tuple[Change, ...]:
    """The state as the page sent it. Raises ValueError for anything else."""
    rows = json.loads(text or "[]")
    if not (isinstance(rows, list) and all(isinstance(r, list) and len(r) == 4 for r in rows)):
        raise ValueError("not a list of changes")
    if not all(isinstance(part, str) for row in rows for part in row):
        raise ValueError("not changes")
    return tuple(Change(thing, name, key, value, free=True) for thing, name, key, value in rows)


def _grip(grip: live.Grip) -> str:
    thing = {"light": _("Light %(name)s"), "sitter": "%(name)s"}.get(grip.thing) or live_rows.thing(grip.thing)
    view = _("on the floor") if grip.view == live.PLAN else _("height")
    return f"{thing % {'name': grip.name}}, {view}"


def _numbers(now: Entry, of: Ready, convention: str, ways: Measures) -> Iterator[Number]:
    key = f"{convention} {tongue.language()}"
    if key not in of.said:
        of.said[key] = list(live_numbers.numbers(of.base.entry, convention, ways))
    for a, b in zip(live_numbers.numbers(now, convention, ways), of.said[key], strict=True):
        yield Number(a[0], a[1], b[1] if a[1] != b[1] else "")
