"""How late a rota gets. Belongs here: before the day, the mean wait and the finish to be expected at so many real
minutes a person; on the day, who waits and when it ends as things stand. Pure: no database, no clock, no framework. Not
here: the places themselves (`rota`).

Before the day the reckoning is exact, not drawn by lot: the chance of each lateness is carried from place to place on a
grid of half minutes. Its assumptions (C, computed in job.md): a quarter come about six minutes late, one in twenty not
at all, nobody sits before the own time, and real minutes scatter by a third of their mean (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from math import ceil, erf, sqrt

from bookings.rota import Timetable
from bookings.slots import Span

LATE_SHARE, LATE_MINUTES, ABSENT_SHARE = 0.25, 6.0, 0.05
SCATTER = 1 / 3  # of the mean
STEP = 0.5  # minutes of the grid
LONGEST_DELAY = 240  # minutes; the rest of a day that went wholly wrong is counted there
PRIOR_PEOPLE = 3  # the studio's usual minutes weigh as much as so many people photographed today
MINUTE = timedelta(minutes=1)


@dataclass(frozen=True)
class Expected:
    """What to expect of a day: minutes of waiting a person, and of the finish after the last place's end; `worst_late`
    is reached on one day in ten."""

    mean_wait: float
    late: float
    worst_late: float


def expected(times: Timetable, real_minutes: float) -> Expected:
    """The mean over all days such a rota could turn out to be."""
    service = _service(real_minutes)
    delay = [1.0]  # how long after the place's time the set is free: chances on the grid from 0 on
    late_by = round(LATE_MINUTES / STEP)
    waits = 0.0
    for at in range(len(times.places)):
        start = _later(delay, late_by)
        waits += _mean(start) - LATE_SHARE * LATE_MINUTES
        ends = _added(start, service)
        if at < len(times.places) - 1:
            until = _until_next(times, at)
            delay = _mixed(_moved(ends, until), _moved(delay, until))
    return _finish(_mixed(ends, delay), times, waits / len(times.places))


def _finish(ends: Sequence[float], times: Timetable, mean_wait: float) -> Expected:
    length = times.places[-1].length / MINUTE
    reached, n = ends[0], 0
    while n < len(ends) - 1 and reached < 0.9:
        n += 1
        reached += ends[n]
    return Expected(mean_wait, _mean(ends) - length, n * STEP - length)


def _until_next(times: Timetable, at: int) -> int:
    """Steps from the time of a place to where an end makes the next one late: lunch is kept whole, a gap is used."""
    place, after = times.places[at], times.places[at + 1]
    until = after.starts_at - place.starts_at
    if is_lunch_between(times, place.ends_at, after.starts_at):
        until -= times.lunch.length  # type: ignore[union-attr]
    return round(until / MINUTE / STEP)


def is_lunch_between(times: Timetable, ends_at: datetime, starts_at: datetime) -> bool:
    return times.lunch is not None and ends_at <= times.lunch.starts_at and times.lunch.ends_at <= starts_at


def _service(mean: float) -> list[float]:
    """The chance of each length of one person, normal and never under a minute."""
    deviation = max(mean * SCATTER, STEP)
    edges = [(n + 0.5) * STEP for n in range(ceil((mean + 4 * deviation) / STEP) + 1)]
    reached = [0.5 * (1 + erf((edge - mean) / deviation / sqrt(2))) for edge in edges]
    chances = [0.0, *[high - low for low, high in pairwise(reached)]]
    shortest = round(1 / STEP)
    chances[shortest] += sum(chances[:shortest]) + reached[0]
    chances[:shortest] = [0.0] * shortest
    whole = sum(chances)
    return [chance / whole for chance in chances]


def _later(delay: Sequence[float], late_by: int) -> list[float]:
    """When whoever comes begins: at the later of their own coming and of the set being free."""
    found = [chance * (1 - LATE_SHARE) for chance in delay]
    found += [0.0] * (late_by + 1 - len(found))
    for n, chance in enumerate(delay):
        found[max(n, late_by)] += chance * LATE_SHARE
    return found


def _added(one: Sequence[float], other: Sequence[float]) -> list[float]:
    found = [0.0] * (len(one) + len(other) - 1)
    for n, chance in enumerate(one):
        if chance > 1e-12:
            for m, more in enumerate(other):
                found[n + m] += chance * more
    return found


def _moved(ends: Sequence[float], until: int) -> list[float]:
    """From ends, counted from the time of a place, to the delay of the next."""
    most = round(LONGEST_DELAY / STEP)
    found = [0.0] * (min(max(len(ends) - 1 - until, 0), most) + 1)
    for n, chance in enumerate(ends):
        found[min(max(n - until, 0), most)] += chance
    return found


def _mixed(came: Sequence[float], stayed_away: Sequence[float]) -> list[float]:
    found = [0.0] * max(len(came), len(stayed_away))
    for share, chances in ((1 - ABSENT_SHARE, came), (ABSENT_SHARE, stayed_away)):
        for n, chance in enumerate(chances):
            found[n] += share * chance
    return found


def _mean(chances: Sequence[float]) -> float:
    return sum(n * chance for n, chance in enumerate(chances)) * STEP


@dataclass(frozen=True)
class Queued:
    """Somebody still to come, in the order they will be taken: the time they were given, None without one, and whether
    lunch lies before them."""

    given: datetime | None
    after_lunch: bool = False


@dataclass(frozen=True)
class Stands:
    """When each of those to come will probably begin, and when the last of them is done."""

    starts: tuple[datetime, ...]
    ends_at: datetime

    def late(self, queue: Sequence[Queued]) -> list[int]:
        """Whole minutes each has to wait beyond the time given."""
        return [
            max(int((start - one.given) / MINUTE), 0) if one.given else 0
            for start, one in zip(self.starts, queue, strict=True)
        ]


def pace(usual: float, real: Sequence[float]) -> float:
    """Minutes a person to reckon with: what was taken today, and the usual where little was seen yet."""
    return (usual * PRIOR_PEOPLE + sum(real)) / (PRIOR_PEOPLE + len(real))


def as_it_stands(
    queue: Sequence[Queued], *, now: datetime, minutes: float, lunch: Span | None = None,
    since: datetime | None = None, free_since: datetime | None = None,
) -> Stands:  # fmt: skip
    """From now on, everybody at that pace: `since` when somebody sits now, else `free_since` when the last was done.
    Nobody begins before the time given, for they are not there yet; lunch is kept whole, however late it begins."""
    free_at = now if since is None else max(now, since + minutes * MINUTE)
    idle_since = None if since is not None else free_since or (lunch.starts_at if lunch else now)
    starts = []
    has_eaten = lunch is None
    for one in queue:
        if one.after_lunch and lunch is not None and not has_eaten:
            begun = max(lunch.starts_at, free_at if idle_since is None else idle_since)
            free_at, has_eaten = max(free_at, begun + lunch.length), True
        begins = max(free_at, one.given) if one.given else free_at
        starts.append(begins)
        free_at, idle_since = begins + minutes * MINUTE, None
    return Stands(tuple(starts), free_at)
