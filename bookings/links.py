"""Signed links for clients. Belongs here: making the address under which a client answers, and reading it back. It has
one purpose, one sitting and one time, cannot be guessed, and is over when the sitting is."""

from __future__ import annotations

from dataclasses import dataclass

from django.core import signing
from django.urls import reverse

from bookings.models import Sitting, Stage
from studio import clock

_SALT = "bookings.links.answer"


@dataclass(frozen=True)
class Asked:
    """What a link asks about; `stands` is false once the sitting was moved, cancelled or is over."""

    sitting: Sitting
    stands: bool


def address(base: str, sitting: Sitting) -> str:
    return base + reverse("answer", kwargs={"signed": signed(sitting)})


def signed(sitting: Sitting) -> str:
    """In letters, digits, colons, dashes and underscores."""
    said = [sitting.pk, int(sitting.starts_at.timestamp())]
    return signing.dumps(said, salt=_SALT)


def read(text: str) -> Asked | None:
    """None for whatever this house has not signed."""
    try:
        pk, starts = signing.loads(text, salt=_SALT)
    except (signing.BadSignature, ValueError, TypeError):
        return None
    sitting = Sitting.objects.with_people().filter(pk=pk).first()
    if sitting is None:
        return None
    same_time = int(sitting.starts_at.timestamp()) == starts
    return Asked(sitting, same_time and sitting.stage == Stage.CONFIRMED and clock.now() < sitting.ends_at)
