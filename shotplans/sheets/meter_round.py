"""The meter card as content: the readings of one set-up in the order they are taken, in words and numbers.

Belongs here: which reading is of which part of the round, and what is off for it. All targets are the plan's own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from shotplans.light.exposure import shutter_label
from shotplans.planner import names
from shotplans.planner.steps import face_place
from shotplans.planner.words import joined
from shotplans.sheets import scene, wording
from shotplans.sheets.content import Heading
from studio.tongue import gettext as _

Entry = Mapping[str, Any]
WHITE = 95.0  # L* from which a ground has to be even


@dataclass(frozen=True, kw_only=True)
class Step:
    """One reading: what is on and off, where the meter stands, where its dome looks, what it should say."""

    number: int
    lights: str
    place: str
    target: str
    tolerance: str


@dataclass(frozen=True)
class Face:
    """The reading at one face of several."""

    number: int
    label: str
    target: str


@dataclass(frozen=True)
class FaceRow:
    """Faces of one row from camera left."""

    name: str
    faces: tuple[Face, ...]


@dataclass(frozen=True)
class GroundGrid:
    """Nine places of a ground that has a light of its own: what each should read, and how even it should be."""

    target: str
    even: str


@dataclass(frozen=True, kw_only=True)
class MeterCard:
    """Everything on the card of one set-up; without a usable light there is no card."""

    heading: Heading
    setup: str
    number: int
    of: int
    camera: tuple[tuple[str, str], ...]
    alone: tuple[Step, ...]
    setting: tuple[Step, ...]
    all_on: tuple[Step, ...]
    faces: tuple[FaceRow, ...]
    faces_tolerance: str
    ground: GroundGrid | None


def cards(document: Entry, heading: Heading) -> tuple[MeterCard, ...]:
    """One card for each set-up that has a light, in the order to shoot."""
    setups = document["setups"]
    return tuple(
        _card(setup, heading, n, len(setups)) for n, setup in enumerate(setups, start=1) if setup["camera"] is not None
    )


def _card(setup: Entry, heading: Heading, number: int, of: int) -> MeterCard:
    camera, round_ = setup["camera"], setup["meter_round"]
    setting = next(step["step"] for step in round_ if step["sets_camera"])
    at_faces = {} if scene.in_turn(setup) else _at_faces(setup, setting)
    faces = [step for step in round_ if step["step"] > setting and step["place"] in at_faces]
    all_on = [step for step in round_ if step["step"] > setting and step not in faces]
    return MeterCard(
        heading=heading,
        setup=str(setup["name"]),
        number=number,
        of=of,
        camera=(
            (_("aperture"), camera["nearest_third"]), (_("shutter"), shutter_label(camera["shutter_s"])),
            ("ISO", f"{camera['iso']:g}"),
        ),
        alone=tuple(_step(step, setup) for step in round_ if step["step"] < setting),
        setting=tuple(_step(step, setup) for step in round_ if step["step"] == setting),
        all_on=tuple(_step(step, setup) for step in all_on),
        faces=_faces(faces, at_faces),
        faces_tolerance=_tolerance(faces[0]) if faces else "",
        ground=_ground(setup),
    )  # fmt: skip


def _lights(on: list[str], off: list[str]) -> str:
    """Which are on and which are not, in a sentence."""
    names, others = joined.both(on), joined.both(off)
    if not off:
        return _("{names} on.").format(names=names)
    said = _("{names} alone, {others} off and flagged.") if len(on) == 1 else _("{names} on, {others} off and flagged.")
    return said.format(names=names, others=others)


def _at_faces(setup: Entry, setting: int) -> dict[str, Entry]:
    """Whose face each place of the round is: told in the words of today, or, of a plan frozen in another language, by
    the longest name that stands in them."""
    placed = {face_place(str(s["label"])): s for s in setup["sitters"]}
    sets = next(step for step in setup["meter_round"] if step["step"] == setting)
    for step in setup["meter_round"]:
        place = str(step["place"])
        if step["step"] > setting and step["on"] == sets["on"] and place not in placed:
            named = [s for s in setup["sitters"] if names.has(place, str(s["label"]))]
            if named:
                placed[place] = max(named, key=lambda s: len(s["label"]))
    return placed


def _step(step: Entry, setup: Entry) -> Step:
    on = [str(letter) for letter in step["on"]]
    off = [x["letter"] for x in setup["lights"] if x["head"] is not None and x["letter"] not in on]
    black_or_white = [x for x in setup["lights"] if x["panel"] is not None] or setup["blocks"]
    lights = _lights(on, off)
    if black_or_white:
        panels = _("Panels in.") if step["panels"] == "in" else _("Panels out.")
        lights = f"{lights} {panels}"
    dome = (
        _("dome recessed")
        if step["dome"] == "recessed"
        else _("dome to the {toward}").format(toward=wording.toward(step["toward"]))
    )
    place = f"{str(step['place'])[:1].upper()}{str(step['place'])[1:]}, {dome}."
    return Step(
        number=step["step"], lights=lights, place=place, target=step["target"]["shown"], tolerance=_tolerance(step)
    )  # fmt: skip


def _tolerance(step: Entry) -> str:
    return f"±{step['tolerance_stops']:.1f}"


def _faces(steps: Sequence[Entry], people: Mapping[str, Entry]) -> tuple[FaceRow, ...]:
    """As the camera sees them: the back row first, each from camera left."""
    placed = sorted(steps, key=lambda s: (-people[s["place"]]["row"], people[s["place"]]["face_m"][0]))
    rows = [(row, list(found)) for row, found in groupby(placed, lambda s: people[s["place"]]["row"])]
    return tuple(
        FaceRow(
            _row_name(n, len(rows)),
            tuple(Face(s["step"], str(people[s["place"]]["label"]), s["target"]["shown"]) for s in found),
        )
        for n, (_, found) in enumerate(rows)
    )


def _row_name(from_back: int, of: int) -> str:
    if of == 1:
        return _("From camera left")
    if from_back == 0:
        return _("Back row")
    return _("Front row") if from_back == of - 1 else _("Row {n}").format(n=of - from_back)


def _ground(setup: Entry) -> GroundGrid | None:
    own = any(light["role"] == "background" for light in setup["lights"])
    if not own and setup["background"]["lightness"] < WHITE:
        return None
    words = wording.beside_setting(setup["background"]["reading_below_setting_stops"]) or _("the setting")
    even = (setup["expected"].get("ground") or {}).get("evenness_stops")
    return GroundGrid(words, "" if even is None else f"{even:.1f}")
