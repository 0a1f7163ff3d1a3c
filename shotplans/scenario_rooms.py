"""Rooms of an example brief as rows. Belongs here: from the tree of a file to a room with its circuits. Not here: when
one is made (`scenario`, `actions.sample`)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from studio.models import Circuit, Room


def room(name: str, tree: Mapping[str, Any]) -> Room:
    """One room as the tree has it; the examples have no windows."""
    surfaces = {f"surface_{key}": value for key, value in tree["surfaces"].items()}
    plain = {key: value for key, value in tree.items() if key not in ("surfaces", "windows", "circuits")}
    made = Room.objects.create(name=name, **plain, **surfaces)
    Circuit.objects.bulk_create(Circuit(room=made, **circuit) for circuit in tree["circuits"])
    return made
