"""Measured beams of a request's kit. Belongs here: which pairs have one, in the request's own shape. Not here: keeping
them (`actions.beams`)."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from shotplans.models import MeasuredBeam

Piece = Mapping[str, Any]


def for_kit(kit: Mapping[str, Iterable[Piece]]) -> list[dict[str, Any]]:
    """Every pair of the kit with a beam of its own, or of a pair of the same numbers: two heads of one make share a
    file. In one order, so that equal files make equal plans."""
    rows = MeasuredBeam.objects.in_force().order_by("head", "modifier").values_list("head", "modifier", "shares")
    known = {(head, modifier): shares for head, modifier, shares in rows}
    if not known:
        return []
    heads, modifiers = ({str(p["id"]): _numbers(p) for p in kit[name]} for name in ("heads", "modifiers"))
    alike = {(heads[h], modifiers[m]): s for (h, m), s in known.items() if h in heads and m in modifiers}
    return [
        {"head": h, "modifier": m, "shares": shares}
        for h in heads
        for m in modifiers
        if (shares := known.get((h, m)) or alike.get((heads[h], modifiers[m]))) is not None
    ]


def _numbers(piece: Piece) -> str:
    """Everything of a piece but its name."""
    return json.dumps({k: v for k, v in piece.items() if k not in ("id", "label")}, sort_keys=True)
