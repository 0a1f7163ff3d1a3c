"""A list of names as somebody pastes or sends it. Belongs here: taking it apart, one person a line, with every fault
said by its line. Pure: no database, no framework. Not here: the order people get (`rota`), keeping them.

A line is a name alone, "Name <address>", or fields parted by tabs, semicolons or commas; a first line of headings may
say which is which.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

LONGEST_NAME = 60
LONGEST_LINE = 1000
_ADDRESS = re.compile(r"[^\s@<>,;]+@[^\s@<>,;]+\.[^\s@<>,;]+")
_NAMED_ADDRESS = re.compile(r"(?P<name>[^<>]*[^<>\s])\s*<\s*(?P<address>[^<>\s]*)\s*>")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
SEPARATORS = ("\t", ";", ",")


@dataclass(frozen=True)
class Line:
    """One person as written: `wishes` are the words' own keys, `place` the number asked for."""

    number: int
    name: str
    email: str = ""
    wishes: frozenset[str] = frozenset()
    place: int | None = None


@dataclass(frozen=True)
class Fault:
    """What is wrong with one line: which sentence and what stands in it; line 0 is the whole list."""

    number: int
    code: str
    values: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True)
class NameList:
    """The people of a list in its order, and every fault; `headed` where its first line was headings."""

    lines: Sequence[Line]
    faults: Sequence[Fault]
    headed: bool = False


@dataclass(frozen=True)
class Words:
    """The words of a language: every way to say it, in small letters."""

    headings: Mapping[str, Collection[str]]
    wishes: Mapping[str, Collection[str]]

    def wish(self, said: str) -> str:
        return next((key for key, ways in self.wishes.items() if said.casefold() in ways), "")

    def heading(self, said: str) -> str:
        return next((key for key, ways in self.headings.items() if said.casefold() in ways), "")

    @property
    def known(self) -> str:
        return ", ".join(next(iter(ways)) for ways in self.wishes.values())


HEADINGS = {
    "name": ("name", "full name", "person"),
    "first": ("first name", "given name", "forename"),
    "last": ("last name", "surname", "family name"),
    "email": ("e-mail", "email", "mail", "e-mail address", "email address"),
    "wish": ("wish", "wishes", "notes", "note"),
    "place": ("place", "order", "number"),
}
WISHES = {
    "first": ("first", "goes first", "volunteer"),
    "reference": ("reference", "benchmark", "second"),
    "leader": ("leader", "leaders", "leadership", "director", "chair", "board"),
    "last": ("last",),
    "unhurried": ("shy", "no hurry", "camera-shy", "before lunch"),
    "glasses": ("glasses", "wears glasses", "spectacles"),
    "steady": ("no flash", "without flash"),
    "wheelchair": ("wheelchair", "in a wheelchair"),
}
ENGLISH = Words(HEADINGS, WISHES)


def read(text: str, words: Words = ENGLISH, *, most: int) -> NameList:
    """Everybody of the list; no more than one beyond `most` is read."""
    rows = [(n, raw) for n, raw in enumerate(text.lstrip("\ufeff").splitlines(), 1) if raw.strip(" \t\r,;")]
    separator = _separator([raw for _n, raw in rows[: most + 1]])
    columns = _columns(_fields(rows[0][1], separator), words) if rows else {}
    lines: list[Line] = []
    faults: list[Fault] = []
    for number, raw in rows[1 if columns else 0 :]:
        if len(lines) + len(faults) > most:
            break
        found = _line(number, raw, separator, columns, words)
        (faults if isinstance(found, Fault) else lines).append(found)  # type: ignore[arg-type]
    if len(lines) + len(faults) > most:
        return NameList((), (Fault(0, "too_many", {"most": most, "there": len(rows) - bool(columns)}),), bool(columns))
    if not lines and not faults:
        return NameList((), (Fault(0, "empty"),), bool(columns))
    return NameList(lines, [*faults, *_said_twice(lines)], bool(columns))


def _separator(raws: Sequence[str]) -> str:
    """The one most lines have; a comma where none has any."""
    counts = {one: sum(one in raw for raw in raws) for one in SEPARATORS}
    return max(SEPARATORS, key=lambda one: (counts[one], one == ",")) if any(counts.values()) else ","


