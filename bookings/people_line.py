"""People written in one line, as they are said on the telephone: "Ottoline 66, Bertram 70, Wilf 2 on a lap". Belongs
here: taking the line apart. Pure, and never a refusal: what cannot be read stays in a name, where it is seen and
mended. Not here: judging names and ages (the rows of the form)."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

_BETWEEN = re.compile(r"[,;:\n\r\u060c\u061b\u3001\uff0c\uff1b\uff1a]+")  # the commas of other scripts among them
_COUNT_DIGITS = 4


@dataclass(frozen=True)
class Person:
    """One person as written; the age is text, for a form to judge."""

    label: str = ""
    age: str = ""
    posture: str = ""


@dataclass(frozen=True)
class Words:
    """The words of a language: every way to say it."""

    joined: Collection[str] = ("and", "&", "+")
    years: Collection[str] = ("years old", "year old", "years", "year", "yrs")
    months: Collection[str] = ("months old", "month old", "months", "month")
    aged: Collection[str] = ("aged", "age")
    in_all: Collection[str] = ("people", "persons", "sitters", "in all")
    # Those who are counted and not named, by what they are then called.
    counted: Mapping[str, Collection[str]] = field(
        default_factory=lambda: {
            "Person": ("more people", "other people", "more", "others"),
            "Adult": ("adults", "adult", "grown-ups"),
            "Child": ("children", "child", "kids"),
        }
    )
    unnamed: str = "Person"
    postures: Mapping[str, Collection[str]] = field(default_factory=dict)


def people(line: str, words: Words, *, taken: Collection[str] = (), most: int = 40) -> list[Person]:
    """The people of a line in their order, one more than `most` at the highest; nobody of a name already `taken` is
    made up."""
    reading = _Reading(words, most)
    for part in _parts(line, words):
        reading.take(part)
    return _named(reading.all_of_them(), words, taken)


class _Reading:
    """What was read so far."""

    def __init__(self, words: Words, most: int) -> None:
        self.words, self.most, self.in_all = words, most, 0
        self.found: list[Person] = []
        self._counts = [(_number_of(words.in_all), "")]
        self._counts += [(_number_of(ways), name) for name, ways in words.counted.items()]
        self._age = _age_at_the_end(words)
        self._postures = [(_whole(ways), posture) for posture, ways in words.postures.items()]

    def take(self, part: str) -> None:
        for pattern, name in self._counts:
            counted = pattern.fullmatch(part)
            if counted and name:
                self._add(Person(name) for _number in range(self._limited(counted[1])))
                return
            if counted:
                self.in_all = self._limited(counted[1])
                return
        self._take_person(part)

    def all_of_them(self) -> list[Person]:
        self._add(Person() for _number in range(self.in_all - len(self.found)))
        return self.found

    def _take_person(self, part: str) -> None:
        part, posture = self._without_posture(part)
        label, age = self._without_age(part)
        last = self.found[-1] if self.found else None
        # "Ottoline, 66, Bertram, 70": an age or a seat alone belongs to whoever was named before it.
        if not label and last and last.label and not (age and last.age) and not (posture and last.posture):
            self.found[-1] = replace(last, age=last.age or age, posture=last.posture or posture)
        elif label or age or posture:
            self._add([Person(label, age, posture)])

    def _without_posture(self, part: str) -> tuple[str, str]:
        for pattern, posture in self._postures:
            rest = pattern.sub(" ", part, count=1)
            if rest != part:
                return _tidy(rest), posture
        return part, ""

    def _without_age(self, part: str) -> tuple[str, str]:
        said = self._age.search(part)
        if said is None:
            return part, ""
        number = said["number"]
        if said["months"]:
            number = f"{float(number) / 12:.2f}".rstrip("0").rstrip(".")
        return _tidy(part[: said.start()]), number

    def _add(self, more: Iterable[Person]) -> None:
        for person in more:
            if len(self.found) <= self.most:
                self.found.append(person)

    def _limited(self, digits: str) -> int:
        return min(int(digits[:_COUNT_DIGITS]), self.most + 1)


def _parts(line: str, words: Words) -> list[str]:
    joined = _whole(words.joined)
    return [_tidy(part) for some in _BETWEEN.split(line) for part in joined.split(some) if _tidy(part)]


def _tidy(text: str) -> str:
    return " ".join(text.split()).strip("()[]:- ").strip()


def _any(ways: Iterable[str]) -> str:
    """The longest first, so that "more people" is not read as "more"."""
    return "|".join(re.escape(way) for way in sorted(ways, key=len, reverse=True))


def _whole(ways: Iterable[str]) -> re.Pattern[str]:
    """Whole words with nothing but blanks or the ends around them."""
    return re.compile(rf"(?<!\S)\(?(?:{_any(ways)})\)?(?!\S)", re.IGNORECASE)


def _number_of(ways: Iterable[str]) -> re.Pattern[str]:
    return re.compile(rf"(\d+)\s*(?:{_any(ways)})", re.IGNORECASE)


def _age_at_the_end(words: Words) -> re.Pattern[str]:
    unit = rf"(?P<months>{_any(words.months)})|{_any(words.years)}"
    aged = rf"(?:(?:{_any(words.aged)})\s+)?"
    return re.compile(rf"(?:(?<!\S)|(?<=\())\(?{aged}(?P<number>\d+(?:\.\d+)?)\s*(?:{unit})?\)?$", re.IGNORECASE)


def _named(found: Iterable[Person], words: Words, taken: Collection[str]) -> list[Person]:
    """Whoever was counted, or told by age alone, gets a number for a name."""
    counted = {words.unnamed, *words.counted}
    rows = [person if person.label else replace(person, label=words.unnamed) for person in found]
    used = {*taken, *(person.label for person in rows if person.label not in counted)}
    named = []
    for person in rows:
        if person.label in counted:
            number = 1
            while f"{person.label} {number}" in used:
                number += 1
            person = replace(person, label=f"{person.label} {number}")
            used.add(person.label)
        named.append(person)
    return named
