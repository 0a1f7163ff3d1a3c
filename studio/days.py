"""The day an address names. Belongs here: reading it, so that every page takes junk for the same thing: today."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest

from studio import clock


def read_day(text: str) -> date | None:
    """A day written 2026-12-03 within the years a sitting may be booked in; None for anything else."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if 2000 <= day.year <= 2100 else None


def day_of(request: HttpRequest) -> date:
    """The day asked for as `day`, else today in the studio's zone."""
    return read_day(request.GET.get("day", "")) or clock.today()
