"""Wordings. Belongs here: keeping a new version. Not here: whether its blanks are right (`forms.letters`)."""

from __future__ import annotations

from django.db import IntegrityError, transaction

from bookings.letter_refusals import WordedMeanwhile
from bookings.models import Wording
from studio import clock
from studio.models import Member


def number_of(kind: str) -> int:
    """The version in force; 0 for the first wording."""
    kept = Wording.objects.filter(kind=kind).first()
    return kept.number if kept is not None else 0


def word(*, by: Member, kind: str, subject: str, body: str, seen: int) -> Wording:
    """Keep a wording as the next version after `seen`. Refuses with `WordedMeanwhile`."""
    if number_of(kind) != seen:
        raise WordedMeanwhile
    try:
        with transaction.atomic():
            return Wording.objects.create(
                kind=kind, number=seen + 1, subject=subject, body=body, at=clock.now(), by=by
            )
    except IntegrityError:
        raise WordedMeanwhile from None
