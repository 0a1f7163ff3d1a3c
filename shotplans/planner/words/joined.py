"""Several things said in one sentence: the joints between them are sentences of their own, for another language may
join otherwise. What is joined is said already."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from studio.tongue import gettext as _


def both(parts: Sequence[str]) -> str:
    """`a, b and c`."""
    return _last_by(_("{first} and {last}"), parts)


def all_of(parts: Sequence[str]) -> str:
    """`a and b and c`."""
    return _each_by(_("{first} and {last}"), parts)


def either(parts: Sequence[str]) -> str:
    """`a, or b, or c`: each is enough alone."""
    return _each_by(_("{first}, or {last}"), parts)


def any_of(parts: Sequence[str]) -> str:
    """`a or b or c`."""
    return _each_by(_("{first} or {last}"), parts)


def one_of(parts: Sequence[str]) -> str:
    """`a, b or c`."""
    return _last_by(_("{first} or {last}"), parts)


def _each_by(joint: str, parts: Sequence[str]) -> str:
    return reduce(lambda first, last: joint.format(first=first, last=last), parts) if parts else ""


def _last_by(joint: str, parts: Sequence[str]) -> str:
    return _each_by(joint, [", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)


def begun(text: str) -> str:
    """A text as the beginning of a sentence; f-numbers keep their small letter."""
    return text if text.startswith("f/") else text[:1].upper() + text[1:]
