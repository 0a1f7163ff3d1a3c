"""What happens to a sitting. Belongs here: booking it and moving it from stage to stage, each in one transaction."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import stages
from bookings.actions import claims, comfort
from bookings.models import Client, Kind, NumberSeries, Sitter, Sitting, Stage, StageChange
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.refusals import MovedMeanwhile, NoteNeeded, SamePerson, WrongPeople, WrongStage
from studio import clock
from studio.models import Member, Profile, Room


@dataclass(frozen=True)
class SitterInput:
    """One person of a new sitting; `notes` and `wishes` by the names of `bookings.models.comfort`."""

    label: str
    age_years: float | None = None
    height_cm: float | None = None
    posture: str = ""
    household: str = ""
    relation: str = ""
    central: bool = False
    keep_with: str = ""
    notes: Mapping[str, Any] = field(default_factory=dict)
    wishes: Sequence[Mapping[str, str]] = ()


@transaction.atomic
def book(
    *,
    by: Member,
    client: Client,
    kind: Kind,
    room: Room,
    photographer: Member,
    assistant: Member | None,
    starts_at: datetime,
    minutes: int,
    setup_minutes: int,
    strike_minutes: int,
    purpose: str,
    print_width_cm: float | None,
    sitters: Sequence[SitterInput],
) -> Sitting:
    """Book a sitting with its people and hold room, photographer and assistant. A client not kept yet is kept too.

    Refuses with `Taken`, `SamePerson`, `NotInUse`, `WrongPeople`; then nothing is kept.
    """
    if assistant is not None and assistant.pk == photographer.pk:
        raise SamePerson(photographer.name)
    check_people(sitters)
    sitting = Sitting(
        kind=kind,
        room=room,
        photographer=photographer,
        assistant=assistant,
        starts_at=starts_at.astimezone(UTC),
        minutes=minutes,
        setup_minutes=setup_minutes,
        strike_minutes=strike_minutes,
        purpose=purpose,
        print_width_cm=print_width_cm,
    )
    wanted = claims.of_people_and_room(sitting)
    claims.lock(wanted)  # before the running number, which must be the last thing anybody waits for
    if client.pk is None:
        client.save()
    sitting.client = client
    sitting.number = f"{_letter(Profile.get().studio_name)}-{NumberSeries.take('sittings'):04d}"
    sitting.save()
    claims.hold(sitting=sitting, wanted=wanted)
    for position, person in enumerate(sitters):
        _seat(sitting, position, person)
    _note_change(sitting, by=by, before="", note="")
    return sitting


@transaction.atomic
def change_stage(*, by: Member, sitting: Sitting, to: str, note: str = "", seen: int | None = None) -> Sitting:
    """Move a sitting on; `seen` is the version the page showed. Cancelling gives up what it holds.

    Refuses with `MovedMeanwhile`, `WrongStage`, `NoteNeeded`.
    """
    kept = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=sitting.pk)
    if seen is not None and kept.version != seen:
        raise MovedMeanwhile(kept)
    if to not in stages.FOLLOWS[kept.stage]:
        raise WrongStage(kept, to)
    if stages.needs_a_note(kept.stage, to) and not note.strip():
        raise NoteNeeded
    before, kept.stage = kept.stage, to
    kept.version += 1
    kept.save(update_fields=["stage", "version"])
    if to == Stage.CANCELLED:
        claims.give_up(kept)
    _note_change(kept, by=by, before=before, note=note.strip())
    return kept


def check_people(sitters: Sequence[SitterInput]) -> None:
    """Refuses with `WrongPeople`: nobody, too many, or two of one short name."""
    if not sitters:
        raise WrongPeople(_("Name at least one person who sits."))
    if len(sitters) > MOST_IN_A_SITTING:
        raise WrongPeople(_("One sitting takes %(most)d people at most.") % {"most": MOST_IN_A_SITTING})
    labels = [person.label for person in sitters]
    twice = next((label for label in labels if labels.count(label) > 1), None)
    if twice is not None:
        raise WrongPeople(_("Two people are called %(name)s. Give each a short name of their own.") % {"name": twice})


def _seat(sitting: Sitting, position: int, person: SitterInput) -> None:
    sitter = Sitter.objects.create(
        sitting=sitting,
        position=position,
        label=person.label,
        age_years=person.age_years,
        height_cm=person.height_cm,
        posture=person.posture,
        household=person.household,
        relation=person.relation,
        central=person.central,
        keep_with=person.keep_with,
    )
    comfort.add(sitter=sitter, notes=person.notes, wishes=person.wishes)


def _note_change(sitting: Sitting, *, by: Member, before: str, note: str) -> None:
    StageChange.objects.create(
        sitting=sitting, at=clock.now(), by=by, stage_from=before, stage_to=sitting.stage, note=note
    )


def _letter(name: str) -> str:
    """The letter of the studio: the first of its name that the alphabet of numbers has, S where it has none."""
    plain = unicodedata.normalize("NFKD", name).upper()
    return next((letter for letter in plain if "A" <= letter <= "Z"), "S")
