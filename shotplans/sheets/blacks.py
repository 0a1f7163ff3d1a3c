"""Black panels as notes of a setup sheet. Belongs here: where each stands, in one sentence, and what it is for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shotplans.sheets import content
from shotplans.sheets.measures import METRIC, Measures
from studio.tongue import gettext as _

Entry = Mapping[str, Any]


def note(block: Entry, measures: Measures = METRIC) -> content.Note:
    where = _("{name}, {place}.").format(name=block["id"], place=place(block, measures))
    return content.Note(
        _("Black"),
        _("{where} It {why}.").format(where=where, why=block["why"]) if block.get("shades") else where,
    )


def place(block: Entry, measures: Measures) -> str:
    """Where it hangs: across, along and how high, from the mark."""
    x, y, z = block["at_m"]
    if x > 0:
        said = (
            _("{across} right of the mark, {along} before it, middle {height} high")
            if z >= 0
            else _("{across} right of the mark, {along} behind it, middle {height} high")
        )
    else:
        said = (
            _("{across} left of the mark, {along} before it, middle {height} high")
            if z >= 0
            else _("{across} left of the mark, {along} behind it, middle {height} high")
        )
    return said.format(across=measures.length(abs(x)), along=measures.length(abs(z)), height=measures.length(y))
