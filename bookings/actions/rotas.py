"""Keeping a rota. Belongs here: the places of a list in one transaction with the people of the sitting, and its length
where it must be longer. Not here: the order (`bookings.rota_list`), what happens on the day (`rota_days`)."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import timedelta
from typing import Any

from django.db import transaction

from bookings import rota_list
from bookings.actions import changes, comfort, holds
from bookings.actions.changes import DETAILS, KeptPerson
from bookings.actions.sittings import SitterInput
from bookings.models import Place, Rota, Sitter, Sitting, State
from bookings.name_list import Line
from bookings.rota_list import Arranged, Seat
from bookings.rota_refusals import RotaBegun
from studio.models import Member
from studio.models.versions import Stale

MINUTE = timedelta(minutes=1)
SETTINGS = (
    "place_minutes", "real_minutes", "gap_after", "gap_minutes", "lunch_at", "lunch_minutes", "wear",
    "keeps_list_order",
)  # fmt: skip


@transaction.atomic
def keep(
    *,
    by: Member,
    sitting: Sitting,
    seen: int,
    lines: Sequence[Line],
    settings: Rota,
    only_listed: bool = False,
    lengthen: bool = False,
    acknowledged: Collection[str] = (),
) -> Rota:
    """Give everybody of a list a place and, new ones, a seat in the sitting; what was there of places before is
    replaced. `seen` is the rota's version as it was opened, 0 for none; `lengthen` books the sitting until the last
    place ends.

    Raises `Stale` when somebody else was faster. Refuses with `RotaBegun` and whatever changing the sitting refuses
    with; then nothing is kept.
    """
    holds.alone()
    kept = Sitting.objects.select_for_update().get(pk=sitting.pk)
    row = Rota.objects.select_for_update().filter(sitting=kept).first()
    if (row.version if row else 0) != seen:
        raise Stale(row)
    if row is not None and row.places.exclude(state=State.WAITING).exists():
        raise RotaBegun
    arranged = rota_list.arrange(kept, lines, settings, only_listed=only_listed)
    minutes = max(kept.minutes, arranged.minutes_from(kept.starts_at)) if lengthen else kept.minutes
    change_people(
        by=by, sitting=kept, minutes=minutes, people=_people(arranged), acknowledged=acknowledged,
        taken_out=[*(one.pk for one in arranged.spare), *_not_listed(arranged, only_listed)],
    )  # fmt: skip
    row = row or Rota(sitting=kept, version=0)
    for name in SETTINGS:
        setattr(row, name, getattr(settings, name))
    lunch = arranged.table.lunch
    row.lunch_after = None if lunch is None else int((lunch.starts_at - kept.starts_at) / MINUTE)
    row.version += 1
    row.save()
    _give_places(row, arranged, {sitter.label: sitter for sitter in Sitter.objects.filter(sitting=kept)})
    return row


def change_people(
    *, by: Member, sitting: Sitting, people: Sequence[KeptPerson], minutes: int | None = None,
    taken_out: Collection[int] = (), acknowledged: Collection[str] = (),
) -> None:  # fmt: skip
    """People and length alone; everything else of the sitting stays."""
    as_it_is: dict[str, Any] = {
        name: getattr(sitting, name)
        for name in ("starts_at", "setup_minutes", "strike_minutes", "room", "photographer", "assistant", "purpose",
                     "print_width_cm")
    }  # fmt: skip
    changes.change(
        by=by, sitting=sitting, seen=sitting.version, minutes=minutes or sitting.minutes, people=people,
        taken_out=taken_out, acknowledged=acknowledged, **as_it_is,
    )  # fmt: skip


def _people(arranged: Arranged) -> list[KeptPerson]:
    """Those who are new, who get a name, or of whom the list said how they sit."""
    found = []
    for seat in arranged.places:
        entry, sitter = seat.entry, seat.entry.sitter if seat.entry else None
        assert entry is not None
        if sitter is None:
            found.append(KeptPerson(None, SitterInput(entry.name, posture=entry.posture)))
        elif sitter.pk in arranged.renamed or entry.posture != sitter.posture:
            details = {name: getattr(sitter, name) for name in DETAILS} | {"posture": entry.posture}
            label = arranged.renamed.get(sitter.pk, sitter.label)
            found.append(KeptPerson(sitter.pk, SitterInput(label, **details)))
    return found


def _not_listed(arranged: Arranged, only_listed: bool) -> list[int]:
    return [one.sitter.pk for one in arranged.unlisted if one.sitter] if only_listed else []


def _give_places(row: Rota, arranged: Arranged, sitters: dict[str, Sitter]) -> None:
    """An address given earlier stays where the list has none now."""
    emails = dict(row.places.values_list("sitter_id", "email"))
    row.places.all().delete()
    places = []
    for seat in arranged.places:
        assert seat.entry is not None
        sitter = _sitter_of(seat, sitters)
        comfort.add(sitter=sitter, notes=seat.entry.notes)
        places.append(
            Place(
                rota=row, sitter=sitter, number=seat.number, queue=seat.number, part=seat.entry.part,
                wished=seat.entry.wished, email=seat.entry.email or emails.get(sitter.pk, ""),
                after=int((seat.span.starts_at - row.sitting.starts_at) / MINUTE),
            )
        )  # fmt: skip
    Place.objects.bulk_create(places)


def _sitter_of(seat: Seat, sitters: dict[str, Sitter]) -> Sitter:
    assert seat.entry is not None
    if seat.entry.sitter is not None and seat.entry.sitter.label in sitters:
        return sitters[seat.entry.sitter.label]
    return sitters[seat.entry.name]
