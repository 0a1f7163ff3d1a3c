"""Purging comfort notes. Belongs here: taking them out wherever they stand, and saying that it was done. Not here:
whose day has come (`bookings.keeping`)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from django.conf import settings
from django.db import transaction
from django.utils.module_loading import import_string

from bookings import keeping
from bookings.models import IntakeAnswer, Notes, NotesPurged, Sitter, Sitting, Wish
from studio import clock
from studio.models import Member, Profile


@transaction.atomic
def purge(sitter: Sitter, why: str, *, by: Member | None = None) -> bool:
    """Take out everything that is known of a sitter beside the name; false where somebody else did so just now.

    Doing it again does nothing. What upper apps froze of it is blanked in the same step.
    """
    kept = Sitter.objects.select_for_update(of=("self",)).select_related("sitting").get(pk=sitter.pk)
    gone = [model.objects.filter(sitter=kept).delete()[0] for model in (Notes, Wish, IntakeAnswer)]
    blank_above(kept.sitting, [kept.label], {})
    if not any(gone):
        return False
    NotesPurged.objects.create(sitting=kept.sitting, sitter=kept, at=clock.now(), by=by, why=why)
    return True


def purge_due(profile: Profile, *, sittings: Iterable[Sitting] | None = None, by: Member | None = None) -> int:
    """Purge all whose day has come, each in a step of its own; how many."""
    return sum(purge(one.sitter, one.why, by=by) for one in keeping.due(clock.now(), profile, sittings))


def blank_above(sitting: Sitting, labels: list[str], names: Mapping[str, str]) -> None:
    """Have upper apps blank what they froze of these people; `names` are to stand in place of the former."""
    for path in settings.ERASERS:
        import_string(path)(sitting, labels, names)
