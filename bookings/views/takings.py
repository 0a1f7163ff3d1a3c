"""What came in. Belongs here: a day with its count, on screen and paper, a month, and the file for the bookkeeper."""

from __future__ import annotations

import calendar
from datetime import date, timedelta
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _

from bookings import takings, takings_paper
from bookings.actions import till
from bookings.forms.bills import CountForm, SpanForm
from bookings.refusals import Refusal
from studio import clock, csv_out, sending
from studio.access import allow, profile_of
from studio.days import day_of


@allow("front_desk", "owner")
def day(request: HttpRequest) -> HttpResponse:
    """The day's entries by method, the cash counted, and what is owed."""
    on, profile = day_of(request), profile_of(request)
    form = CountForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        values = form.cleaned_data
        try:
            kept = till.count(by=request.member, day=on, counted=values["counted"], note=values["count_note"])  # type: ignore[attr-defined]
        except Refusal as refusal:
            form.add_error("counted", str(refusal))
        else:
            right = kept.difference == 0
            counted, noted = _("Counted: it is what the entries say."), _("Counted, with its difference and your note.")
            messages.success(request, counted if right else noted)
            return redirect(f"{reverse('takings')}?day={on:%Y-%m-%d}")
    said = {
        "day": on, "before": on - timedelta(days=1), "after": on + timedelta(days=1), "currency": profile.currency,
        "found": takings.of_day(on, profile), "form": form, "owed": takings.owed(clock.today()),
        "span": SpanForm(initial=_month(on)),
    }  # fmt: skip
    return render(request, "bookings/takings.html", said, status=422 if form.is_bound else 200)


@allow("front_desk", "owner")
def day_sheet(request: HttpRequest) -> HttpResponse:
    """The day's total on paper, for the till."""
    on, profile = day_of(request), profile_of(request)
    made = takings_paper.day(takings.of_day(on, profile), profile, clock.now())
    return sending.pdf(made, f"money-{on:%Y-%m-%d}.pdf")


@allow("front_desk", "owner")
def month(request: HttpRequest) -> HttpResponse:
    on, profile = day_of(request), profile_of(request)
    span = _month(on)
    found = takings.between(span["first"], span["last"], profile)
    said = {
        "day": on, "before": span["first"] - timedelta(days=1), "after": span["last"] + timedelta(days=1),
        "found": found, "days": takings.by_day(found, profile), "currency": profile.currency,
        "span": SpanForm(initial=span),
    }  # fmt: skip
    return render(request, "bookings/takings_month.html", said)


@allow("front_desk", "owner")
def export(request: HttpRequest) -> Any:
    """The file, line by line; a span that makes no sense comes back beside its field."""
    if not request.GET:
        return render(request, "bookings/takings_export.html", {"span": SpanForm(initial=_month(clock.today()))})
    form = SpanForm(request.GET)
    if not form.is_valid():
        return render(request, "bookings/takings_export.html", {"span": form}, status=422)
    said, profile = form.cleaned_data, profile_of(request)
    rows = takings.rows(said["first"], said["last"], profile)
    lines = csv_out.lines(takings.HEAD, rows, form.between, mark=said["mark"])
    return sending.csv(lines, f"accounts-{said['first']:%Y-%m-%d}-to-{said['last']:%Y-%m-%d}.csv")


def _month(on: date) -> dict[str, date]:
    last = calendar.monthrange(on.year, on.month)[1]
    return {"first": on.replace(day=1), "last": on.replace(day=last)}
