"""Telling everybody of a rota their own time. Belongs here: writing the letters that are missing, all or none. Not
here: what they say (`bookings.place_letters`)."""

from __future__ import annotations

from datetime import timedelta

from django.db import transaction

from bookings import place_letters
from bookings.actions import letters
from bookings.models import Letter, LetterKind, Rota
from studio.models import Member, Profile


@transaction.atomic
def tell(*, by: Member, rota: Rota) -> list[Letter]:
    """A letter to everybody who has an address and does not know this time yet."""
    Rota.objects.select_for_update().get(pk=rota.pk)
    profile = Profile.get()
    found = []
    for row in place_letters.told(rota):
        if not row.is_to_be_told:
            continue
        place = row.place
        sequence = place_letters.sequence_of(place)
        invitation = place_letters.entry(place, profile, sequence=sequence)
        method = "REQUEST" if b"METHOD:REQUEST" in invitation else "PUBLISH"
        found.append(
            letters.write(
                sitting=rota.sitting, kind=LetterKind.PLACE, to=place.email,
                subject=place_letters.subject(place, profile), body=place_letters.body(place, profile),
                attachments=[letters.Enclosed("invitation.ics", f"text/calendar; method={method}", invitation)],
                by=by, once_key=f"{place_letters.key_of(place)}-{sequence}",
                useless_at=place.starts_at + timedelta(minutes=rota.place_minutes),
            )
        )  # fmt: skip
    return found
