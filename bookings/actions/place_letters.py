"""Telling everybody of a rota their own time. Belongs here: writing the letters that are missing, all or none. Not
here: what they say (`bookings.place_letters`)."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import timedelta

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import correspondence, invitations, place_letters
from bookings.actions import letters
from bookings.actions.correspondence import enclose
from bookings.invitations import Party
from bookings.letter_refusals import SentAlready
from bookings.models import Letter, LetterKind, Place, Rota, Sitting
from studio import clock
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
    event = place_letters.happening(place, profile, sequence=sequence)
    guest = Party(place.sitter.label, place.email)
    return letters.write(
        sitting=rota.sitting, kind=LetterKind.PLACE, to=place.email,
        subject=said.subject.strip(), body=said.body,
        attachments=enclose(event, ICS, guest, profile, invitations.REQUEST),
        by=by, once_key=f"{place_letters.key_of(place)}-{sequence}",
        useless_at=place.starts_at + timedelta(minutes=rota.place_minutes),
    )  # fmt: skip


def _call_off(rota: Rota, letter: Letter, profile: Profile, by: Member) -> Letter:
    begin = "-".join((letter.once_key or "").split("-")[:2])
    sequence = place_letters.sequence_of(f"{begin}-")
    return letters.write(
        sitting=rota.sitting, kind=LetterKind.PLACE, to=letter.to,
        subject=_("Given back: %(subject)s") % {"subject": letter.subject},
        body=place_letters.off_body(letter, profile), attachments=_taken_out(letter, profile, sequence), by=by,
        once_key=f"{begin}{place_letters.OFF}{sequence}",
    )  # fmt: skip


def _taken_out(letter: Letter, profile: Profile, sequence: int) -> list[letters.Enclosed]:
    """The entry for a calendar cancelled, by what was sent, for the place is there no more; none where none went."""
    sent = letter.attachments.filter(name=ICS).first()
    if sent is None:
        return []
    event, name = invitations.read_back(bytes(sent.content))
    event = replace(event, sequence=sequence, stamp=clock.now())
    return enclose(event, ICS, Party(name, letter.to), profile, invitations.CANCEL)


def _hold_back(letter: Letter) -> bool:
    """Whether it had not gone yet, and now never will."""
    if letter.state != Letter.State.WAITING:
        return False
    with suppress(SentAlready):
        letters.give_up(letter=letter, why=_("Another place was given before it was sent."))
        return True
    return False
