"""Telling everybody of a rota their own time. Belongs here: writing the letters that are missing, all or none. Not
here: what they say (`bookings.place_letters`)."""

from __future__ import annotations

from contextlib import suppress
from datetime import timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import correspondence, place_letters
from bookings.actions import letters
from bookings.letter_refusals import SentAlready
from bookings.models import Letter, LetterKind, Place, Rota, Sitting
from studio.languages import as_house
from studio.models import Member, Profile

ICS = "invitation.ics"


@transaction.atomic
def tell(*, by: Member, rota: Rota) -> list[Letter]:
    """A letter to everybody who has an address and does not know this time yet, and to everybody who was told one and
    has none any more. A letter not sent yet that became wrong is not sent."""
    Rota.objects.select_for_update().get(pk=rota.pk)
    profile = Profile.get()
    with as_house(profile):
        return _told(rota, profile, by)


def _told(rota: Rota, profile: Profile, by: Member) -> list[Letter]:
    held = correspondence.values(Sitting.objects.with_people().get(pk=rota.sitting_id), profile)
    text = correspondence.wording_of(LetterKind.PLACE)
    found = []
    for row in place_letters.told(rota):
        if row.letter is not None and row.state == place_letters.CHANGED:
            _hold_back(row.letter)
        if row.is_to_be_told:
            said = correspondence.filled(text, held | place_letters.blanks_of(row.place, profile))
            found.append(_write(rota, row.place, said, profile, by))
    for letter in place_letters.taken_back(rota):
        if not _hold_back(letter) and letter.to:
            found.append(_call_off(rota, letter, profile, by))
    return found


def _write(rota: Rota, place: Place, said: correspondence.Text, profile: Profile, by: Member) -> Letter:
    sequence = place_letters.sequence_of(place_letters.begin_of(place))
    invitation = place_letters.entry(place, profile, sequence=sequence)
    method = "REQUEST" if b"METHOD:REQUEST" in invitation else "PUBLISH"
    return letters.write(
        sitting=rota.sitting, kind=LetterKind.PLACE, to=place.email,
        subject=said.subject.strip(), body=said.body,
        attachments=[letters.Enclosed(ICS, f"text/calendar; method={method}", invitation)],
        by=by, once_key=f"{place_letters.key_of(place)}-{sequence}",
        useless_at=place.starts_at + timedelta(minutes=rota.place_minutes),
    )  # fmt: skip


def _call_off(rota: Rota, letter: Letter, profile: Profile, by: Member) -> Letter:
    begin = "-".join((letter.once_key or "").split("-")[:2])
    sequence = place_letters.sequence_of(f"{begin}-")
    sent = bytes(letter.attachments.get(name=ICS).content)
    enclosed = letters.Enclosed(
        ICS, "text/calendar; method=CANCEL", place_letters.off_entry(sent, sequence=sequence)
    )  # fmt: skip
    return letters.write(
        sitting=rota.sitting, kind=LetterKind.PLACE, to=letter.to,
        subject=_("Given back: %(subject)s") % {"subject": letter.subject},
        body=place_letters.off_body(letter, profile), attachments=[enclosed], by=by,
        once_key=f"{begin}{place_letters.OFF}{sequence}",
    )  # fmt: skip


def _hold_back(letter: Letter) -> bool:
    """Whether it had not gone yet, and now never will."""
    if letter.state != Letter.State.WAITING:
        return False
    with suppress(SentAlready):
        letters.give_up(letter=letter, why=_("Another place was given before it was sent."))
        return True
    return False
