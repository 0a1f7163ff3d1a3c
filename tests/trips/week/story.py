"""The days in their order. Belongs here: that alone."""

from __future__ import annotations

from tests.trips.week import friday, monday, saturday, thursday, tuesday, wednesday
from tests.trips.week.house import Week

DAYS = (monday, tuesday, wednesday, thursday, friday, saturday)


def walk(week: Week) -> None:
    for day in DAYS:
        day.walk(week)
