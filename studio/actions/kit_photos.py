"""The photo of a piece: keeping it in the data folder, and taking it away. Belongs here: that write and its file. Not
here: the picture itself (`studio.photos`)."""

from __future__ import annotations

import uuid
from pathlib import Path

from django.conf import settings
from django.db import transaction

from studio.models import KitItem, versions
from studio.photos import made_anew, put


def path_of(name: str) -> Path:
    """Where a photo lies; its name is our own, never the phone's."""
    return Path(settings.DATA_DIR) / "kit_photos" / name


@transaction.atomic
def keep(*, piece: KitItem, raw: bytes) -> None:
    """Keep a photo of a piece, made anew, in place of the one before.

    Raises `NoPicture`.
    """
    made = made_anew(raw)
    name = f"{uuid.uuid4().hex}.jpg"
    put(path_of(name), made.body)
    _now(piece, name)


@transaction.atomic
def take_away(*, piece: KitItem) -> None:
    """Take the photo away, the file too."""
    _now(piece, "")


def _now(piece: KitItem, name: str) -> None:
    held = KitItem.objects.select_for_update().get(pk=piece.pk)
    before, held.photo = held.photo, name
    versions.save(held, seen=held.version)
    if before:
        transaction.on_commit(lambda: path_of(before).unlink(missing_ok=True))
