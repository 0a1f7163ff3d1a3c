"""The audit trail as rows to read: who changed what, when, from what to what. Belongs here: the row every source gives
and how sources are put together, newest first. Not here: the sources (`audit_rows`, and those named in settings).
Pure: no framework, no query."""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from itertools import islice
from typing import Any

PAGE = 200
HEAD = ("when", "who", "sitting", "kind", "what", "from", "to", "note")


class Kind(StrEnum):
    """What a row is about, to choose by."""

    STAGE = "stage"
    TIME = "time"
    PEOPLE = "people"
    MONEY = "money"
    PERMISSION = "permission"
    PLAN = "plan"
    RULES = "rules"
    LETTERS = "letters"
    NOTES = "notes"
    KIT = "kit"


@dataclass(frozen=True, slots=True)
class Row:
    """One change. `who` is a name, or what did it where no member did; `member` is the key of the member."""

    at: datetime
    kind: Kind
    what: str
    who: str
    member: int | None = None
    sitting: str = ""
    before: str = ""
    after: str = ""
    note: str = ""


# Rows from the first moment up to, not including, the second, of one sitting or of all; newest first, read as they
# are taken. A source of what belongs to no sitting gives nothing where one is asked for.
Source = Callable[[datetime, datetime, Any], Iterator[Row]]


def gives(*kinds: Kind) -> Callable[[Source], Source]:
    """Says which kinds a source can give, so that it is not asked for others."""

    def said(source: Source) -> Source:
        source.kinds = kinds  # type: ignore[attr-defined]
        return source

    return said


def merged(
    sources: Iterable[Source], start: datetime, end: datetime, sitting: Any = None, *, kind: str = "",
    member: int | None = None,
) -> Iterator[Row]:  # fmt: skip
    """All sources as one, newest first; only of a kind and by a member where they are given."""
    asked = (source for source in sources if not kind or kind in getattr(source, "kinds", (kind,)))
    rows = heapq.merge(*(source(start, end, sitting) for source in asked), key=lambda row: row.at, reverse=True)
    return (row for row in rows if (not kind or row.kind == kind) and (member is None or row.member == member))


def page_of(rows: Iterable[Row], number: int) -> tuple[list[Row], bool]:
    """The page of that number, from 1, and whether older rows follow; no more is read than that."""
    first = (number - 1) * PAGE
    found = list(islice(rows, first, first + PAGE + 1))
    return found[:PAGE], len(found) > PAGE


def cells(rows: Iterable[Row], zone: Any) -> Iterator[tuple[str, ...]]:
    """For a file, in the order of `HEAD`; moments as ISO 8601 with their offset."""
    for row in rows:
        at = row.at.astimezone(zone).isoformat(timespec="seconds")
        yield at, row.who, row.sitting, str(row.kind), row.what, row.before, row.after, row.note
