"""Reads for the pages of the rules: the planner's rules with the studio's own numbers beside the first ones. Belongs
here: putting table and rows together; not here: setting a number (`actions.rules`)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.translation import gettext_lazy

from shotplans.models import OwnNumber, RuleEdit, in_force, unit_words
from shotplans.planner.rules import INTENTS, LIGHT, PICTURE, RULES, Number

# What the page calls the planner's tables; each in the order its table has, which is the order of asking.
SHELVES = (
    ("light", gettext_lazy("Light"), LIGHT),
    ("picture", gettext_lazy("Camera, pose, people, gear and minutes"), PICTURE),
    ("intents", gettext_lazy("Intents"), INTENTS),
)


@dataclass(frozen=True)
class Line:
    """One number of a rule as it stands in this studio: `own` where the studio set it, `unused` where what it set is
    kept and today's rule cannot take it."""

    name: str
    number: Number
    own: float | None
    unused: float | None

    @property
    def is_own(self) -> bool:
        return self.own is not None

    @property
    def value(self) -> float:
        """What plans are made with."""
        return self.number.value if self.own is None else self.own

    @property
    def unit(self) -> str:
        return unit_words(self.number.unit)


@dataclass(frozen=True)
class Entry:
    """One rule with its numbers; `version` rises with every number of it that is set."""

    code: str
    when: str
    because: str
    source: str
    lines: tuple[Line, ...]
    version: int


@dataclass(frozen=True)
class Shelf:
    """The rules about one subject; `name` is their anchor on the page."""

    name: str
    words: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class Own:
    """A number the studio set itself, and how it came to be so; a row written without the page has no edit."""

    entry: Entry
    line: Line
    edit: RuleEdit | None


@dataclass(frozen=True)
class Rulebook:
    """All rules; `own` is what the studio set, `gone` what it set for numbers that no rule has any more."""

    shelves: tuple[Shelf, ...]
    own: tuple[Own, ...]
    gone: tuple[OwnNumber, ...]

    @property
    def unused(self) -> list[tuple[Entry, Line]]:
        """What the studio set and today's rules cannot take."""
        entries = (entry for shelf in self.shelves for entry in shelf.entries)
        return [(entry, line) for entry in entries for line in entry.lines if line.unused is not None]


def read() -> Rulebook:
    """The whole of it."""
    rows = list(OwnNumber.objects.all())
    entries = _entries(RULES, rows)
    shelves = [Shelf(name, str(words), tuple(entries[code] for code in table)) for name, words, table in SHELVES]
    edits = {(e.rule, e.number): e for e in RuleEdit.objects.select_related("by").order_by("at", "pk")}
    own = (
        Own(entry, line, edits.get((entry.code, line.name)))
        for shelf in shelves
        for entry in shelf.entries
        for line in entry.lines
        if line.is_own
    )
    gone = (row for row in rows if row.known is None and row.value is not None)
    return Rulebook(tuple(shelves), tuple(own), tuple(gone))


def entry(code: str) -> Entry:
    """One rule. KeyError where there is none of that code."""
    return _entries([code], list(OwnNumber.objects.of(code)))[code]


def version_of(rows: Iterable[OwnNumber]) -> int:
    """The version of a rule from all its rows, those of numbers that are gone among them: none is ever taken away."""
    return sum(row.version for row in rows)


def _entries(codes: Iterable[str], rows: list[OwnNumber]) -> dict[str, Entry]:
    used = in_force(rows)
    kept = {(row.rule, row.number): row.value for row in rows}
    found = {}
    for code in codes:
        rule = RULES[code]
        lines = []
        for name, number in rule.numbers.items():
            own = used.get((code, name))
            lines.append(Line(name, number, own, kept.get((code, name)) if own is None else None))
        version = version_of(row for row in rows if row.rule == code)
        found[code] = Entry(code, rule.said_when, rule.said_because, rule.said_source, tuple(lines), version)
    return found
