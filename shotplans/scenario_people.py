"""People of an example brief as a booking takes them in. Belongs here: from the tree of a file to the desk's own input.
Not here: booking (`scenario`, `scenario_past`)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bookings.actions import sittings
from bookings.models import Notes


def sitter(tree: Mapping[str, Any]) -> sittings.SitterInput:
    """One sitter with what is known of them."""
    own = ("label", "age_years", "height_cm", "posture", "household", "relation", "central", "keep_with")
    notes = {k: v for k, v in tree.items() if k in Notes.names() and v is not None}
    if tree.get("glasses"):
        notes |= {"glasses_lens": tree["glasses"]["lens"], "may_remove": tree["glasses"].get("may_remove")}
    clothes = tree.get("clothes") or {}
    names = {"clothes_tone": "tone", "bare_arms": "bare_arms", "clothes_shiny": "shiny", "clothes_pattern": "pattern"}
    notes |= {field: clothes[key] for field, key in names.items() if clothes.get(key) is not None}
    wishes = [{k: w[k] for k in ("note", "side", "wish") if w.get(k)} for w in tree.get("wishes") or []]
    given = {k: tree[k] for k in own if tree.get(k) is not None}
    return sittings.SitterInput(**given, notes=notes, wishes=wishes)
