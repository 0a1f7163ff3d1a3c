"""Objections to a sitting's time. Belongs here: refusing what was not acknowledged, and keeping in the history what
was. Not here: what speaks against a time (`bookings.objections`), reading the hours (`bookings.hours`)."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from bookings import hours
from bookings.models import Sitting, SittingChange
from bookings.objections import Objection, objections
from bookings.refusals import Objected
from studio import clock
from studio.models import Member


def heed(
    sitting: Sitting,
    ages: Sequence[float | None],
    acknowledged: Collection[str],
    stood_before: Iterable[Objection] = (),
) -> list[Objection]:
    """What speaks against a sitting, kept or not yet, and was acknowledged by its code; what stood before a change
    was answered then. Refuses with `Objected`."""
    found = [one for one in against(sitting, ages) if one not in stood_before]
    if any(one.code not in acknowledged for one in found):
        raise Objected(found)
    return found


def against(sitting: Sitting, ages: Sequence[float | None]) -> list[Objection]:
    return objections(hours.asked_of(sitting, ages))


def set_aside(sitting: Sitting, found: Iterable[Objection], *, by: Member) -> None:
    """Kept with who did it."""
    same = {"sitting": sitting, "at": clock.now(), "by": by, "what": SittingChange.What.OBJECTION}
    SittingChange.objects.bulk_create(
        SittingChange(before=one.code, after=one.sentence.rstrip(".")[:400], **same) for one in found
    )
