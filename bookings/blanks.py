"""Blanks in a wording: `{{ sitting.date }}`. Belongs here: finding the wrong ones, filling the right ones. Pure: a
value is plain text and never read as a wording, so nothing in it can act. Not here: what each blank holds
(`bookings.correspondence`)."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from difflib import get_close_matches

_BLANK = re.compile(r"\{\{[ \t]*([^{}\n]*?)[ \t]*\}\}")
_BRACES = re.compile(r"\{\{|\}\}")


@dataclass(frozen=True)
class Fault:
    """What is wrong in a line; `name` empty where braces do not close. `nearest` is the known blank most like it."""

    line: int
    name: str
    nearest: str = ""


def faults(text: str, known: Collection[str]) -> list[Fault]:
    """Every blank that nobody could fill, in order."""
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        for name in _BLANK.findall(line):
            if name not in known:
                near = get_close_matches(name, sorted(known), n=1, cutoff=0.4)
                found.append(Fault(number, name, near[0] if near else ""))
        if _BRACES.search(_BLANK.sub("", line)):
            found.append(Fault(number, ""))
    return found


def fill(text: str, values: Mapping[str, str]) -> str:
    """The text with its blanks filled; a line whose blanks are all empty is left out."""
    lines = []
    for line in text.replace("\r\n", "\n").split("\n"):
        names = _BLANK.findall(line)
        if names and not any(values.get(name, "").strip() for name in names):
            continue
        lines.append(_BLANK.sub(lambda blank: values.get(blank[1], ""), line))
    return "\n".join(lines)
