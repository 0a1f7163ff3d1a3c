"""Taking a correction out of use, and back into it."""

from __future__ import annotations

from django.db import transaction
from django.utils.translation import gettext as _

from shotplans.models import Reading, Retired
from studio import clock
from studio.models import Member


class Refused(ValueError):
    """A correction could not be retired or taken back; str() says why."""


@transaction.atomic
def retire(*, by: Member, head: str, modifier: str = "", why: str) -> Retired:
    """From now on the pair's readings so far count no more; without a modifier, all of the head's. Refused without a
    reason, and for a pair that was never read."""
    said = why.strip()[:200]
    if not said:
        raise Refused(_("Say why, so that whoever meets it later knows."))
    read = Reading.objects.filter(head=head).exclude(head="")
    if not (read.filter(modifier=modifier) if modifier else read).exists():
        raise Refused(_("There are no readings of that."))
    return Retired.objects.create(head=head, modifier=modifier, why=said, at=clock.now(), by=by)


@transaction.atomic
def take_back(*, by: Member, retired: Retired) -> Retired:
    """The readings count again. Refused where somebody took it back already."""
    held = Retired.objects.select_for_update().get(pk=retired.pk)
    if held.taken_back_at is not None:
        raise Refused(_("It was taken back already."))
    held.taken_back_at, held.taken_back_by = clock.now(), by
    held.save(update_fields=["taken_back_at", "taken_back_by"])
    return held
