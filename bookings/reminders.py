"""Reminders before a sitting. Belongs here: which one is due at a moment, as plain values. Pure: no database, no clock
on the wall, no framework. Not here: whom they go to (`actions.reminders`)."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

# Days before the sitting, by the kind of letter; common practice, no source.
DAYS = {"clothes": 14, "coming": 3, "tomorrow": 1}
AT = time(10)  # of the studio's day
DAYTIME = (time(9), time(19))  # on days on which the house is closed


@dataclass(frozen=True)
class Due:
    """A reminder that may go from `at` on, and is of no use from `useless_at` on."""

    kind: str
    at: datetime
    useless_at: datetime


def due(
    *, starts_at: datetime, settled_at: datetime, now: datetime, kinds: Collection[str], zone: tzinfo
) -> Due | None:
    """The one reminder to send now, if any: the latest whose moment has come. `settled_at` is when the time was
    confirmed or moved: what should have gone before that is never sent late."""
    day = starts_at.astimezone(zone).date()
    moments = sorted((_moment(day - timedelta(days=DAYS[kind]), zone), kind) for kind in kinds if kind in DAYS)
    come = [(at, kind) for at, kind in moments if at <= now]
    if not come or now >= starts_at or come[-1][0] < settled_at:
        return None
    later = [at for at, _kind in moments if at > now]
    return Due(come[-1][1], come[-1][0], min([*later, starts_at]))


def _moment(day: date, zone: tzinfo) -> datetime:
    """In UTC: two moments of one zone are compared by what the clock on the wall says."""
    return datetime.combine(day, AT, tzinfo=zone).astimezone(UTC)
