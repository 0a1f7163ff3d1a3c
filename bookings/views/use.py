"""Use of rooms, people and kit. Belongs here: the owner's table by week, and the same as a file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta, tzinfo

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.utils.translation import gettext as _

from bookings import use as reads
from studio import clock, csv_out, sending
from studio.access import allow, profile_of
from studio.days import read_day


@allow("owner")
def use(request: HttpRequest) -> HttpResponse:
    first = _first(request)
    weeks = [first + number * reads.WEEK for number in range(reads.WEEKS)]
    used = reads.of_weeks(first, profile_of(request).zone)
    shown = {
        "weeks": weeks,
        "rows": [(one, list(zip(weeks, one.weeks, strict=True))) for one in used],
        "first": first,
        "before": first - reads.WEEKS * reads.WEEK,
        "after": first + reads.WEEKS * reads.WEEK,
    }
    return render(request, "bookings/use.html", shown)


@allow("owner")
def use_file(request: HttpRequest) -> HttpResponseBase:
    """One line for each thing and week; hours with a point, days as in ISO 8601."""
    first = _first(request)
    head = (_("week from"), _("what"), _("name"), _("hours booked"), _("hours open"), _("percent"))
    lines = csv_out.lines(head, _rows(first, profile_of(request).zone))
    return sending.csv(lines, f"use-{first.isoformat()}.csv")


def _rows(first: date, zone: tzinfo) -> Iterator[tuple[object, ...]]:
    for one in reads.of_weeks(first, zone):
        for number, week in enumerate(one.weeks):
            percent = "" if week.percent is None else week.percent
            day = (first + number * reads.WEEK).isoformat()
            yield day, one.kind_words, one.name, f"{week.booked:.2f}", f"{week.open:.2f}", percent


def _first(request: HttpRequest) -> date:
    """The Monday asked for, else that of three weeks ago: this week is the last one shown."""
    asked = read_day(request.GET.get("from", ""))
    return reads.monday(asked or clock.today() - timedelta(weeks=reads.WEEKS - 1))
