"""What happens to a sitting. Belongs here: booking it and moving it from stage to stage, each in one transaction."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import accounts, late, stages
from bookings.actions import claims, comfort, correspondence, holds, money, objecting, terms, wait_list
from bookings.models import Charge, Client, Kind, NumberSeries, Sitter, Sitting, Stage, StageChange, Trust
from bookings.models.numbers import written
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.models.sittings import OFF
from bookings.refusals import (
    MovedMeanwhile,
    NoteNeeded,
    SamePerson,
    Taken,
    TooEarly,
    Waiting,
    WrongPeople,
    WrongStage,
)
from studio import clock
from studio.languages import kept_for_all
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
    behind: Sitting | None = None,
    acknowledged: Collection[str] = (),
    occasion_on: date | None = None,
    hangs: str = "",
) -> Sitting:
    """Book a sitting with its people and hold room, photographer and assistant. A client not kept yet is kept too.

    Where the time is taken by the sitting `behind`, a hold behind that one is placed; where it is free by then, it is
    held. `acknowledged` are codes of objections set aside. Refuses with `Taken`, `SamePerson`, `NotInUse`,
    `WrongPeople`, `Objected`; then nothing is kept.
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
        hangs=hangs,
        print_width_cm=print_width_cm,
        occasion_on=occasion_on,
    )
    holds.release_lapsed(clock.now(), touching=claims.of_itself(sitting))
    return _keep(sitting, by=by, client=client, sitters=sitters, behind=behind, acknowledged=acknowledged)


@transaction.atomic
def _keep(
    sitting: Sitting,
    *,
    by: Member,
    client: Client,
    sitters: Sequence[SitterInput],
    behind: Sitting | None,
    acknowledged: Collection[str],
) -> Sitting:
    wanted = claims.of_itself(sitting)
    if behind is not None:
        holds.alone()
    claims.lock(wanted)  # before the running number, which must be the last thing anybody waits for
    if client.pk is None:
        client.save()
    profile = Profile.get()
    sitting.client = client
    terms.agree(sitting, profile)
    sitting.number = written(_letter(profile.studio_name), NumberSeries.take("sittings"))
    sitting.save()
    holds.place(sitting, by=by, behind=_first_of(sitting, wanted, behind))
    spoken_against = objecting.heed(sitting, [person.age_years for person in sitters], acknowledged)
    money.open_account(sitting, by=by)
    for position, person in enumerate(sitters):
        _seat(sitting, position, person)
    _note_change(sitting, by=by, before="", note="")
    objecting.set_aside(sitting, spoken_against, by=by)
    wait_list.booked(sitting)
    return sitting


def _first_of(sitting: Sitting, wanted: Sequence[claims.Wanted], behind: Sitting | None) -> Sitting | None:
    """The sitting to wait behind, if its time is taken by the one expected; else the claims are made."""
    try:
        claims.hold(sitting=sitting, wanted=wanted)
    except Taken as taken:
        if behind is None or taken.held_by.sitting_id != behind.pk:
            raise
        return taken.held_by.sitting
    return None


@transaction.atomic
def change_stage(
    *,
    by: Member,
    sitting: Sitting,
    to: str,
    note: str = "",
    seen: int | None = None,
    agreed_fee: Decimal | None = None,
    waive_deposit: bool = False,
    trust_until: date | None = None,
) -> Sitting:
    """Move a sitting on; `seen` is the version the page showed, `agreed_fee` what the step costs where its terms say
    so. Cancelling gives up what it holds, and who waits behind it moves up.

    Refuses with `MovedMeanwhile`, `WrongStage`, `NoteNeeded`, `Waiting`, `DepositMissing`, `OwnerOnly`, `WrongTrust`,
    `FeeToAgree`, `FeeNeedsNote`, `WrongAmount`, `TooEarly`, and an enquiry that is to be held with `Taken`, `NotInUse`.
    """
    holds.alone()
    kept, queue = holds.lock_with_queue(sitting.pk)
    if seen is not None and kept.version != seen:
        raise MovedMeanwhile(kept)
    if to not in stages.FOLLOWS[kept.stage]:
        raise WrongStage(kept, to)
    if stages.needs_a_note(kept.stage, to) and not note.strip():
        raise NoteNeeded
    before, note = Stage(kept.stage), note.strip()
    if to == Stage.ARRIVED and not note:
        with kept_for_all():
            note = late.said_late(kept, clock.now())
    if to == Stage.CONFIRMED and before == Stage.HELD:
        _confirm(kept, by=by, waive=waive_deposit, trust_until=trust_until, note=note)
    elif to in OFF:
        _call_off(kept, to, by=by, agreed=agreed_fee, note=note)
    elif to == Stage.ARRIVED and before == Stage.NO_SHOW:
        money.charge_fee_again(kept, by=by)
    kept.stage = to
    kept.version += 1
    kept.save(update_fields=["stage", "version"])
    if to == Stage.HELD:
        _hold_again(kept, before, by)
    elif to == Stage.CANCELLED:
        _let_go(kept, queue)
    _note_change(kept, by=by, before=before, note=note)
    _tell_client(kept, before, agreed_fee, by)
    return kept


def _tell_client(kept: Sitting, before: Stage, agreed_fee: Decimal | None, by: Member) -> None:
    if kept.stage == Stage.CONFIRMED and before == Stage.HELD:
        correspondence.confirm(kept, by=by)
    elif kept.stage == Stage.CANCELLED:
        correspondence.tell_cancelled(kept, before=before, fee=agreed_fee or Decimal(0), by=by)


def _confirm(kept: Sitting, *, by: Member, waive: bool, trust_until: date | None, note: str) -> None:
    hold = holds.of(kept)
    if hold is not None and hold.behind is not None:
        raise Waiting(kept, hold.behind)
    money.secure_deposit(kept, by=by, waive=waive, trust_until=trust_until, note=note)
    holds.end(kept)


def _call_off(kept: Sitting, to: str, *, by: Member, agreed: Decimal | None, note: str) -> None:
    """Charge what the terms say instead of the fee."""
    if to == Stage.CANCELLED:
        what, fee = Charge.What.CANCELLING, accounts.fee_to_cancel(kept, clock.now())
    else:
        what, fee = Charge.What.NO_SHOW, accounts.fee_of_no_show(kept)
        if kept.agreed is not None and clock.now() < late.no_show_from(kept):
            raise TooEarly(late.no_show_from(kept))
    money.charge_step(kept, what, fee, by=by, agreed=agreed, note=note)
    money.take_fee_back(kept, by=by)


def _hold_again(kept: Sitting, before: Stage, by: Member) -> None:
    """An enquiry has no time yet, or lost it; a step back from confirmed has kept its own."""
    Trust.objects.filter(sitting=kept).delete()
    if before == Stage.ENQUIRY:
        holds.take_up(kept, by=by)
    else:
        holds.place(kept, by=by)


def _let_go(kept: Sitting, queue: Sequence[Sitting]) -> None:
    hold = holds.of(kept)
    holds.end(kept)
    holds.give_up(kept, queue, clock.now())
    if hold is not None and hold.behind is not None:
        holds.close_up(hold.behind)


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
