"""The values of a moved set that can be typed beside its drawing: a row for each thing, a cell for each value.

Belongs here: which values there are, as they stand and as suggested, in the studio's units. Not here: what is to be
expected of them (`live_numbers`), reading what was typed (`forms.live`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from shotplans.planner import hand_aim
from shotplans.sheets import scene
from studio import lengths

Entry = dict[str, Any]
Aims = tuple[tuple[tuple[float, float, float], str], ...]


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


def thing(thing: str) -> str:
    return {"camera": _("Camera"), "background": _("Ground")}[thing]


def rows(now: Entry, was: Entry, units: str, aims: Aims) -> Iterator[Row]:
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
    yield Row(thing("camera"), tuple(_cell(f"camera||{k}", words, a[k], b[k], units) for k, words in keys))
    pair = (now["background"]["distance_m"], was["background"]["distance_m"])
    yield Row(thing("background"), (_cell("background||distance_m", _("behind the mark"), *pair, units),))
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
