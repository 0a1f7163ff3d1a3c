"""Changing a sitting after it was booked. Belongs here: time, place, people and purpose in one transaction, with the
claims moved and the history written. Not here: its stage (`sittings`), notes on people (`comfort`)."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from django.conf import settings
from django.db import transaction
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _

from bookings import stages, wording
from bookings.actions import claims
from bookings.actions.sittings import SitterInput, check_people
from bookings.models import Sitter, Sitting, SittingChange
from bookings.refusals import SamePerson, StillNeeded, TooLate
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


@transaction.atomic
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
) -> list[SittingChange]:
    """Bring a booked sitting to what is given; `seen` is the version it was opened at. Returns what really changed.

    People who are in neither `people` nor `taken_out` stay as they are. Raises `Stale` when somebody else was faster.
    Refuses with `Taken`, `SamePerson`, `NotInUse`, `WrongPeople`, `StillNeeded`, `TooLate`; then nothing is changed.
    """
    kept = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=sitting.pk)
    if kept.version != seen:
        raise Stale(kept)
    if kept.stage not in stages.CHANGEABLE:
        raise TooLate(kept)
    if assistant is not None and assistant.pk == photographer.pk:
        raise SamePerson(photographer.name)
    wanted = {
        What.START: starts_at.astimezone(UTC), What.MINUTES: minutes, What.SETUP: setup_minutes,
        What.STRIKE: strike_minutes, What.ROOM: room, What.PHOTOGRAPHER: photographer, What.ASSISTANT: assistant,
        What.PURPOSE: purpose, What.PRINT_WIDTH: print_width_cm,
    }  # fmt: skip
    found = [*_set(kept, wanted), *_seat(kept, people, taken_out)]
    if not found:
        return []
    kept.version += 1
    kept.save()
    if {one.what for one in found} & set(HELD_BY):
        claims.move(kept)
    at = clock.now()
    rows = [SittingChange(sitting=kept, at=at, by=by, note=note.strip(), **vars(one)) for one in found]
    return SittingChange.objects.bulk_create(rows)


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
        zone = Profile.get().zone
        return _("%(day)s, %(time)s") % {"day": wording.day(value, zone), "time": wording.time(value, zone)}
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
        Sitter.objects.filter(pk=pk).update(label=label)
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
