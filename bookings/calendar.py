"""The read side of the calendar. Belongs here: one day as lanes of blocks and gaps, ready to be drawn. Not here:
drawing it, and anything that writes."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from datetime import time as time_of_day

from django.utils import timezone

from bookings import slots
from bookings.models import Claim, ResourceKind, Sitting
from studio.models import Member, Role, Room

# Shown even when nothing is booked; opening hours of the studio's own will come with its letters and money.
FIRST_HOUR, LAST_HOUR = 8, 19
ROW = timedelta(minutes=15)
SHORTEST_GAP = timedelta(minutes=45)  # a sitting with set-up and strike needs more: nothing to click


@dataclass(frozen=True)
class Block:
    """A part of a lane: set-up, sitting or strike of a sitting, or a gap (no sitting)."""

    what: str
    span: slots.Span
    row: int
    rows: int
    sitting: Sitting | None = None
    bookable: bool = False


@dataclass(frozen=True)
class Lane:
    """One room or one person through the day."""

    kind: str
    id: int
    name: str
    blocks: list[Block] = field(default_factory=list)


@dataclass(frozen=True)
class Day:
    """One day of the house, from `span.starts_at` to `span.ends_at` in quarter-hours."""

    date: date
    span: slots.Span
    rooms: list[Lane]
    people: list[Lane]
    sittings: list[Sitting]
    hours: list[tuple[int, datetime]]  # row and moment of each full hour
    now_row: int | None
    now: datetime


def day(on: date, *, now: datetime) -> Day:
    """The day in the zone in force."""
    midnight, next_midnight = _midnight(on), _midnight(on + timedelta(days=1))
    claims = list(
        Claim.objects.exclude(resource_kind=ResourceKind.KIT)
        .during(midnight, next_midnight)
        .select_related("sitting__client", "sitting__kind", "sitting__room", "sitting__photographer")
    )
    whole = slots.Span(midnight, next_midnight)
    span = _shown(whole, claims)
    held: dict[tuple[str, int], list[Claim]] = defaultdict(list)
    for claim in claims:
        held[claim.resource_kind, claim.resource_id].append(claim)
    rooms = [row for row in Room.objects.all() if row.active or ("room", row.pk) in held]
    people = [
        row
        for row in Member.objects.with_roles()
        if ("member", row.pk) in held or (row.active and row.has_role(Role.PHOTOGRAPHER, Role.ASSISTANT))
    ]
    sittings = {claim.sitting_id: claim.sitting for claim in claims}
    return Day(
        date=on,
        span=span,
        rooms=[_lane(ResourceKind.ROOM, row.pk, row.name, held, span) for row in rooms],
        people=[_lane(ResourceKind.MEMBER, row.pk, row.name, held, span) for row in people],
        sittings=sorted(sittings.values(), key=lambda sitting: (sitting.starts_at, sitting.pk)),
        hours=_hours(span),
        now_row=_row(now, span) if span.starts_at <= now < span.ends_at else None,
        now=now,
    )


def _midnight(on: date) -> datetime:
    return timezone.make_aware(datetime.combine(on, time_of_day()))


def _shown(whole: slots.Span, claims: list[Claim]) -> slots.Span:
    """The usual hours, and as many more as the day's claims reach into, in full hours."""
    first = whole.starts_at.replace(hour=FIRST_HOUR)
    last = whole.starts_at.replace(hour=LAST_HOUR)
    for claim in claims:
        first = min(first, max(claim.starts_at, whole.starts_at).astimezone(first.tzinfo).replace(minute=0, second=0))
        end = min(claim.ends_at, whole.ends_at).astimezone(first.tzinfo)
        last = max(last, end if not end.minute else end.replace(minute=0, second=0) + timedelta(hours=1))
    utc = timezone.get_default_timezone()
    return slots.Span(first.astimezone(utc), last.astimezone(utc))


def _row(moment: datetime, span: slots.Span) -> int:
    return int((moment - span.starts_at) / ROW)


def _hours(span: slots.Span) -> list[tuple[int, datetime]]:
    count = int(span.length / timedelta(hours=1))
    return [(4 * number, span.starts_at + timedelta(hours=number)) for number in range(count)]


def _lane(kind: str, pk: int, name: str, held: dict[tuple[str, int], list[Claim]], shown: slots.Span) -> Lane:
    claims = held[kind, pk]
    blocks = [block for claim in claims for block in _blocks(claim, shown)]
    for gap in slots.gaps([claim.span for claim in claims], shown):
        blocks.append(_block("gap", gap, shown, bookable=gap.length >= SHORTEST_GAP))
    return Lane(kind, pk, name, sorted(blocks, key=lambda block: block.span))


def _blocks(claim: Claim, shown: slots.Span) -> list[Block]:
    """A claim cut at the ends of the sitting proper: what lies before and after it is set-up and strike."""
    sitting = claim.sitting
    proper = sitting.spans.sitting
    parts = [
        ("set-up", claim.starts_at, proper.starts_at),
        ("sitting", max(claim.starts_at, proper.starts_at), min(claim.ends_at, proper.ends_at)),
        ("strike", proper.ends_at, claim.ends_at),
    ]
    found = []
    for what, start, end in parts:
        start, end = max(start, shown.starts_at), min(end, shown.ends_at)
        if start < end:
            found.append(_block(what, slots.Span(start, end), shown, sitting=sitting))
    return found


def _block(
    what: str, span: slots.Span, shown: slots.Span, *, sitting: Sitting | None = None, bookable: bool = False
) -> Block:
    """Rows are rounded so that blocks that touch in time touch on the page, and none vanishes."""
    first = round((span.starts_at - shown.starts_at) / ROW)
    last = round((span.ends_at - shown.starts_at) / ROW)
    return Block(what, span, first, max(last - first, 1), sitting, bookable)
