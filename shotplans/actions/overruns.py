"""Taking a suggested buffer. Belongs here: that write with its history row."""

from __future__ import annotations

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.models import Kind
from bookings.refusals import Refusal
from shotplans import overruns
from shotplans.models import BufferChange
from studio import clock
from studio.models import Member, versions


class NothingSuggested(Refusal):
    """There is nothing to take; nothing was written."""


@transaction.atomic
def take(*, by: Member, kind: Kind, field: str, seen: int) -> BufferChange:
    """The suggested minutes stand from now on; sittings booked before keep theirs. Refused where nothing is suggested;
    `versions.Stale` where the kind was changed since the page was opened."""
    held = Kind.objects.select_for_update().get(pk=kind.pk)
    learned = next((one for one in overruns.of_kind(held) if one.field == field and one.is_news), None)
    if learned is None or learned.times.suggested is None:
        raise NothingSuggested(_("Nothing else is suggested for that now."))
    change = BufferChange.objects.create(
        kind=held, what=field, before=learned.buffer, after=learned.times.suggested, sittings=learned.times.sittings,
        at=clock.now(), by=by,
    )  # fmt: skip
    setattr(held, field, learned.times.suggested)
    versions.save(held, seen=seen)
    return change
