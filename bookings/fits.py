"""Next free times. Belongs here: those for a sitting, room, people and hours together, and what stands in the
way where there is none. Not here: the arithmetic of spans (`slots`), a day as it is (`calendar`)."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from functools import cached_property
from itertools import product
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import hours, slots
from bookings.hours import Timetable
from bookings.models import Claim, ResourceKind
from bookings.slots import Need, Span, Starts
from studio.models import Member, Room

MOST = 10
STEP_MINUTES = 15
AROUND = timedelta(days=2)  # so far a sitting can reach beyond its day
Key = tuple[str, int]


@dataclass(frozen=True)
class Search:
    """What is looked for: a sitting of so many minutes on one of these weekdays, starting from `earliest` to `latest`
    by the clock on the wall, in one of the rooms, with one of the photographers."""

    minutes: int
    setup_minutes: int
    strike_minutes: int
    rooms: Sequence[Room]
    photographers: Sequence[Member]
    assistant: Member | None
    first: date
    last: date
    weekdays: Collection[int]
    earliest: time
    latest: time
    zone: tzinfo
    now: datetime

    @property
    def days(self) -> list[date]:
        every = (self.first + timedelta(days=number) for number in range((self.last - self.first).days + 1))
        return [day for day in every if not self.weekdays or day.weekday() in self.weekdays]


@dataclass(frozen=True)
class Fit:
    """A free time: it may start at `start` and at any time up to `latest`."""

    start: datetime
    latest: datetime
    room: Room
    photographer: Member
    assistant: Member | None


@dataclass(frozen=True)
class Found:
    """The next fits, and where there is none, why."""

    fits: Sequence[Fit]
    why_not: str = ""


def find(search: Search) -> Found:
    """The next fits in order, at most `MOST`. As many queries for a year as for a day; what is held is read only as
    far as it takes to find them."""
    people = [*search.photographers, *([search.assistant] if search.assistant else [])]
    table = hours.timetable(search.first - AROUND, search.last + AROUND, [one.pk for one in people], search.zone)
    fits: list[Fit] = []
    in_the_way: Counter[str] = Counter()
    for day, busy in _busy_days(search, people):
        here = _Day(search, table, day, busy)
        found = here.fits()
        fits += found
        if not found:
            in_the_way[here.in_the_way()] += 1
        if len(fits) >= MOST:
            return Found(fits[:MOST])
    return Found(fits, "" if fits else _why_not(search, in_the_way))


def _busy_days(search: Search, people: Sequence[Member]) -> Iterator[tuple[date, dict[Key, list[Span]]]]:
    """Each wanted day with what is held around it; rows are read on from day to day."""
    days = search.days
    if not days:
        return
    rows = _claims(search, people, days[0] - AROUND, days[-1] + AROUND)
    pending = next(rows, None)
    held: list[tuple[Key, Span]] = []
    for day in days:
        start, end = _wall(day - AROUND, search.zone), _wall(day + AROUND, search.zone)
        while pending is not None and pending[1].starts_at < end:
            held.append(pending)
            pending = next(rows, None)
        held = [one for one in held if one[1].ends_at > start]
        busy: dict[Key, list[Span]] = defaultdict(list)
        for key, span in held:
            busy[key].append(span)
        yield day, busy


def _claims(search: Search, people: Sequence[Member], first: date, last: date) -> Iterator[tuple[Key, Span]]:
    start, end = _wall(first, search.zone), _wall(last, search.zone)
    things = {("room", room.pk) for room in search.rooms} | {("member", one.pk) for one in people}
    rows = (
        Claim.objects.exclude(resource_kind=ResourceKind.KIT)
        .during(start, end)
        .order_by("starts_at")
        .values_list("resource_kind", "resource_id", "starts_at", "ends_at")
    )
    for kind, pk, starts_at, ends_at in rows.iterator():
        if (kind, pk) in things:
            yield (kind, pk), Span(starts_at, ends_at)


@dataclass(frozen=True)
class _Day:
    """One day of the search."""

    search: Search
    table: Timetable
    day: date
    busy: dict[Key, list[Span]]

    def fits(self) -> list[Fit]:
        """Each free stretch of a room is one fit, with the first photographer who has most of it."""
        found = [
            Fit(self._on_the_quarter(starts), starts.last, room, photographer, self.search.assistant)
            for room, photographer in product(self.search.rooms, self.search.photographers)
            if photographer != self.search.assistant
            for starts in slots.common(self._in_rooms[room.pk], self._with_photographers[photographer.pk])
        ]
        found.sort(key=lambda fit: (fit.start, fit.room.name, -fit.latest.timestamp()))
        kept: list[Fit] = []
        for fit in found:
            if not any(other.room == fit.room and other.latest >= fit.latest for other in kept):
                kept.append(fit)
        return kept

    def in_the_way(self) -> str:
        """What alone leaves no time on this day."""
        if not self._in_hours:
            return _("the house is not open long enough")
        if self.search.assistant is not None and not self._with_assistant:
            return _("%(name)s is taken or off") % {"name": self.search.assistant.name}
        if not any(self._in_rooms.values()):
            return _("%(name)s is taken") % {"name": _name(self.search.rooms, _("every room"))}
        if not any(self._with_photographers.values()):
            return _("%(name)s is taken or off") % {"name": _name(self.search.photographers, _("every photographer"))}
        return _("room and people are free at different times")

    @cached_property
    def _in_hours(self) -> list[Starts]:
        """The starts of this day in the hours of the house."""
        return slots.common(self._whole(self.table.open(*self._around)).starts, self._window)

    @cached_property
    def _with_assistant(self) -> list[Starts]:
        assistant = self.search.assistant
        if assistant is None or not self._in_hours:
            return self._in_hours
        return slots.common(self._in_hours, self._whole(self._free_of(assistant)).starts)

    @cached_property
    def _in_rooms(self) -> dict[int, list[Starts]]:
        return {room.pk: self._also(self._room, room) for room in self.search.rooms}

    @cached_property
    def _with_photographers(self) -> dict[int, list[Starts]]:
        return {one.pk: self._also(self._photographer, one) for one in self.search.photographers}

    def _also(self, need: Callable[[Any], Need], row: Room | Member) -> list[Starts]:
        """The starts with hours and assistant that suit one thing more; asked only where there are any."""
        base = self._with_assistant
        return slots.common(base, need(row).starts) if base else []

    def _room(self, room: Room) -> Need:
        start, end = (_wall(day, self.search.zone) for day in (self.day - AROUND, self.day + AROUND))
        return self._whole(slots.gaps(self.busy["room", room.pk], Span(start, end)))

    def _photographer(self, member: Member) -> Need:
        before = timedelta(minutes=slots.PHOTOGRAPHER_BEFORE_MINUTES)
        return Need(before, timedelta(minutes=self.search.minutes), self._free_of(member))

    def _free_of(self, member: Member) -> list[Span]:
        works = slots.merged(self.table.working(member.pk, *self._around))
        return [gap for span in works for gap in slots.gaps(self.busy["member", member.pk], span)]

    def _whole(self, free: Sequence[Span]) -> Need:
        after = timedelta(minutes=self.search.minutes + self.search.strike_minutes)
        return Need(timedelta(minutes=self.search.setup_minutes), after, free)

    @property
    def _around(self) -> tuple[date, date]:
        """The day and its neighbours: a sitting may begin before midnight and end after it."""
        return self.day - timedelta(days=1), self.day + timedelta(days=1)

    @property
    def _window(self) -> list[Starts]:
        """When it may start by what was asked, not before now."""
        first = max(_wall(self.day, self.search.zone, self.search.earliest), self.search.now)
        last = _wall(self.day, self.search.zone, self.search.latest)
        return [Starts(first, last)] if first <= last else []

    def _on_the_quarter(self, starts: Starts) -> datetime:
        """The first quarter of an hour in it, else its very first moment."""
        local = starts.first.astimezone(self.search.zone)
        past = timedelta(minutes=local.minute % STEP_MINUTES, seconds=local.second, microseconds=local.microsecond)
        rounded = starts.first + (timedelta(minutes=STEP_MINUTES) - past if past else timedelta(0))
        return rounded if rounded <= starts.last else starts.first


def _why_not(search: Search, in_the_way: Counter[str]) -> str:
    if not in_the_way:
        return _("There is no such weekday between those two days.")
    days, (words, count) = sum(in_the_way.values()), in_the_way.most_common(1)[0]
    text = ngettext(
        "Nothing fits on the one day there is: %(words)s.",
        "Nothing fits on any of %(days)d days. What stands in the way most: %(words)s, on %(count)d of them.",
        days,
    )
    return text % {"days": days, "words": words, "count": count}


def _name(rows: Sequence[Room | Member], all_of_them: str) -> str:
    return rows[0].name if len(rows) == 1 else all_of_them


def _wall(day: date, zone: tzinfo, at: time = hours.MIDNIGHT) -> datetime:
    return datetime.combine(day, at, tzinfo=zone).astimezone(UTC)
