"""What an address already says of a sitting's form. Belongs here: reading it, and leaving out what cannot be read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from studio.days import read_day

CLOCK = re.compile(r"([01][0-9]|2[0-3]):[0-5][0-9]")


def read(asked: Mapping[str, Any], keys: Iterable[str]) -> dict[str, Any]:
    """The numbers of those keys, the day and the time of a sitting, by the names of its form."""
    found: dict[str, Any] = {}
    for name in keys:
        text = str(asked.get(name, ""))
        if text.isascii() and text.isdecimal() and len(text) < 16:
            found[name] = int(text)
    day = read_day(str(asked.get("day", "")))
    if day is not None:
        found["day"] = day
    if CLOCK.fullmatch(str(asked.get("at", ""))):
        found["time"] = asked["at"]
    return found
