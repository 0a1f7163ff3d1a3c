"""The read side of the calendar. Belongs here: days as lanes of blocks, gaps and closed time, ready to be drawn. Not
here: drawing them, finding a free time (`fits`), and anything that writes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from datetime import time as time_of_day
from functools import lru_cache

from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import hours, slots
from bookings.hours import HOUSE, Timetable
from bookings.models import Claim, ResourceKind, Sitting, Stage
from studio.days import midnight
from studio.models import Member, Role, Room

# Shown of a day on which the house is closed and nothing is booked.
FIRST_HOUR, LAST_HOUR = 8, 19
ROW = timedelta(minutes=15)
SHORTEST_GAP = timedelta(minutes=45)  # a sitting with set-up and strike needs more: nothing to click
USUAL_SETUP = timedelta(minutes=Sitting._meta.get_field("setup_minutes").default)
DAYS_OF_WEEK = 7
ROOM, MEMBER = str(ResourceKind.ROOM), str(ResourceKind.MEMBER)
Key = tuple[str, int]


@dataclass(frozen=True)
class Block:
    """A part of a lane: set-up, sitting or strike of a sitting, a sitting that waits behind another, or a gap or
    closed time (no sitting). `words` say why it is closed."""

    what: str
    span: slots.Span
    row: int
    rows: int
    sitting: Sitting | None = None
    bookable: bool = False
    words: str = ""
    has_waiting: bool = False

    @property
    def place(self) -> str:
        """Its place in the lane, as the style sheet knows it."""
        return f"from-{self.row} for-{self.rows}"

    @property
    def start(self) -> str:
        return _clock(self.span.starts_at)

    @property
    def end(self) -> str:
        return _clock(self.span.ends_at)

    @property
    def from_to(self) -> str:
        return _from_to(self.span)

    @property
    def start_offered(self) -> str:
        """When a sitting in this gap could start, its usual set-up before it."""
        return _clock(self.span.starts_at + USUAL_SETUP)


@dataclass(frozen=True)
class Lane:
    """One room or one person through one day. `asks` is what a new sitting is asked there: its room, photographer or
    assistant."""

    kind: str
    id: int
    name: str
    asks: str
    blocks: Sequence[Block]

    @property
    def key(self) -> str:
        return f"{self.kind}-{self.id}"

    @property
    def queued(self) -> bool:
        return any(block.what == "waiting" for block in self.blocks)


@dataclass(frozen=True)
class Day:
    """One day of the house, from `span.starts_at` to `span.ends_at` in quarter-hours."""

    date: date
    span: slots.Span
    rooms: Sequence[Lane]
    people: Sequence[Lane]
    sittings: Sequence[Sitting]
    hours: Sequence[tuple[int, datetime]]  # row and moment of each full hour
    now_row: int | None
    now: datetime
    opening: str = ""
    closed: str = ""

    @property
    def lanes(self) -> list[Lane]:
        return [*self.rooms, *self.people]


@dataclass(frozen=True)
class _Read:
    """What the database says of some days, read at once."""

    table: Timetable
    claims: Sequence[Claim]
    waiting: Sequence[Sitting]
    rooms: Sequence[Room]
    people: Sequence[Member]


def day(on: date, *, now: datetime) -> Day:
    """The day in the zone in force."""
    return days([on], now=now)[0]


def week(on: date, *, now: datetime) -> list[Day]:
    """Monday to Sunday around a day, all from the same hour to the same hour."""
    monday = on - timedelta(days=on.weekday())
    return days([monday + timedelta(days=number) for number in range(DAYS_OF_WEEK)], now=now)


def days(wanted: Sequence[date], *, now: datetime) -> list[Day]:
    """Days in a row, in as many queries as one."""
    read = _read(wanted[0], wanted[-1])
    wholes = [slots.Span(midnight(on), midnight(on + timedelta(days=1))) for on in wanted]
    minutes = [_minutes_shown(whole, read) for whole in wholes]
    first, last = min(one for one, _last in minutes), max(one for _first, one in minutes)
    return [_day(on, _from_minutes(on, first, last), read, now) for on in wanted]


def _read(first: date, last: date) -> _Read:
    start, end = midnight(first), midnight(last + timedelta(days=1))
    claims = list(Claim.objects.exclude(resource_kind=ResourceKind.KIT).during(start, end))
    drawn = Sitting.objects.select_related("client", "hold__behind").defer("terms")
    sittings = drawn.in_bulk({claim.sitting_id for claim in claims})
    for claim in claims:
        claim.sitting = sittings[claim.sitting_id]  # one row for room and people alike
    waiting = [
        sitting
        for sitting in drawn.filter(stage=Stage.HELD, hold__place__gt=1).between(start - timedelta(days=1), end)
        if slots.overlaps(sitting.spans.sitting, slots.Span(start, end))
    ]
    held = {(claim.resource_kind, claim.resource_id) for claim in claims}
    rooms = [row for row in Room.objects.all() if row.active or (ROOM, row.pk) in held]
    people = [
        row
        for row in Member.objects.with_roles()
        if (MEMBER, row.pk) in held or (row.active and row.has_role(Role.PHOTOGRAPHER, Role.ASSISTANT))
    ]
    table = hours.timetable(first, last, [row.pk for row in people], timezone.get_current_timezone())
    return _Read(table, claims, waiting, rooms, people)


def _day(on: date, shown: slots.Span, read: _Read, now: datetime) -> Day:
    spans: dict[Key, list[Claim]] = defaultdict(list)
    for claim in read.claims:
        if slots.overlaps(claim.span, shown):
            spans[claim.resource_kind, claim.resource_id].append(claim)
    waiting = [one for one in read.waiting if slots.overlaps(one.spans.sitting, shown)]
    sittings = {claim.sitting_id: claim.sitting for held in spans.values() for claim in held}
    sittings |= {sitting.pk: sitting for sitting in waiting}
    of_house = _Open.of(read.table, HOUSE, on)
    rooms = []
    for row in read.rooms:
        blocks = _blocks_of(spans[ROOM, row.pk], _at(waiting, "room", row), of_house, shown)
        rooms.append(Lane(ROOM, row.pk, row.name, "room", blocks))
    return Day(
        date=on,
        span=shown,
        rooms=rooms,
        people=[_person(row, on, spans[MEMBER, row.pk], waiting, read.table, shown) for row in read.people],
        sittings=sorted(sittings.values(), key=lambda sitting: (sitting.starts_at, sitting.pk)),
        hours=_hours(shown),
        now_row=int((now - shown.starts_at) / ROW) if shown.starts_at <= now < shown.ends_at else None,
        now=now,
        opening=", ".join(_from_to(span) for span in of_house.spans),
        closed=of_house.words if not of_house.spans else "",
    )


@dataclass(frozen=True)
class _Open:
    """When something is open on a day, and the word for the rest."""

    spans: Sequence[slots.Span]
    words: str

    @classmethod
    def of(cls, table: Timetable, member: int | None, on: date) -> _Open:
        off = table.away(HOUSE, on, on) or table.away(member, on, on)
        if off:
            return cls((), off[0].words)
        return cls(table.open(on, on) if member is HOUSE else table.working(member, on, on), "")


def _person(
    row: Member, on: date, claims: Sequence[Claim], waiting: Iterable[Sitting], table: Timetable, shown: slots.Span
) -> Lane:
    asks = "photographer" if row.has_role(Role.PHOTOGRAPHER) else "assistant"
    theirs = [*_at(waiting, "photographer", row), *_at(waiting, "assistant", row)]
    return Lane(MEMBER, row.pk, row.name, asks, _blocks_of(claims, theirs, _Open.of(table, row.pk, on), shown))


def _at(waiting: Iterable[Sitting], what: str, row: Room | Member) -> list[Sitting]:
    return [sitting for sitting in waiting if getattr(sitting, f"{what}_id") == row.pk]


def _minutes_shown(whole: slots.Span, read: _Read) -> tuple[int, int]:
    """From which to which minute of its day a day is shown: the opening hours, and as far as anything reaches beyond,
    in full hours."""
    zone = timezone.get_current_timezone()
    on = whole.starts_at.astimezone(zone).date()
    spans = [*read.table.open(on, on), *(claim.span for claim in read.claims)]
    spans += [sitting.spans.sitting for sitting in read.waiting]
    first, last = FIRST_HOUR * 60, LAST_HOUR * 60
    opening = read.table.open(on, on)
    if opening:
        first, last = _minute(opening[0].starts_at, on), _minute(opening[-1].ends_at, on)
    for span in spans:
        if slots.overlaps(span, whole):
            first = min(first, _minute(max(span.starts_at, whole.starts_at), on))
            last = max(last, _minute(min(span.ends_at, whole.ends_at), on))
    return first // 60 * 60, -(-last // 60) * 60


def _minute(moment: datetime, on: date) -> int:
    """The minute of the day as the clock on the wall has it."""
    local = timezone.localtime(moment)
    return ((local.date() - on).days * 24 + local.hour) * 60 + local.minute


def _from_minutes(on: date, first: int, last: int) -> slots.Span:
    return slots.Span(*(_wall(on, minute) for minute in (first, last)))


def _wall(on: date, minute: int) -> datetime:
    day, minute = on + timedelta(days=minute // 1440), minute % 1440
    return timezone.make_aware(datetime.combine(day, time_of_day(minute // 60, minute % 60))).astimezone(UTC)


def _hours(shown: slots.Span) -> list[tuple[int, datetime]]:
    count = int(shown.length / timedelta(hours=1))
    return [(4 * number, shown.starts_at + timedelta(hours=number)) for number in range(count)]


def _blocks_of(
    claims: Sequence[Claim], waiting: Collection[Sitting], is_open: _Open, shown: slots.Span
) -> list[Block]:
    """The lane from its first to its last row, without a hole."""
    behind = {sitting.hold.behind_id for sitting in waiting}
    blocks = [block for claim in claims for block in _of_claim(claim, shown, claim.sitting_id in behind)]
    blocks += [block for sitting in waiting for block in _of_waiting(sitting, shown)]
    for free in slots.gaps([claim.span for claim in claims], shown):
        closed = slots.gaps(is_open.spans, free)
        blocks += [_block("closed", span, shown, words=is_open.words) for span in closed]
        blocks += [
            _block("gap", span, shown, bookable=span.length >= SHORTEST_GAP) for span in slots.gaps(closed, free)
        ]
    return sorted(blocks, key=lambda block: (block.span, block.what == "waiting"))


def _of_claim(claim: Claim, shown: slots.Span, has_waiting: bool) -> list[Block]:
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
            found.append(_block(what, slots.Span(start, end), shown, sitting=sitting, has_waiting=has_waiting))
    return found


def _of_waiting(sitting: Sitting, shown: slots.Span) -> list[Block]:
    """Only the sitting proper: nothing is set up for somebody who waits."""
    span = sitting.spans.sitting
    start, end = max(span.starts_at, shown.starts_at), min(span.ends_at, shown.ends_at)
    return [_block("waiting", slots.Span(start, end), shown, sitting=sitting)] if start < end else []


def _block(what: str, span: slots.Span, shown: slots.Span, **more: object) -> Block:
    """Rows are rounded so that blocks that touch in time touch on the page, and none vanishes."""
    first = round((span.starts_at - shown.starts_at) / ROW)
    last = round((span.ends_at - shown.starts_at) / ROW)
    return Block(what, span, first, max(last - first, 1), **more)  # type: ignore[arg-type]


def _from_to(span: slots.Span) -> str:
    return _("%(start)s to %(end)s") % {"start": _clock(span.starts_at), "end": _clock(span.ends_at)}


def _clock(moment: datetime) -> str:
    return _clock_in(moment, timezone.get_current_timezone())


@lru_cache(maxsize=4096)
def _clock_in(moment: datetime, zone: tzinfo) -> str:
    """A full day says the same few moments some three hundred times."""
    local = moment.astimezone(zone)
    return f"{local.hour:02}:{local.minute:02}"
