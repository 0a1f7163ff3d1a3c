"""Entries from devices, later on. Belongs here: what of them goes, and when. Not here: taking them in
(`studio.entries`)."""

from __future__ import annotations

from datetime import timedelta

from studio import clock
from studio.models import Entry

KEPT = timedelta(days=30)  # longer than a device may hold one back (`studio.entries.LONGEST_WAIT`)


def forget_old() -> int:
    """Take out what came in so long ago that it cannot be sent again; what it wrote stays. Returns how many."""
    return Entry.objects.filter(received_at__lt=clock.now() - KEPT).delete()[0]


def blank(start: str) -> None:
    """Empty the sentences said of entries for addresses that begin so: a refusal may name a person."""
    Entry.objects.filter(path__startswith=start).update(says="", answer=None)
