"""Black panels as notes of a setup sheet. Belongs here: where each stands, in one sentence, and what it is for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shotplans.sheets import content
from shotplans.sheets.measures import METRIC, Measures
from studio.tongue import gettext as _

Entry = Mapping[str, Any]


def note(block: Entry, measures: Measures = METRIC) -> content.Note:
    x, y, z = block["at_m"]
    where = _at(x, z).format(
        name=block["id"], across=measures.length(abs(x)), along=measures.length(abs(z)), height=measures.length(y)
    )
    return content.Note(
        _("Black"),
        _("{where} It {why}.").format(where=where, why=block["why"]) if block.get("shades") else where,
    )


def _at(x: float, z: float) -> str:
    if x > 0:
        return (
            _("{name}, {across} right of the mark, {along} before it, middle {height} high.")
            if z >= 0
            else _("{name}, {across} right of the mark, {along} behind it, middle {height} high.")
        )
    return (
        _("{name}, {across} left of the mark, {along} before it, middle {height} high.")
        if z >= 0
        else _("{name}, {across} left of the mark, {along} behind it, middle {height} high.")
    )
