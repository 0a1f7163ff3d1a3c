"""Several things said in one sentence: the joints between them are sentences of their own, for another language may
join otherwise. What is joined is said already."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from studio.tongue import gettext as _


def both(parts: Sequence[str]) -> str:
    """`a, b and c`."""
    if len(parts) < 2:
        return "".join(parts)
    return _("{first} and {last}").format(first=", ".join(parts[:-1]), last=parts[-1])


def all_of(parts: Sequence[str]) -> str:
    """`a and b and c`."""
    return reduce(lambda first, last: _("{first} and {last}").format(first=first, last=last), parts) if parts else ""


def either(parts: Sequence[str]) -> str:
    """`a, or b, or c`: each is enough alone."""
    return reduce(lambda first, last: _("{first}, or {last}").format(first=first, last=last), parts) if parts else ""


def any_of(parts: Sequence[str]) -> str:
    """`a or b or c`."""
    return reduce(lambda first, last: _("{first} or {last}").format(first=first, last=last), parts) if parts else ""


def one_of(parts: Sequence[str]) -> str:
    """`a, b or c`."""
    if len(parts) < 2:
        return "".join(parts)
    return _("{first} or {last}").format(first=", ".join(parts[:-1]), last=parts[-1])


def begun(text: str) -> str:
    """A text as the beginning of a sentence; f-numbers keep their small letter."""
    return text if text.startswith("f/") else text[:1].upper() + text[1:]
