"""The photographer's first page, a day's set-ups; the day sheet; the day's papers."""

from __future__ import annotations

from datetime import date, timedelta

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from bookings.models import Complaint
from shotplans import clashes, day_papers, paper, workbench
from shotplans.sheets import day_sheet as sheets
from studio import clock, on_set, sending
from studio.access import allow, on_screen
from studio.days import day_of


def _around(day: date) -> dict[str, date]:
    return {"day": day, "before": day - timedelta(days=1), "after": day + timedelta(days=1)}


@allow("photographer")
def setups(request: HttpRequest) -> HttpResponse:
    """The day's sittings with where each stands on its way to a plan, and complaints that whoever reads it answers
    for."""
    day = day_of(request)
    planned = workbench.planned_on(day)
    return on_set.render(request, "shotplans/setups.html", {
        **_around(day), "planned": planned, "may_plan": True,
        "in_the_way": clashes.by_plan(clashes.from_day(day, workbench.plans_of(planned))),
        "complaints": Complaint.objects.still_open().kept_by(request.member).by_due_day(),  # type: ignore[attr-defined]
    })


@allow("front_desk", "photographer", "assistant", "owner")
def day_sheet(request: HttpRequest) -> HttpResponse:
    """The day as it hangs on the wall: the same content as its paper."""
    day = day_of(request)
    content = day_papers.day_content(day, workbench.planned_on(day), on_screen(request), clock.now())
    return render(request, "shotplans/day_sheet.html", {**_around(day), "sheet": content})


@allow("front_desk", "photographer", "assistant", "owner")
def day_sheet_pdf(request: HttpRequest) -> HttpResponse:
    day, profile = day_of(request), request.profile  # type: ignore[attr-defined]
    content = day_papers.day_content(day, workbench.planned_on(day), profile, clock.now())
    return sending.pdf(sheets.render(content, paper.size_of(profile)), f"day-sheet-{day:%Y-%m-%d}.pdf")


@allow("photographer", "assistant")
def day_papers_pdf(request: HttpRequest) -> HttpResponse:
    """All papers of the day in one file with bookmarks."""
    day = day_of(request)
    return sending.pdf(day_papers.pdf(day, request.profile), f"papers-{day:%Y-%m-%d}.pdf")  # type: ignore[attr-defined]
