"""The clocks after a sitting. Belongs here: saying what a sitting waits for, and why it is late, each in one
transaction. Not here: the stages that turn the clocks by themselves (`sittings`)."""

from __future__ import annotations

from django.db import transaction

from bookings import afterwards
from bookings.models import LateReason, Sitting, Wait
from bookings.refusals import MovedMeanwhile, NoteNeeded, NotWaiting, WaitsAlready
from studio import clock
from studio.models import Member


@transaction.atomic
def wait_for(*, by: Member, sitting: Sitting, what: str, note: str = "", seen: int | None = None) -> Wait:
    """From now on it waits for that, whatever its stage says by itself; `seen` is the version the page showed.

    Refuses with `MovedMeanwhile`, `NotWaiting`, `WaitsAlready`.
    """
    kept = _locked(sitting, seen)
    note = note.strip()
    now = afterwards.of(kept)
    if now is not None and (now.turn.what, now.turn.note) == (what, note):
        raise WaitsAlready(kept, str(Wait.What(what).label))
    return Wait.objects.create(sitting=kept, at=clock.now(), by=by, what=what, note=note)


@transaction.atomic
def say_why_late(*, by: Member, sitting: Sitting, code: str, note: str) -> LateReason:
    """Keep why it is past its promise; what was said before stays in the history.

    Refuses with `NotWaiting`, `NoteNeeded`.
    """
    kept = _locked(sitting, None)
    if not note.strip():
        raise NoteNeeded
    return LateReason.objects.create(sitting=kept, at=clock.now(), by=by, code=code, note=note.strip())


def _locked(sitting: Sitting, seen: int | None) -> Sitting:
    kept = Sitting.objects.select_for_update().get(pk=sitting.pk)
    if seen is not None and kept.version != seen:
        raise MovedMeanwhile(kept)
    if kept.stage not in afterwards.OPEN:
        raise NotWaiting(kept)
    return kept
