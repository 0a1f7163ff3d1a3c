"""Comfort notes. Belongs here: adding to them without reading them, and writing them anew. No history and no log."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.db import transaction

from bookings.models import Notes, Sitter, Wish
from studio.models import versions

Wishes = Sequence[Mapping[str, str]]


def said(notes: Mapping[str, Any]) -> dict[str, Any]:
    """The notes that say something: False and 0 do, an empty field does not."""
    return {name: value for name, value in notes.items() if value is not None and value != ""}


def _wished(wishes: Wishes) -> list[dict[str, str]]:
    return [dict(wish) for wish in wishes if any(wish.values())]


@transaction.atomic
def add(*, sitter: Sitter, notes: Mapping[str, Any], wishes: Wishes = ()) -> None:
    """Add what is said to what is known: a field left empty keeps what it held, a wish is added to those there."""
    news = said(notes)
    if news:
        row, _made = Notes.objects.select_for_update().get_or_create(sitter=sitter)
        for name, value in news.items():
            setattr(row, name, value)
        versions.save(row, seen=row.version)
    Wish.objects.bulk_create([Wish(sitter=sitter, **wish) for wish in _wished(wishes)])


@transaction.atomic
def write(*, notes: Notes, seen: int, wishes: Wishes) -> None:
    """Notes and wishes as they now stand, in place of the former. Raises `versions.Stale` and writes nothing when
    somebody else was faster."""
    if notes._state.adding:
        Sitter.objects.select_for_update().get(pk=notes.sitter_id)
        if Notes.objects.filter(sitter_id=notes.sitter_id).exists():
            raise versions.Stale(Notes.objects.filter(sitter_id=notes.sitter_id).first())
        notes.save()
    else:
        versions.save(notes, seen=seen)
    notes.sitter.wishes.all().delete()
    Wish.objects.bulk_create([Wish(sitter=notes.sitter, **wish) for wish in _wished(wishes)])