def _fields(raw: str, separator: str) -> list[str]:
    found = next(csv.reader([raw[:LONGEST_LINE]], delimiter=separator, skipinitialspace=True), [])
    return [" ".join(part.split()) for part in found]


def _columns(fields: Sequence[str], words: Words) -> dict[int, str]:
    """What each column holds, where every field of the first line is a heading and one of them is a name."""
    found = {n: words.heading(said) for n, said in enumerate(fields) if said}
    named = {"name", "first", "last"} & set(found.values())
    return found if found and all(found.values()) and named else {}


def _line(number: int, raw: str, separator: str, columns: Mapping[int, str], words: Words) -> Line | Fault:
    if len(raw) > LONGEST_LINE:
        return Fault(number, "long_line", {"most": LONGEST_LINE})
    if _CONTROL.search(raw.replace("\t", "")):
        return Fault(number, "unreadable")
    fields = _fields(raw, separator)
    parts = _by_heading(fields, columns) if columns else _by_look(fields, words)
    if isinstance(parts, str):
        return Fault(number, "unknown", {"said": parts[:80], "known": words.known})
    return _person(number, parts, words)


def _by_heading(fields: Sequence[str], columns: Mapping[int, str]) -> dict[str, str] | str:
    found: dict[str, str] = {}
    for n, said in enumerate(fields):
        if said and n not in columns:
            return said
        if said:
            found[columns[n]] = f"{found[columns[n]]}, {said}" if columns[n] in found else said
    found["name"] = found.get("name") or " ".join(filter(None, (found.get("first"), found.get("last"))))
    return found


def _by_look(fields: Sequence[str], words: Words) -> dict[str, str] | str:
    """Without headings a field says itself what it is: the first is the name, then an address, a number, wishes."""
    found: dict[str, str] = {"name": ""}
    for said in filter(None, fields):
        named = _NAMED_ADDRESS.fullmatch(said)
        if named and not found["name"]:
            found |= {"name": named["name"].strip('"'), "email": named["address"]}
        elif "@" in said and "email" not in found:
            found["email"] = said
        elif found["name"] and said.isascii() and said.isdecimal():
            found["place"] = said
        elif not found["name"]:
            found["name"] = said
        elif all(words.wish(part) for part in _wishes(said)):
            found["wish"] = f"{found['wish']}, {said}" if "wish" in found else said
        else:
            return said
    return found


def _wishes(said: str) -> list[str]:
    return [part for part in (one.strip().casefold() for one in re.split(r"[,;/+&]", said)) if part]


def _person(number: int, parts: Mapping[str, str], words: Words) -> Line | Fault:
    name, email, place = parts["name"], parts.get("email", "").strip("<>"), parts.get("place", "")
    said = _wishes(parts.get("wish", ""))
    unknown = next((one for one in said if not words.wish(one)), None)
    fault = None
    if not name:
        fault = Fault(number, "nameless")
    elif len(name) > LONGEST_NAME:
        fault = Fault(number, "long_name", {"most": LONGEST_NAME, "letters": len(name)})
    elif email and (not _ADDRESS.fullmatch(email) or len(email) > 254):
        fault = Fault(number, "email", {"said": email[:80]})
    elif unknown:
        fault = Fault(number, "unknown", {"said": unknown[:80], "known": words.known})
    elif place and not (place.isascii() and place.isdecimal() and 0 < int(place[:4]) < 1000):
        fault = Fault(number, "place", {"said": place[:20]})
    if fault is not None:
        return fault
    return Line(number, name, email, frozenset(map(words.wish, said)), int(place) if place else None)


def _said_twice(lines: Sequence[Line]) -> list[Fault]:
    """Two of one name cannot be told apart when they are called."""
    seen: dict[str, int] = {}
    found = []
    for line in lines:
        key = line.name.casefold()
        if key in seen:
            found.append(Fault(line.number, "twice", {"name": line.name, "other": seen[key]}))
        seen.setdefault(key, line.number)
    return found


def decoded(data: bytes) -> str:
    """A file's text: UTF-8 with or without a mark, UTF-16 with one, else the Western code page of an older machine."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")
