"""Holding things for a sitting. Belongs here: locking, claiming, moving and giving up, and finding who holds what is
taken. The database decides (`bookings.overlap`); this module asks it and words its answer's facts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

from django.db import IntegrityError, models, transaction

from bookings import hours, slots
from bookings.models import Claim, ResourceKind, Sitting
from bookings.models.sittings import OFF
from bookings.refusals import NotInUse, Resource, Taken, WrongStage
from studio.models import KitItem, Member, Profile, Room

_TABLES: dict[str, type[models.Model]] = {
    ResourceKind.KIT: KitItem,
    ResourceKind.MEMBER: Member,
    ResourceKind.ROOM: Room,
}
OFFERED_WITHIN_DAYS = 60  # so far ahead another time is looked for in hours


@dataclass(frozen=True)
class Wanted:
    """One thing a sitting asks for, and for how long."""

    kind: str
    id: int
    span: slots.Span


def of_itself(sitting: Sitting) -> list[Wanted]:
    """What a sitting holds before it has a plan: the room, the assistant and the piece of kit its kind names
    throughout, the photographer from a little before."""
    spans = sitting.spans
    wanted = [
        Wanted(ResourceKind.ROOM, sitting.room_id, spans.whole),
        Wanted(ResourceKind.MEMBER, sitting.photographer_id, spans.photographer),
    ]
    if sitting.assistant_id is not None:
        wanted.append(Wanted(ResourceKind.MEMBER, sitting.assistant_id, spans.whole))
    if sitting.kind.kit_id is not None:
        wanted.append(Wanted(ResourceKind.KIT, sitting.kind.kit_id, spans.whole))
    return wanted


def lock(wanted: Iterable[Wanted]) -> dict[tuple[str, int], Resource]:
    """Lock what is wanted, in (kind, id) order, so that two who want the same things wait instead of embracing.

    Refuses with `NotInUse`.
    """
    found = {}
    for key, row in lock_rows(wanted).items():
        resource = found[key] = Resource(*key, row.label if isinstance(row, KitItem) else str(row))
        if not getattr(row, "active", True):
            raise NotInUse(resource)
    return found


def lock_rows(wanted: Iterable[Wanted]) -> dict[tuple[str, int], models.Model]:
    """The same for things that may be out of use, by kind and key."""
    found = {}
    for kind, table in sorted(_TABLES.items()):
        ids = sorted({want.id for want in wanted if want.kind == kind})
        if ids:
            rows = table._base_manager.select_for_update().filter(pk__in=ids).order_by("pk")
            found |= {(kind, row.pk): row for row in rows}
    return found


def held_by(sitting: Sitting) -> list[Wanted]:
    """What a sitting holds now, its kit included."""
    return [Wanted(claim.resource_kind, claim.resource_id, claim.span) for claim in sitting.claims.all()]


def who_holds(wanted: Iterable[Wanted]) -> models.QuerySet[Claim]:
    """Claims that stand in the way of any of it."""
    in_the_way = models.Q(pk__in=[])
    for want in wanted:
        during = models.Q(starts_at__lt=want.span.ends_at, ends_at__gt=want.span.starts_at)
        in_the_way |= during & models.Q(resource_kind=want.kind, resource_id=want.id)
    return Claim.objects.filter(in_the_way)


@transaction.atomic
def hold(*, sitting: Sitting, wanted: Sequence[Wanted]) -> list[Claim]:
    """Claim all of it or nothing. Refuses with `Taken`, `NotInUse`."""
    resources = lock(wanted)
    rows = [
        Claim(
            sitting=sitting,
            resource_kind=want.kind,
            resource_id=want.id,
            starts_at=want.span.starts_at,
            ends_at=want.span.ends_at,
        )
        for want in wanted
    ]
    try:
        with transaction.atomic():
            return Claim.objects.bulk_create(rows)
    except IntegrityError:
        for want in wanted:
            held_by = _holder(want)
            if held_by is not None:
                raise _taken(sitting, want, resources[want.kind, want.id], held_by, wanted) from None
        raise


@transaction.atomic
def claim_kit(*, sitting: Sitting, kit: Iterable[int]) -> list[Claim]:
    """Hold just these pieces (keys of `KitItem`), and the one its kind names, from set-up to strike, and give up any
    other this sitting held.

    Refuses with `Taken` when another sitting holds one then, and with `WrongStage` when the sitting is off.
    """
    if sitting.stage in OFF:
        raise WrongStage(sitting, sitting.stage)
    sitting.claims.filter(resource_kind=ResourceKind.KIT).delete()
    span = sitting.spans.whole
    named = {sitting.kind.kit_id} - {None}
    return hold(sitting=sitting, wanted=[Wanted(ResourceKind.KIT, pk, span) for pk in sorted({*kit, *named})])


@transaction.atomic
def move(sitting: Sitting) -> list[Claim]:
    """Hold what the sitting asks for as it stands now, its pieces of kit along with it, in place of all it held.

    Refuses with `Taken`, `NotInUse`; then nothing has moved.
    """
    kit = sitting.claims.filter(resource_kind=ResourceKind.KIT).values_list("resource_id", flat=True)
    span = sitting.spans.whole
    wanted = list(dict.fromkeys([*of_itself(sitting), *(Wanted(ResourceKind.KIT, pk, span) for pk in sorted(kit))]))
    lock(wanted)  # before anything is let go, so that nobody waits for us while we wait for them
    sitting.claims.all().delete()
    return hold(sitting=sitting, wanted=wanted)


def give_up(sitting: Sitting) -> None:
    """Free everything the sitting holds."""
    sitting.claims.all().delete()


def kit_held_by_others(sitting: Sitting) -> set[int]:
    """Keys of the pieces of kit that other sittings hold at any time of this one, set-up and strike included."""
    span = sitting.spans.whole
    held = Claim.objects.filter(resource_kind=ResourceKind.KIT).during(span.starts_at, span.ends_at)
    return set(held.exclude(sitting=sitting).values_list("resource_id", flat=True))


def _holder(want: Wanted) -> Claim | None:
    held = Claim.objects.on(want.kind, [want.id]).during(want.span.starts_at, want.span.ends_at)
    return held.select_related("sitting__client").order_by("starts_at").first()


def _busy(want: Wanted, after: datetime) -> tuple[slots.Span, ...]:
    return tuple(claim.span for claim in Claim.objects.on(want.kind, [want.id]).filter(ends_at__gt=after))


def _taken(sitting: Sitting, want: Wanted, resource: Resource, held_by: Claim, wanted: Sequence[Wanted]) -> Taken:
    # A piece of kit that is taken moves no sitting by itself, but the room and the people would have to move along.
    everything = dict.fromkeys([*wanted, *of_itself(sitting)])
    earliest = min(one.span.starts_at for one in everything)
    zone = Profile.get().zone
    busy = {one: _busy(one, earliest) for one in everything}
    shut = _out_of_hours(everything, earliest, zone)
    start = sitting.spans.sitting.starts_at
    return Taken(
        resource,
        held_by,
        _within_hours([slots.Want(want.span, busy[want])], [shut[want]], want.span.starts_at),
        next_start=_within_hours(
            [slots.Want(one.span, busy[one]) for one in everything], [shut[one] for one in everything], start
        ),
        asked=want.span.starts_at,
        zone=zone,
    )


def _out_of_hours(wanted: Iterable[Wanted], after: datetime, zone: tzinfo) -> dict[Wanted, list[slots.Span]]:
    """When the house is closed, and for people when they do not work, in the days in which another time is offered."""
    wanted = list(wanted)
    first = after.astimezone(zone).date() - timedelta(days=1)
    last = first + timedelta(days=OFFERED_WITHIN_DAYS)
    people = [one for one in wanted if one.kind == ResourceKind.MEMBER]
    table = hours.timetable(first, last, [one.id for one in people], zone)
    whole = slots.Span(after - timedelta(days=1), after + timedelta(days=OFFERED_WITHIN_DAYS))
    closed = slots.gaps(table.open(first, last), whole)
    return dict.fromkeys(wanted, closed) | {
        one: slots.gaps(table.working(one.id, first, last), whole) for one in people
    }


def _within_hours(wants: Sequence[slots.Want], shut: Sequence[Sequence[slots.Span]], start: datetime) -> datetime:
    """The first start with everything, in opening and working hours; out of them where there is none within."""
    held = [slots.Want(one.span, (*one.busy, *closed)) for one, closed in zip(wants, shut, strict=True)]
    found = slots.next_start(held, start)
    last = max((span.ends_at for closed in shut for span in closed), default=found)
    return found if found < last else slots.next_start(wants, start)
