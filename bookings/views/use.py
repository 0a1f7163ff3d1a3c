"""Use of rooms, people and kit. Belongs here: the owner's table by week, and the same as a file."""

from __future__ import annotations

import csv
from datetime import date, timedelta
from io import StringIO

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext as _

from bookings import use as reads
from bookings.views.diary import read_day
from studio import clock
from studio.access import allow, profile_of


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
def use_file(request: HttpRequest) -> HttpResponse:
    """One line for each thing and week; hours with a point, days as in ISO 8601."""
    first, file = _first(request), StringIO()
    writer = csv.writer(file)
    writer.writerow([_("week from"), _("what"), _("name"), _("hours booked"), _("hours open"), _("percent")])
    for one in reads.of_weeks(first, profile_of(request).zone):
        for number, week in enumerate(one.weeks):
            percent = "" if week.percent is None else week.percent
            day = (first + number * reads.WEEK).isoformat()
            writer.writerow([day, one.kind_words, _plain(one.name), f"{week.booked:.2f}", f"{week.open:.2f}", percent])
    answer = HttpResponse(file.getvalue().encode("utf-8"), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="use-{first.isoformat()}.csv"'
    return answer


def _first(request: HttpRequest) -> date:
    """The Monday asked for, else that of three weeks ago: this week is the last one shown."""
    asked = read_day(request.GET.get("from", ""))
    return reads.monday(asked or clock.today() - timedelta(weeks=reads.WEEKS - 1))


def _plain(name: str) -> str:
    """A name that a table of sums would take for one of its formulas is set off by an apostrophe."""
    return f"'{name}" if name[:1] in ("=", "+", "-", "@", "\t", "\r") else name
