"""Days. Belongs here: the one an address names, so that every page takes junk for the same thing, and when a day begins
in the zone in force."""

from __future__ import annotations

from datetime import UTC, date, datetime, time

from django.http import HttpRequest, QueryDict
from django.utils import timezone

from studio import clock

FIRST_YEAR, LAST_YEAR = 2000, 2100  # of anything that is entered of the studio's work; else it is a slip of the finger


def read_day(text: str) -> date | None:
    """A day written 2026-12-03 within the years a sitting may be booked in; None for anything else."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if FIRST_YEAR <= day.year <= LAST_YEAR else None


def day_of(request: HttpRequest, sent: QueryDict | None = None) -> date:
    """The day asked for as `day` (in what was `sent`, where that is given), else today in the studio's zone."""
    asked = request.GET if sent is None else sent
    return read_day(asked.get("day", "")) or clock.today()


def midnight(on: date) -> datetime:
    """When a day begins in the zone in force."""
    return timezone.make_aware(datetime.combine(on, time())).astimezone(UTC)
