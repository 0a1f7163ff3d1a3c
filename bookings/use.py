"""How much of the house is used. Belongs here: hours booked against open hours of rooms, people and kit, week by week.
Not here: the single day (`calendar`)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from itertools import pairwise

from bookings import hours
from bookings.models import Claim, ResourceKind, Stage
from bookings.slots import Span
from studio.models import KitItem, Member, Room
from studio.models.grip import Stand

NOT_YET = (Stage.ENQUIRY, Stage.HELD)  # held is not booked
WEEKS = 4
WEEK = timedelta(days=7)
HOUR = timedelta(hours=1)


@dataclass(frozen=True)
class Use:
    """One thing in one week."""

    booked: float
    open: float

    @property
    def percent(self) -> int | None:
        """None where the house was not open for it at all."""
        return round(100 * self.booked / self.open) if self.open else None


@dataclass(frozen=True)
class Used:
    """One thing over all the weeks."""

    kind: str
    name: str
    weeks: Sequence[Use]

    @property
    def is_idle(self) -> bool:
        """Whether nothing was booked in any of the weeks."""
        return not any(week.booked for week in self.weeks)

    @property
    def kind_words(self) -> str:
        return str(ResourceKind(self.kind).label)


def monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def of_weeks(first: date, zone: tzinfo, *, weeks: int = WEEKS) -> list[Used]:
    """From the Monday `first` on: every room and person in use, booms, and whatever other kit was booked. Hours of
    set-up and strike count, for nobody else can have them; what is held and not confirmed does not."""
    mondays = [first + number * WEEK for number in range(weeks + 1)]
    edges = [datetime.combine(day, time(), tzinfo=zone) for day in mondays]
    booked = _booked(edges)
    people = list(Member.objects.active())
    table = hours.timetable(first, mondays[-1], [member.pk for member in people], zone)
    house = [_hours(table.open(day, day + timedelta(days=6))) for day in mondays[:-1]]

    def used(kind: str, pk: int, name: str, open_hours: Sequence[float]) -> Used:
        return Used(kind, name, [Use(*pair) for pair in zip(booked[kind, pk], open_hours, strict=True)])

    found = [used(ResourceKind.ROOM, room.pk, room.name, house) for room in Room.objects.filter(active=True)]
    for member in people:
        theirs = [_hours(table.working(member.pk, day, day + timedelta(days=6))) for day in mondays[:-1]]
        found.append(used(ResourceKind.MEMBER, member.pk, member.name, theirs))
    wanted = {pk for kind, pk in booked if kind == ResourceKind.KIT}
    found += [used(ResourceKind.KIT, pk, name, house) for pk, name in _kit(wanted)]
    return found


def _kit(booked: Iterable[int]) -> Iterator[tuple[int, str]]:
    """Booms always, for there are fewest of them; anything else where it was booked."""
    booms = set(Stand.objects.filter(kind=Stand.Kind.BOOM).values_list("pk", flat=True))
    for piece in KitItem.objects.filter(pk__in=booms | set(booked)).order_by("section", "code"):
        yield piece.pk, piece.label if piece.label == piece.code else f"{piece.label} ({piece.code})"


def _booked(edges: Sequence[datetime]) -> dict[tuple[str, int], list[float]]:
    """Hours by week of everything that is claimed, cut where a week ends."""
    found: dict[tuple[str, int], list[float]] = defaultdict(lambda: [0.0] * (len(edges) - 1))
    rows = Claim.objects.during(edges[0], edges[-1]).exclude(sitting__stage__in=NOT_YET).order_by()
    for kind, pk, start, end in rows.values_list("resource_kind", "resource_id", "starts_at", "ends_at"):
        for number, (opens, closes) in enumerate(pairwise(edges)):
            inside = min(end, closes) - max(start, opens)
            if inside > timedelta(0):
                found[kind, pk][number] += inside / HOUR
    return found


def _hours(spans: Sequence[Span]) -> float:
    return sum((span.length for span in spans), timedelta(0)) / HOUR
