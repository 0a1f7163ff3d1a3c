"""How many of a thing a day needs, where it is no piece with a code of its own: what is in use at one moment in two
rooms is needed twice, each set-up has sheets of its own, and a light far from the wall wants a lead. Belongs here:
those counts. Not here: which things there are (`pack`)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from shotplans.planner.request import Request
from shotplans.sheets import pack, place
from shotplans.sheets.content import PackingGroup, PackingRow

Entry = Mapping[str, Any]
Span = tuple[datetime, datetime]
OWN_CABLE_M = 5.0  # a head's own mains cable: value from memory
LEAD, SHEET = "extension lead", "setup sheet"  # as the plan's list has them


def counted(
    groups: Sequence[PackingGroup], parts: Sequence[tuple[Entry, Request]], spans: Sequence[Span] = ()
) -> tuple[PackingGroup, ...]:
    """The groups with their counts put right. `parts` are documents with their inputs, `spans` when each is in use;
    without them they follow one another. Of a piece with a code there is one."""
    wanted = [_wanted(document, request) for document, request in parts]
    pieces = {code for _, request in parts for code in pack.codes(request)}
    during = spans if len(spans) == len(parts) else ()
    return tuple(
        replace(group, rows=tuple(r if r.item in pieces else _row(r, wanted, during) for r in group.rows))
        for group in groups
    )


def _wanted(document: Entry, request: Request) -> dict[str, int]:
    """Of each thing what one sitting needs."""
    found = {str(row["item"]): int(row["count"]) for row in document["packing"]}
    if LEAD in found:
        far = [one.setup for one in place.leads(document, request) if one.needs_m > OWN_CABLE_M]
        found[LEAD] = max([found[LEAD], *(far.count(name) for name in set(far))])
    if SHEET in found:
        found[SHEET] *= max(1, len(document["setups"]))
    return found


def _row(row: PackingRow, wanted: Sequence[Mapping[str, int]], spans: Sequence[Span]) -> PackingRow:
    needed = [one.get(row.item, 0) for one in wanted]
    if not any(needed):
        return row
    if row.item == SHEET:
        return replace(row, count=sum(needed))
    most = max(needed)
    for start, _ in spans:
        most = max(most, sum(n for n, (a, b) in zip(needed, spans, strict=True) if a <= start < b))
    return replace(row, count=most)
