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

from shotplans import plan_page
from shotplans.models import Plan
from shotplans.planner import forecast, hand_aim, hand_plan
from shotplans.planner.forecast import Base, Change, Forecast
from shotplans.sheets import live, measures, scene, wording
from shotplans.sheets.live import Layers, Sheet
from shotplans.sheets.measures import Measures
from studio import lengths, tongue
from studio.models import Profile

Entry = dict[str, Any]
Aims = tuple[tuple[tuple[float, float, float], str], ...]
MOST_READY = 24  # set-ups kept in this process: a day's, and a few that others have open
MOST_FACES = 3  # with more, their ends and counts
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
class Cell:
    """One value that can be typed: its field's name, what it is, as it stands, as suggested where that differs."""

    field: str
    label: str
    value: str
    suggested: str
    step: str
    unit: str = ""
    options: tuple[tuple[str, str], ...] = ()  # values to choose from, with their words, where none is typed

    @property
    def said(self) -> str:
        if self.options:
            return f"{self.label} {dict(self.options)[self.value]}"
        unit = self.unit if self.unit in ("°", "") else f" {self.unit}"
        return f"{self.label.removesuffix(f', {self.unit}')} {self.value}{unit}"

    @property
    def key(self) -> tuple[str, str, str]:
        thing, name, key = self.field.split("|")
        return thing, name, key


@dataclass(frozen=True)
class Row:
    """A thing of the set with its values."""

    name: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class Number:
    """One number to expect, with the suggested one where it differs."""

    name: str
    value: str
    was: str


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
        found.changes, layers, tuple(_rows(setup, of.base.entry, profile.units, found.aims)),
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
    thing = {"light": _("Light %(name)s"), "sitter": "%(name)s"}.get(grip.thing) or _thing(grip.thing)
    view = _("on the floor") if grip.view == live.PLAN else _("height")
    return f"{thing % {'name': grip.name}}, {view}"


def _thing(thing: str) -> str:
    return {"camera": _("Camera"), "background": _("Ground")}[thing]


def _rows(now: Entry, was: Entry, units: str, aims: Aims) -> Iterator[Row]:
    for a, b in zip(now["lights"], was["lights"], strict=True):
        keys = [
            ("distance_m", "distance_m", _("distance")), ("bearing_deg", "bearing_deg", _("bearing")),
            ("height_m", "centre_height_m", _("height")),
        ]  # fmt: skip
        if b["head"] is not None:
            keys.append(("power_below_full_stops", "power_below_full_stops", _("stops below full")))
        cells = [_cell(f"light|{b['letter']}|{key}", words, a[part], b[part], units) for key, part, words in keys]
        yield Row(f"{b['letter']}, {b['role']}", (*cells, *_aims(a, b, aims)))
    a, b = now["camera"], was["camera"]
    keys = [("distance_m", _("distance")), ("height_m", _("height"))]
    yield Row(_thing("camera"), tuple(_cell(f"camera||{k}", words, a[k], b[k], units) for k, words in keys))
    pair = (now["background"]["distance_m"], was["background"]["distance_m"])
    yield Row(_thing("background"), (_cell("background||distance_m", _("behind the mark"), *pair, units),))
    for a, b in zip(now["sitters"], was["sitters"], strict=True):
        cells = []
        if not scene.in_turn(was):
            for key, at, words in (("right_m", 0, _("to camera right")), ("toward_camera_m", 2, _("to the camera"))):
                values = (round(a["face_m"][at], 2), round(b["face_m"][at], 2))
                cells.append(_cell(f"sitter|{b['label']}|{key}", words, *values, units))
        nose = (a["nose_bearing_deg"], b["nose_bearing_deg"])
        cells.append(_cell(f"sitter|{b['label']}|nose_bearing_deg", _("nose"), *nose, units))
        yield Row(str(b["label"]), tuple(cells))


def _aims(now: Entry, was: Entry, named: Aims) -> Iterator[Cell]:
    """Where a light points: by name, and how far past the middle it is turned."""
    options = {_point(row["aim_m"]): str(row["aim_words"]) for row in (was, now)}
    options |= {_point(at): words for at, words in named if _point(at) not in options}
    value, before = _point(now["aim_m"]), _point(was["aim_m"])
    suggested = options[before] if before != value else ""
    yield Cell(f"light|{was['letter']}|aim_m", _("points"), value, suggested, "", options=tuple(options.items()))
    turns = [hand_aim.turn_deg(row["position_m"], row["aim_m"]) for row in (now, was)]
    sides = _("turned to camera right") if hand_aim.on_axis(now["position_m"]) else _("turned to the camera")
    yield _cell(f"light|{was['letter']}|turn_deg", sides, turns[0], turns[1], "metric")


