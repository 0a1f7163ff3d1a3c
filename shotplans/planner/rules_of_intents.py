"""The intents as rules: every band of `intents` as two numbers a studio may set, and the row with those numbers in it.

The rows of `rules.RULES` are derived from the bands, so that no value stands in two places.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Protocol, TypeVar

from shotplans.planner.intents import COUPLE, GROUP, SINGLE, Band, GroupRow, IntentRow, grouped
from shotplans.planner.rule import FROM, TO, Number, Rule
from studio.tongue import noop

# A band's name: what it is in words, the unit in the name of its numbers and as printed, and the range to set it in.
BANDS: dict[str, tuple[str, str, str, float, float]] = {
    "nose": (noop("key off the nose"), "deg", "deg", 0, 150),
    "camera": (noop("key off the lens"), "deg", "deg", 0, 150),
    "height": (noop("height angle of the key"), "deg", "deg", 0, 80),
    "source": (noop("source seen from the face"), "deg", "deg", 1, 150),
    "fill": (noop("fill and bounce"), "stops", "stops under the key", 0, 6),
    "ground": (noop("lightness of the ground"), "lightness", "L*", 0, 100),
    "accent": (noop("accent"), "stops", "stops under the key", -1, 6),
    "relief": (noop("relief on the front of the face"), "stops", "stops", 0, 4),
}
COUPLE_BANDS = ("nose", "camera", "source")
GROUP_BANDS = ("nose", "camera", "height", "source", "fill")
FACES = "faces_stops"
PEOPLE = {"small": noop("A group, three to five people"), "large": noop("A group, six people and more")}
ALONE = {
    "soft": noop("One person, soft"), "even": noop("One person, even"), "natural": noop("One person, natural"),
    "bold": noop("One person, bold"), "character": noop("One person, character"),
    "bright": noop("One person, bright"),
}  # fmt: skip
PAIR = {
    "soft": noop("Two people, soft"), "even": noop("Two people, even"), "natural": noop("Two people, natural"),
    "bold": noop("Two people, bold"), "character": noop("Two people, character"),
    "bright": noop("Two people, bright"),
}  # fmt: skip

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
        what, _name, unit, least, most = BANDS[band]
        low, high = _pair(band)
        yield low, Number(what, wanted.low, least, most, unit, FROM)
        yield high, Number(what, wanted.high, least, most, unit, TO)
    yield FACES, Number(noop("faces alike within"), row.faces_stops, 0.1, 2, "stops")


def _rules() -> Iterator[tuple[str, Rule]]:
    for name, row in SINGLE.items():
        because, blanks = noop("An intent is a row of targets; this one means: {row}."), {"row": row.sentence}
        rule = Rule(ALONE[name], because, dict(_numbers(row, tuple(BANDS))), blanks=blanks)
        yield f"intent_{name}", rule
    for name, row in COUPLE.items():
        because = noop("Two people share one key, so it stands farther off; the rest is the intent's own.")
        yield f"intent_couple_{name}", Rule(PAIR[name], because, dict(_numbers(row, COUPLE_BANDS)))
    for size, group in GROUP.items():
        because = noop("For several people the place of the key makes the faces alike, not its power.")
        yield f"intent_group_{size}", Rule(PEOPLE[size], because, dict(_numbers(group, GROUP_BANDS)))


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
