"""The intents as rules: every band of `intents` as two numbers a studio may set, and the row with those numbers in it.

The rows of `rules.RULES` are derived from the bands, so that no value stands in two places.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Protocol, TypeVar

from shotplans.planner.intents import COUPLE, GROUP, SINGLE, Band, GroupRow, IntentRow, grouped
from shotplans.planner.rule import Number, Rule

# A band's name: what it is in words, the unit in the name of its numbers and as printed, and the range to set it in.
BANDS: dict[str, tuple[str, str, str, float, float]] = {
    "nose": ("key off the nose", "deg", "deg", 0, 150),
    "camera": ("key off the lens", "deg", "deg", 0, 150),
    "height": ("height angle of the key", "deg", "deg", 0, 80),
    "source": ("source seen from the face", "deg", "deg", 1, 150),
    "fill": ("fill and bounce", "stops", "stops under the key", 0, 6),
    "ground": ("lightness of the ground", "lightness", "L*", 0, 100),
    "accent": ("accent", "stops", "stops under the key", -1, 6),
    "relief": ("relief on the front of the face", "stops", "stops", 0, 4),
}
COUPLE_BANDS = ("nose", "camera", "source")
GROUP_BANDS = ("nose", "camera", "height", "source", "fill")
FACES = "faces_stops"
PEOPLE = {"small": "three to five people", "large": "six people and more"}

Row = TypeVar("Row", IntentRow, GroupRow)


class Numbers(Protocol):
    """The rules as a studio keeps them: a rule's number by its name."""

    def number(self, rule: str, number: str) -> float: ...


def _pair(band: str) -> tuple[str, str]:
    unit = BANDS[band][1]
    return f"{band}_low_{unit}", f"{band}_high_{unit}"


def _numbers(row: IntentRow | GroupRow, bands: tuple[str, ...]) -> Iterator[tuple[str, Number]]:
    for band in bands:
        wanted: Band | None = getattr(row, band)
        if wanted is None:
            continue
        words, _, unit, least, most = BANDS[band]
        low, high = _pair(band)
        yield low, Number(f"{words}, from", wanted.low, least, most, unit)
        yield high, Number(f"{words}, to", wanted.high, least, most, unit)
    yield FACES, Number("faces alike within", row.faces_stops, 0.1, 2, "stops")


def _rules() -> Iterator[tuple[str, Rule]]:
    for name, row in SINGLE.items():
        because = f"An intent is a row of targets; this one means: {row.sentence}."
        yield f"intent_{name}", Rule(f"One person, {name}", because, dict(_numbers(row, tuple(BANDS))))
    for name, row in COUPLE.items():
        because = "Two people share one key, so it stands farther off; the rest is the intent's own."
        yield f"intent_couple_{name}", Rule(f"Two people, {name}", because, dict(_numbers(row, COUPLE_BANDS)))
    for size, group in GROUP.items():
        because = "For several people the place of the key makes the faces alike, not its power."
        when = f"A group, {PEOPLE[size]}"
        yield f"intent_group_{size}", Rule(when, because, dict(_numbers(group, GROUP_BANDS)))


INTENTS: dict[str, Rule] = dict(_rules())


def _with(row: Row, rule: str, bands: tuple[str, ...], house: Numbers) -> Row:
    own: dict[str, Band | float] = {FACES: house.number(rule, FACES)}
    for band in bands:
        if getattr(row, band) is not None:
            low, high = (house.number(rule, name) for name in _pair(band))
            own[band] = Band(low, high)
    return replace(row, **own)  # type: ignore[arg-type]


def single(intent: str, house: Numbers) -> IntentRow:
    """The targets of an intent for one person, as this studio keeps them."""
    return _with(SINGLE[intent], f"intent_{intent}", tuple(BANDS), house)


def row_for(intent: str, people: int, house: Numbers) -> IntentRow:
    """The targets for an intent and a number of people in the picture at once, as this studio keeps them.

    A character light is not for more than three: the caller offers bold and says so.
    """
    row = single(intent, house)
    if people == 1:
        return row
    if people == 2:
        couple = replace(row, **{band: getattr(COUPLE[intent], band) for band in COUPLE_BANDS})
        return _with(couple, f"intent_couple_{intent}", COUPLE_BANDS, house)
    size = "large" if people >= house.number("group_large", "people") else "small"
    return grouped(row, _with(GROUP[size], f"intent_group_{size}", GROUP_BANDS, house))