def _point(at: Sequence[float]) -> str:
    return " ".join(f"{v + 0.0:.2f}" for v in at)


def _cell(field: str, words: str, now: float, was: float, units: str) -> Cell:
    shown, suggested = (_shown(field, value, units) for value in (now, was))
    unit = "°" if field.endswith("_deg") else "" if field.endswith("_stops") else _("m")
    if units == "imperial" and field.endswith("_m"):
        unit = ""
    step = {"°": "5", "": "0.1"}.get(unit, "0.05")
    label = f"{words}, {unit}" if unit else words
    return Cell(field, label, shown, suggested if suggested != shown else "", step, unit)


def _shown(field: str, value: float, units: str) -> str:
    if field.endswith("_deg"):
        return f"{value:.0f}"
    if field.endswith("_stops"):
        return f"{value:.1f}"
    return lengths.shown(value, units) if units == "imperial" else f"{value:.2f}"


def _numbers(now: Entry, of: Ready, convention: str, ways: Measures) -> Iterator[Number]:
    key = f"{convention} {tongue.language()}"
    if key not in of.said:
        of.said[key] = list(_all_numbers(of.base.entry, convention, ways))
    for a, b in zip(_all_numbers(now, convention, ways), of.said[key], strict=True):
        yield Number(a[0], a[1], b[1] if a[1] != b[1] else "")


def _all_numbers(entry: Entry, convention: str, ways: Measures) -> Iterator[tuple[str, str]]:
    """Name and value; the same names in the same order for every state of a set-up."""
    plain = {**entry["expected"], "setting_uncertainty_stops": None}
    yield from plan_page.expected_rows(plain, convention, ways)
    for light in entry["lights"]:
        alone = next((s for s in entry["meter_round"] if s["on"] == [light["letter"]]), None)
        words = _("%(n).0f° above the eyes") % {"n": light["height_angle_deg"]}
        if alone:
            words += _(", alone %(reading)s") % {"reading": alone["target"]["shown"]}
        if light["power_below_full_stops"] is not None:
            words += f", {wording.power(light['dial'], light['power_below_full_stops'])}"
        words += f", {light['stand'] or _('no stand holds it')}"
        yield _("Light %(letter)s") % {"letter": light["letter"]}, words
    ground = entry["background"]
    yield _("Ground"), f"L* {ground['lightness']:.0f}, {ways.length(ground['distance_m'])}"
    faces = entry["expected"]["per_sitter"]
    yield from _many(faces) if len(faces) > MOST_FACES else _few(faces)


def _few(faces: list[Entry]) -> Iterator[tuple[str, str]]:
    for sitter in faces:
        found = plan_page.face(sitter)
        yield _("Relief, %(who)s") % {"who": found.label}, found.relief
        yield _("Catchlights, %(who)s") % {"who": found.label}, "; ".join(found.catchlights)
        if found.glasses:
            yield _("Glasses, %(who)s") % {"who": found.label}, "; ".join(found.glasses)


def _many(faces: list[Entry]) -> Iterator[tuple[str, str]]:
    """Of a group the two ends and the counts: face by face it stands in the kept plan."""
    least, most = (end(faces, key=lambda f: f["relief_stops"]) for end in (min, max))
    ends = [f"{f['relief_stops']:.2f} ({f['label']})" for f in (least, most)]
    yield _("Relief, least and most"), ", ".join(ends)
    for letter in dict.fromkeys(str(c["light"]) for f in faces for c in f["catchlights"]):
        both = sum(sum(c["seen"] for c in f["catchlights"] if c["light"] == letter) == 2 for f in faces)
        words = _("both eyes of %(n)d of %(of)d") % {"n": both, "of": len(faces)}
        yield _("Catchlights of %(letter)s") % {"letter": letter}, words
    margins = [(g["margin_deg"], f["label"]) for f in faces for g in f["glasses"]]
    if margins:
        least_deg, label = min(margins)
        yield _("Glasses, the nearest to glare"), _("%(n).0f° clear (%(who)s)") % {"n": least_deg, "who": label}
