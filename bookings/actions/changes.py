"""Changing a sitting after it was booked. Belongs here: time, place, people and purpose in one transaction, with the
claims moved and the history written. Not here: its stage (`sittings`), notes on people (`comfort`)."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from django.conf import settings
from django.db import transaction
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _

from bookings import accounts, stages, wording
from bookings.actions import claims, correspondence, holds, money, objecting
from bookings.actions.sittings import SitterInput, check_people
from bookings.folding import words_line
from bookings.models import Charge, Hold, Sitter, Sitting, SittingChange, Stage
from bookings.refusals import SamePerson, StillNeeded, Taken, TooLate
from studio import clock
from studio.models import Member, Profile, Room
from studio.models.quantities import plain
from studio.models.versions import Stale

What = SittingChange.What
HELD_BY = (What.START, What.MINUTES, What.SETUP, What.STRIKE, What.ROOM, What.PHOTOGRAPHER, What.ASSISTANT)
DETAILS = ("age_years", "height_cm", "posture", "household", "relation", "central", "keep_with")


@dataclass(frozen=True)
class KeptPerson:
    """One person as the sitting shall have them; `pk` None, or of nobody in it any more, for somebody new."""

    pk: int | None
    is_now: SitterInput


@dataclass(frozen=True)
class Change:
    """One line of the history to be."""

    what: str
    before: str = ""
    after: str = ""


def change(
    *,
    by: Member,
    sitting: Sitting,
    seen: int | None,
    starts_at: datetime,
    minutes: int,
    setup_minutes: int,
    strike_minutes: int,
    room: Room,
    photographer: Member,
    assistant: Member | None,
    purpose: str,
    print_width_cm: float | None,
    people: Sequence[KeptPerson],
    taken_out: Collection[int] = (),
    note: str = "",
    agreed_fee: Decimal | None = None,
    acknowledged: Collection[str] = (),
    hangs: str | None = None,
) -> list[SittingChange]:
    """Bring a booked sitting to what is given; `seen` is the version it was opened at. Returns what really changed.

    People who are in neither `people` nor `taken_out` stay as they are; `agreed_fee` is what another time costs where
    the terms of the booking say so, `acknowledged` are codes of objections set aside. Raises `Stale` when somebody
    else was faster. Refuses with `Taken`, `SamePerson`, `NotInUse`, `WrongPeople`, `StillNeeded`, `TooLate`,
    `Objected`, `FeeToAgree`, `FeeNeedsNote`; then nothing is changed.
    """
    wanted = {
        What.START: starts_at.astimezone(UTC), What.MINUTES: minutes, What.SETUP: setup_minutes,
        What.STRIKE: strike_minutes, What.ROOM: room, What.PHOTOGRAPHER: photographer, What.ASSISTANT: assistant,
        What.PURPOSE: purpose, What.PRINT_WIDTH: print_width_cm,
        What.HANGS: sitting.hangs if hangs is None else hangs,
    }  # fmt: skip
    asked = _as_asked(sitting, wanted)
    if asked.photographer_id == asked.assistant_id:
        raise SamePerson(photographer.name)
    holds.release_lapsed(clock.now(), touching=claims.of_itself(asked), but=sitting)
    with transaction.atomic():
        kept, queue = _locked(sitting, seen)
        if kept.starts_at != asked.starts_at:
            fee = accounts.fee_to_move(kept, clock.now())
            money.charge_step(kept, Charge.What.MOVING, fee, by=by, agreed=agreed_fee, note=note)
        stood_before = objecting.against(kept, _ages(kept))
        found = [*_set(kept, wanted), *_seat(kept, people, taken_out)]
        rows = _keep(kept, found, queue, by=by, note=note)
        if rows:
            objecting.set_aside(kept, objecting.heed(kept, _ages(kept), acknowledged, stood_before), by=by)
            correspondence.tell_change(kept, rows, fee=agreed_fee or Decimal(0), by=by)
        return rows


def _locked(sitting: Sitting, seen: int | None) -> tuple[Sitting, list[Sitting]]:
    """The sitting as it is kept now, and who waits behind it."""
    holds.alone()
    kept, queue = holds.lock_with_queue(sitting.pk)
    if kept.version != seen:
        raise Stale(kept)
    if kept.stage not in stages.CHANGEABLE:
        raise TooLate(kept)
    return kept, queue


def _keep(
    kept: Sitting, found: Sequence[Change], queue: Sequence[Sitting], *, by: Member, note: str
) -> list[SittingChange]:
    if not found:
        return []
    kept.version += 1
    kept.save()
    if {one.what for one in found} & set(HELD_BY):
        _move_claims(kept, queue)
    at = clock.now()
    rows = [SittingChange(sitting=kept, at=at, by=by, note=note.strip(), **vars(one)) for one in found]
    return SittingChange.objects.bulk_create(rows)


def _ages(sitting: Sitting) -> list[float | None]:
    return list(Sitter.objects.filter(sitting=sitting).values_list("age_years", flat=True))


def _as_asked(sitting: Sitting, wanted: Mapping[str, Any]) -> Sitting:
    """The sitting as it would be, never saved: to ask what it would hold."""
    asked = copy(sitting)
    for name, value in wanted.items():
        setattr(asked, str(name), value)
    return asked


def _move_claims(kept: Sitting, queue: Sequence[Sitting]) -> None:
    """Hold the new time and let the old one go, for whoever waits behind it. What holds nothing goes on so."""
    if kept.stage == Stage.ENQUIRY:
        return
    hold = holds.of(kept)
    wanted = claims.of_itself(kept)
    if hold is not None and hold.behind is not None:
        _wait_or_hold(kept, wanted, hold)
        return
    waiting = [want for row in queue for want in claims.of_itself(row)]
    claims.lock_rows([*claims.held_by(kept), *wanted, *waiting])
    claims.move(kept)
    holds.end_in_time(kept)
    holds.move_up(queue, clock.now())


def _wait_or_hold(kept: Sitting, wanted: Sequence[claims.Wanted], hold: Hold) -> None:
    """Somebody who waits takes a time that is free, and else goes on waiting behind the same."""
    first = hold.behind
    try:
        claims.hold(sitting=kept, wanted=wanted)
    except Taken as taken:
        if first is None or taken.held_by.sitting_id != first.pk:
            raise
    else:
        holds.wait_no_longer(kept)


def _set(kept: Sitting, wanted: Mapping[str, Any]) -> Iterator[Change]:
    """Set what differs, each with its line."""
    for name, value in wanted.items():
        before = getattr(kept, name)
        if value != before:
            yield Change(name, _words(name, before), _words(name, value))
            setattr(kept, str(name), value)


def _words(name: str, value: Any) -> str:
    """A value of a sitting as its page says it."""
    if value is None or value == "":
        return ""
    if name == What.START:
        return wording.moment_in_full(value, Profile.get().zone)
    if name in (What.MINUTES, What.SETUP, What.STRIKE):
        return _("%(n)d minutes") % {"n": value}
    return f"{plain(value)} cm" if name == What.PRINT_WIDTH else str(value)


def _seat(kept: Sitting, people: Sequence[KeptPerson], taken_out: Collection[int]) -> Iterator[Change]:
    """Take out, rename, correct and add people, each with its line."""
    here = {sitter.pk: sitter for sitter in kept.sitters.select_for_update()}
    given = {one.pk: one for one in people if one.pk in here}
    stay = [sitter for pk, sitter in here.items() if pk not in taken_out and pk not in given]
    check_people([*(SitterInput(sitter.label) for sitter in stay), *(one.is_now for one in people)])
    yield from _take_out(kept, [here[pk] for pk in taken_out if pk in here])
    names = {here[pk].label: one.is_now.label for pk, one in given.items() if one.is_now.label != here[pk].label}
    if names:
        yield from _rename(kept, {here[pk].pk: one.is_now.label for pk, one in given.items()}, names)
    for pk, one in given.items():
        yield from _correct(here[pk], one.is_now)
    last = max((sitter.position for sitter in here.values()), default=-1)
    for place, one in enumerate((one for one in people if one.pk not in here), last + 1):
        details = {name: getattr(one.is_now, name) for name in DETAILS}
        Sitter.objects.create(sitting=kept, position=place, label=one.is_now.label, **details)
        yield Change(What.ADDED, after=one.is_now.label)


def _take_out(kept: Sitting, sitters: Sequence[Sitter]) -> Iterator[Change]:
    """What is known of them goes with them."""
    uses: dict[str, str] = {}
    for path in settings.SITTER_USES if sitters else ():
        uses |= import_string(path)(kept)
    for sitter in sitters:
        if sitter.label in uses:
            raise StillNeeded(sitter.label, uses[sitter.label])
        sitter.delete()
        yield Change(What.TAKEN_OUT, before=sitter.label)


def _rename(kept: Sitting, labels: Mapping[int, str], names: Mapping[str, str]) -> Iterator[Change]:
    """Two may swap names, so all of them pass through a name nobody has."""
    for pk in labels:
        Sitter.objects.filter(pk=pk).update(label=f"{pk}\N{ZERO WIDTH SPACE}")
    for pk, label in labels.items():
        Sitter.objects.filter(pk=pk).update(label=label, found_by=words_line(label))
    for path in settings.SITTER_RENAMES:
        import_string(path)(kept, names)
    for before, after in names.items():
        yield Change(What.NAME, before, after)


def _correct(sitter: Sitter, is_now: SitterInput) -> Iterator[Change]:
    changed = [name for name in DETAILS if getattr(sitter, name) != getattr(is_now, name)]
    if changed:
        Sitter.objects.filter(pk=sitter.pk).update(**{name: getattr(is_now, name) for name in changed})
        words = ", ".join(str(Sitter._meta.get_field(name).verbose_name) for name in changed)
        yield Change(What.CORRECTED, is_now.label, words)
