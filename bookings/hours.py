"""When the house is open and who works when, as spans. Belongs here: reading the hours and days off of a stretch of
days at once, and what a sitting asks of them. Not here: judging it (`objections`), changing them (`studio`)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from django.db.models import Q
from django.utils.translation import gettext

from bookings.models import Kind, Sitting
from bookings.models.kinds import Framing
from bookings.objections import Asked, Off, Worker
from bookings.slots import Span
from studio.models import DaysOff, Profile, Week
from studio.models.hours import USUAL

Hours = Mapping[int, tuple[time, time]]
MIDNIGHT = time()
HOUSE: int | None = None  # the key of the house among its people
TOGETHER_AT_MOST = 2  # more people than that, each wanted as a head, are photographed in turn


@dataclass(frozen=True)
class Timetable:
    """Hours and days off of the house and of some of its people, from `first` to `last` day, both included."""

    first: date
    last: date
    zone: tzinfo
    weeks: Mapping[int | None, Hours]
    off: Mapping[int | None, Sequence[tuple[date, date, str]]] = field(default_factory=dict)

    def open(self, first: date, last: date) -> list[Span]:
        """The opening hours of the house on those days, closures left out."""
        return list(self._spans(HOUSE, first, last, but_off=True))

    def working(self, member: int, first: date, last: date) -> list[Span]:
        """When somebody works on those days; as the house where they have no week of their own."""
        return list(self._spans(member, first, last, but_off=True))

    def hours(self, member: int | None, first: date, last: date) -> list[Span] | None:
        """The hours of their own on those days, whether somebody is away or not; None where they have none."""
        return list(self._spans(member, first, last, but_off=False)) if member in self.weeks else None

    def away(self, member: int | None, first: date, last: date) -> list[Off]:
        """Days off that touch those days, as spans from midnight to midnight."""
        found = []
        for start, end, words in self.off.get(member, ()):
            if start <= last and end >= first:
                span = Span(self._at(max(start, self.first)), self._at(min(end, self.last) + timedelta(days=1)))
                found.append(Off(span, words))
        return found

    def _spans(self, member: int | None, first: date, last: date, *, but_off: bool) -> Iterator[Span]:
        week = self.weeks.get(member)
        if week is None:
            week = self.weeks[HOUSE]
        off = self.off.get(member, ()) if but_off else ()
        for number in range((last - first).days + 1):
            day = first + timedelta(days=number)
            hours = week.get(day.weekday())
            if hours and not any(start <= day <= end for start, end, _words in off):
                starts, ends = self._at(day, hours[0]), self._at(day, hours[1])
                ends = ends if hours[1] != MIDNIGHT else self._at(day + timedelta(days=1))
                if starts < ends:
                    yield Span(starts, ends)

    def _at(self, day: date, at: time = MIDNIGHT) -> datetime:
        """In UTC: two moments of one zone are compared and subtracted by what the clock on the wall says."""
        return datetime.combine(day, at, tzinfo=self.zone).astimezone(UTC)


def timetable(first: date, last: date, members: Iterable[int], zone: tzinfo) -> Timetable:
    """Three queries, however many days and people."""
    ids = set(members)
    weeks: dict[int | None, Hours] = {HOUSE: USUAL}
    ours = Q(member__in=ids) | Q(member=None)
    weeks |= {week.member_id: week.hours for week in Week.objects.filter(ours).with_days()}
    off: dict[int | None, list[tuple[date, date, str]]] = defaultdict(list)
    for row in DaysOff.objects.filter(ours).touching(first, last):
        off[row.member_id].append((row.first_day, row.last_day, row.words))
    return Timetable(first, last, zone, weeks, dict(off))


def asked_of(sitting: Sitting, ages: Sequence[float | None], *, zone: tzinfo | None = None) -> Asked:
    """What a sitting, kept or not yet, asks of the house: give its result to `objections.objections`.

    `ages` has one entry for each person who sits, None where it is not known.
    """
    zone = zone or Profile.get().zone
    spans = sitting.spans
    first = min(spans.whole.starts_at, spans.photographer.starts_at).astimezone(zone).date()
    last = spans.whole.ends_at.astimezone(zone).date()
    needed = [(sitting.photographer, spans.photographer)]
    if sitting.assistant is not None:
        needed.append((sitting.assistant, spans.whole))
    table = timetable(first, last, [member.pk for member, _span in needed], zone)
    return Asked(
        sitting=spans.sitting,
        whole=spans.whole,
        ages=tuple(ages),
        kind_minutes=sitting.kind.minutes,
        in_turn=in_turn(sitting.kind, len(ages)),
        open=table.hours(HOUSE, first, last) or (),
        closed=table.away(HOUSE, first, last),
        workers=[
            Worker(one.pk, one.name, span, table.hours(one.pk, first, last), table.away(one.pk, first, last))
            for one, span in needed
        ],
        zone=zone,
        translated=gettext,
    )


def in_turn(kind: Kind, people: int) -> bool:
    """Whether they come one after the other: several people of whom the kind wants heads."""
    return people > TOGETHER_AT_MOST and kind.framing in (Framing.HEAD, Framing.HEAD_AND_SHOULDERS)

