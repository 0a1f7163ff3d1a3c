"""The diary. Belongs here: one day of the house on a page."""

from __future__ import annotations

from datetime import date, timedelta

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from bookings import calendar
from bookings.access import may_book
from studio import clock
from studio.access import EVERY_ROLE, allow, member_of


@allow(*EVERY_ROLE)
def diary(request: HttpRequest) -> HttpResponse:
    on = read_day(request.GET.get("day", "")) or clock.today()
    member = member_of(request)
    return render(
        request,
        "bookings/diary.html",
        {
            "day": calendar.day(on, now=clock.now()),
            "before": on - timedelta(days=1),
            "after": on + timedelta(days=1),
            "today": clock.today(),
            "may_book": member is not None and may_book(member),
        },
    )


def read_day(text: str) -> date | None:
    """A day written 2026-12-03 within the years a sitting may be booked in; None for anything else."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if 2000 <= day.year <= 2100 else None
