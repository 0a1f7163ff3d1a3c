"""The days in their order. Belongs here: that alone."""

from __future__ import annotations

from collections.abc import Iterator

from tests.trips.week import friday, monday, outcomes, saturday, thursday, tuesday, wednesday
from tests.trips.week.house import Week

DAYS = (monday, tuesday, wednesday, thursday, friday, saturday)


def walk(week: Week) -> Iterator[str]:
    """The names of the days, each when it is over and its evening stands."""
    for day in DAYS:
        day.walk(week)
        outcomes.in_the_evening()
        yield day.__name__.split(".")[-1]
