"""What of a page goes through no translation. Belongs here: the words of a page outside every sentence of the
pseudo-language, and which of them are data. Not here: which pages.

Data is what somebody typed or what a plan that is kept says: every text of the database, whole or any run of its words.
Numbers, units, codes and times are the same everywhere. Whatever else stands outside brackets is a word of the house
that no translator reaches.
"""

from __future__ import annotations

import re
import zoneinfo
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

from django.apps import apps
from django.db import models

from studio import starter_kit
from tests.studio.test_words_of_pages import SAID, SAME_EVERYWHERE

OPEN, CLOSE = "⟦", "⟧"
BREAK = "\n"  # between two texts that no sentence joins
UNITS = {
    "ft", "in", "lb", "kg", "cm", "mm", "lx", "Ws", "min", "ISO", "GBP", "MB", "GB", "SQLite", "PostgreSQL",
}  # fmt: skip
PARTS = re.compile(r"(?:[^\w' +.:-]|[.:](?!\w)|(?<!\w)[.:])+")  # a time, a number and a file's name stay whole
LETTERS = re.compile(r"[^\W\d_]{2,}")


class Texts(HTMLParser):
    """Whatever of a page a reader sees or hears: one stream of text, and each text of an attribute by itself."""

    def __init__(self) -> None:
        super().__init__()
        self.stream: list[str] = []
        self.apart: list[str] = []
        self.inside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("script", "style", "code", "kbd", "pre", "bdi"):
            self.inside.append(tag)
        self.stream.append(BREAK)
        known = dict(attrs)
        self.apart += [value or "" for name, value in attrs if name in SAID]
        if tag == "input" and known.get("type") in ("submit", "button"):
            self.apart.append(known.get("value") or "")

    def handle_endtag(self, tag: str) -> None:
        if tag in self.inside:
            self.inside.remove(tag)
        self.stream.append(BREAK)

    def handle_data(self, data: str) -> None:
        if not self.inside:
            self.stream.append(data)


def outside(text: str) -> str:
    """What stands outside all brackets; an open end says so."""
    depth, found = 0, []
    for letter in text:
        depth += (letter == OPEN) - (letter == CLOSE)
        found.append(letter if depth == 0 and letter != CLOSE else "")
        if letter == CLOSE and depth == 0:
            found.append(BREAK)
    assert depth == 0, "a sentence was cut before its end"
    return "".join(found)


def runs(page: str) -> Iterator[str]:
    """The runs of words of a page outside every sentence."""
    reader = Texts()
    reader.feed(page)
    for text in [outside("".join(reader.stream)), *map(outside, reader.apart)]:
        yield from (part.strip() for part in PARTS.split(text) if LETTERS.search(part))


def plain(text: str) -> str:
    return " ".join(" ".join(PARTS.split(text)).casefold().split())


def kept() -> str:
    """Every text of the database and every zone of the world, a text a line."""
    found = {name.replace("_", " ") for name in zoneinfo.available_timezones()}
    found.update(line.label for line in starter_kit.lines())  # names of kit to be, from a file as a studio writes one
    for model in apps.get_models():
        names = [f.name for f in model._meta.concrete_fields if isinstance(f, models.CharField | models.TextField)]
        names += [f.name for f in model._meta.concrete_fields if isinstance(f, models.JSONField)]
        for row in model._base_manager.values_list(*names) if names else ():
            for value in row:
                found.update(_strings(value))
    return "\n" + "\n".join(f" {plain(text)} " for text in sorted(found)) + "\n"


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from (key, *_strings(one))
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _strings(one)


def is_data(run: str, data: str) -> bool:
    """Whether a run is made of whole texts of the database, of three words or more that follow one another in one, and
    of what is the same everywhere."""
    words = run.split()
    reached = {0}
    for start in range(len(words)):
        if start not in reached:
            continue
        if not LETTERS.search(words[start]) or words[start] in SAME_EVERYWHERE | UNITS:
            reached.add(start + 1)
        for end in range(start + 1, len(words) + 1):
            piece = plain(" ".join(words[start:end]))
            part = f" {piece} " in data and (end - start >= 3 or end - start == len(words))
            if part or f"\n {piece} \n" in data:
                reached.add(end)
    return len(words) in reached


def untranslated(page: str, data: str) -> list[str]:
    """Runs of words that are neither translated nor data."""
    return sorted({run for run in runs(page) if not is_data(run, data)})
