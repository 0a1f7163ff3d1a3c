"""A rota: who of many people is photographed in which place, one after the other. Belongs here: their order, the times
with lunch and catch-up gaps, and where the order is not as it should be. Pure: no database, no clock, no framework. Not
here: how late it gets (`rota_forecast`), the list of names (`name_list`), keeping it (`actions.rotas`).

The order is common practice: who is at ease first, the one the others are matched to second, leaders in places 3 to 5,
whoever wants no hurry just before lunch; who is photographed without flash before everybody, while the steady light
stands.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from bookings.slots import Span
from studio.tongue import noop

MOST_PEOPLE = 60
CATCH_UP_AFTER, CATCH_UP_MINUTES = 6, 10  # at the latest; runs are made even, so that it is after every five or six
LEADERS_FIRST, LEADERS_LAST = 3, 5

FIRST, REFERENCE, LEADER, LAST = "first", "reference", "leader", "last"
PARTS = (FIRST, REFERENCE, LEADER, LAST)


@dataclass(frozen=True)
class Person:
    """One person of the list, as far as the order asks: `part` is one of `PARTS` or none, `place` the one asked for.

    `steady`, `unhurried`, `floor` and `together` are what is to be done (no flash, no hurry, floor cleared, matched
    light for glasses), never why.
    """

    name: str
    part: str = ""
    place: int | None = None
    steady: bool = False
    unhurried: bool = False
    floor: bool = False
    together: bool = False


@dataclass(frozen=True)
class Times:
    """When it begins and how long a place takes; no lunch where `lunch_at` is None, no gaps where they take nothing."""

    starts_at: datetime
    place_minutes: int = 10
    gap_minutes: int = CATCH_UP_MINUTES
    gap_after: int = CATCH_UP_AFTER
    lunch_at: datetime | None = None
    lunch_minutes: int = 30

    @property
    def lunch(self) -> Span | None:
        if self.lunch_at is None or self.lunch_minutes == 0:
            return None
        return Span(self.lunch_at, self.lunch_at + timedelta(minutes=self.lunch_minutes))


@dataclass(frozen=True)
class Timetable:
    """The places in their order, and between them the gaps and lunch, if anybody comes after it."""

    places: tuple[Span, ...]
    gaps: tuple[Span, ...]
    lunch: Span | None

    @property
    def ends_at(self) -> datetime:
        return self.places[-1].ends_at

    @property
    def before_lunch(self) -> int:
        """How many places lie before lunch; 0 where there is none."""
        return sum(place.ends_at <= self.lunch.starts_at for place in self.places) if self.lunch else 0

    @property
    def before_gaps(self) -> list[int]:
        """Places, counted from 1, that a gap or lunch follows."""
        ends = {gap.starts_at for gap in self.gaps}
        found = [n for n, place in enumerate(self.places, 1) if place.ends_at in ends]
        return sorted({*found, self.before_lunch} - {0})


@dataclass(frozen=True)
class Deviation:
    """Where the order is not as it should be: which sentence and what stands in it."""

    code: str
    values: Mapping[str, object]


SENTENCES = {
    "nobody_first": noop("Nobody is named to go first: {name} warms up the set."),
    "first_late": noop("{name} is to go first and has place {place}."),
    "nobody_reference": noop(
        "Nobody is named for the reference frame: the others are matched to {name}, in place {place}."
    ),
    "reference_late": noop(
        "{name} is the reference and has place {place}: ask for a yes to that frame before the next."
    ),
    "reference_after": noop(
        "{name} is the reference and has place {place}: whoever sits earlier is not matched to it."
    ),
    "leader_elsewhere": noop("{name}, a leader, has place {place}, not 3 to 5."),
    "unhurried_elsewhere": noop("{name} is meant for a place just before lunch and has place {place}."),
    "unhurried_no_lunch": noop("{name} is meant for a place just before lunch; there is none, so it is place {place}."),
    "apart": noop("{names} belong together for the light and have places {places}."),
    "steady_late": noop(
        "{name} is photographed without flash and has place {place}: the flash heads go off and on again."
    ),
    "floor_elsewhere": noop("{name} is meant for a place before a gap, to clear the floor, and has place {place}."),
    "wished_place": noop("{name} asked for place {wished} and has place {place}."),
    "last_elsewhere": noop("{name} is to come last and has place {place} of {of}."),
}


def timetable(people: int, times: Times) -> Timetable:
    """Places for so many people: as many before lunch as fit with their gaps, the others after it."""
    if people < 1:
        raise ValueError("nobody to give a place to")
    lunch = times.lunch
    is_over_by_lunch = lunch is None or _run_ends(times, times.starts_at, people) <= lunch.starts_at
    if lunch is None or is_over_by_lunch or lunch.starts_at <= times.starts_at:
        places, gaps = _run(times, times.starts_at, people)
        return Timetable(tuple(places), tuple(gaps), None)
    before = next(n for n in range(people - 1, -1, -1) if _run_ends(times, times.starts_at, n) <= lunch.starts_at)
    morning, morning_gaps = _run(times, times.starts_at, before)
    afternoon, afternoon_gaps = _run(times, lunch.ends_at, people - before)
    return Timetable((*morning, *afternoon), (*morning_gaps, *afternoon_gaps), lunch)


def _groups(people: int, times: Times) -> list[int]:
    """How many sit between two gaps: never more than `gap_after`, as even as can be, the larger first."""
    if people == 0:
        return []
    count = 1 if times.gap_minutes == 0 else -(-people // times.gap_after)
    each, more = divmod(people, count)
    return [each + (n < more) for n in range(count)]


def _run(times: Times, at: datetime, people: int) -> tuple[list[Span], list[Span]]:
    """Places one after the other with their gaps, from `at` on."""
    places: list[Span] = []
    gaps: list[Span] = []
    for group in _groups(people, times):
        if places:
            gaps.append(Span(at, at + timedelta(minutes=times.gap_minutes)))
            at = gaps[-1].ends_at
        for _number in range(group):
            places.append(Span(at, at + timedelta(minutes=times.place_minutes)))
            at = places[-1].ends_at
    return places, gaps


def _run_ends(times: Times, at: datetime, people: int) -> datetime:
    gaps = max(len(_groups(people, times)) - 1, 0)
    return at + timedelta(minutes=people * times.place_minutes + gaps * times.gap_minutes)


def order(people: Sequence[Person], times: Timetable) -> list[Person]:
    """Everybody once, in the order they are photographed; what is not asked for stays as in the list."""
    line: list[Person | None] = [None] * len(people)
    left = list(people)

    def seat(wanted: Callable[[Person], bool], places: Sequence[int], most: int | None = None) -> None:
        """Those who fit, into the first of these places that are free; who finds none waits for a later call."""
        for person in [one for one in left if wanted(one)][:most]:
            at = next((place for place in places if 1 <= place <= len(line) and line[place - 1] is None), None)
            if at is not None:
                line[at - 1] = person
                left.remove(person)

    every = range(1, len(people) + 1)
    seat(lambda one: one.steady, every)
    for wished in sorted({one.place for one in left if one.place is not None}):
        seat(lambda one, wished=wished: one.place == wished, [wished])  # type: ignore[misc]
    seat(lambda one: one.part == LAST, every[::-1])
    seat(lambda one: one.part == FIRST, every)
    if not any(line):
        seat(_asks_nothing, every, 1)
    seat(lambda one: one.part == REFERENCE, range(2, len(people) + 1), 1)
    if not any(one.part == REFERENCE for one in people):
        seat(_asks_nothing, [2], 1)
    seat(lambda one: one.part == LEADER and not one.together, range(LEADERS_FIRST, len(people) + 1))
    seat(lambda one: one.part == LEADER, range(LEADERS_FIRST, len(people) + 1))
    quiet = times.before_lunch or max(times.before_gaps, default=len(people))
    seat(lambda one: one.unhurried, [*range(quiet, 1, -1), *every[quiet:]])
    seat(lambda one: one.floor, [*times.before_gaps, *every])
    _seat_together(line, left)
    seat(lambda one: True, every)
    return [one for one in line if one is not None]


def _asks_nothing(one: Person) -> bool:
    return one == Person(one.name)


def _seat_together(line: list[Person | None], left: list[Person]) -> None:
    """Those who belong together: beside one who sits already, else in the first row of free places long enough."""
    group = [one for one in left if one.together]
    if not group:
        return
    free = [n for n, one in enumerate(line) if one is None]
    seated = [n for n, one in enumerate(line) if one is not None and one.together]
    if seated:
        found = sorted(sorted(free, key=lambda n: (min(abs(n - at) for at in seated), n))[: len(group)])
    else:
        runs = [free[n : n + len(group)] for n in range(len(free) - len(group) + 1)]
        found = next((run for run in runs if run[-1] - run[0] == len(group) - 1), free[: len(group)])
    for person, at in zip(group, found, strict=True):
        line[at] = person
        left.remove(person)


def deviations(line: Sequence[Person], times: Timetable) -> list[Deviation]:
    """Everything in that order which is not as it should be."""
    return [*_at_the_start(line), *_in_between(line, times)]


def _at_the_start(line: Sequence[Person]) -> Iterator[Deviation]:
    first = next((one for one in line if one.part == FIRST), None)
    steady = sum(one.steady for one in line)
    if first is None and not line[0].steady:
        yield Deviation("nobody_first", {"name": line[0].name})
    for place, one in enumerate(line, 1):
        values = {"name": one.name, "place": place}
        if one.part == FIRST and place != steady + 1 and not one.steady:
            yield Deviation("first_late", values)
        elif one.part == REFERENCE and place > 2:
            yield Deviation("reference_late" if place <= steady + 2 else "reference_after", values)
        elif one.part == LEADER and not LEADERS_FIRST <= place <= LEADERS_LAST:
            yield Deviation("leader_elsewhere", values)
        if one.steady and place > steady:
            yield Deviation("steady_late", values)
    if len(line) > 1 and not any(one.part == REFERENCE for one in line):
        yield Deviation("nobody_reference", {"name": line[1].name, "place": 2})


def _in_between(line: Sequence[Person], times: Timetable) -> Iterator[Deviation]:
    quiet = {place for place, one in enumerate(line, 1) if one.unhurried}
    wanted = set(range(times.before_lunch - len(quiet) + 1, times.before_lunch + 1)) if times.before_lunch else set()
    for place, one in enumerate(line, 1):
        values = {"name": one.name, "place": place}
        if one.unhurried and place not in wanted:
            yield Deviation("unhurried_elsewhere" if wanted else "unhurried_no_lunch", values)
        if one.floor and place not in times.before_gaps and times.before_gaps:
            yield Deviation("floor_elsewhere", values)
        if one.place is not None and one.place != place:
            yield Deviation("wished_place", values | {"wished": one.place})
        if one.part == LAST and place <= len(line) - sum(other.part == LAST for other in line):
            yield Deviation("last_elsewhere", values | {"of": len(line)})
    together = [(place, one.name) for place, one in enumerate(line, 1) if one.together]
    if any(later - earlier > 1 for (earlier, _one), (later, _other) in pairwise(together)):
        names, places = ", ".join(name for _p, name in together), ", ".join(str(place) for place, _n in together)
        yield Deviation("apart", {"names": names, "places": places})
