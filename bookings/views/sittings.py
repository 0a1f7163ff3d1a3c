"""Sittings. Belongs here: booking one, its page, and moving it on."""

from __future__ import annotations

import re
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import stages
from bookings.access import may_add_notes, may_book, may_read_notes
from bookings.actions import sittings
from bookings.forms.moments import moved, with_one_more
from bookings.forms.sittings import SittingForm, StageForm
from bookings.models import Sitting
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.refusals import Refusal
from bookings.views.diary import read_day
from studio.access import EVERY_ROLE, allow

CLOCK = re.compile(r"([01][0-9]|2[0-3]):[0-5][0-9]")


@allow("front_desk")
def new_sitting(request: HttpRequest) -> HttpResponse:
    if request.method != "POST":
        return _new(request, SittingForm(initial=_prefilled(request)))
    if "more" in request.POST:
        return _new(request, _with_one_more(request.POST))
    form = SittingForm(moved(request.POST))
    if form.is_valid():
        booked = form.keep(request.member)  # type: ignore[attr-defined]
        if booked is not None:
            messages.success(request, _("%(number)s is booked and held.") % {"number": booked.number})
            return redirect("sitting", booked.number)
    return _new(request, form)


def _new(request: HttpRequest, form: SittingForm) -> HttpResponse:
    return render(request, "bookings/new_sitting.html", {"form": form})


def _prefilled(request: HttpRequest) -> dict[str, Any]:
    """What a click in the diary or on a client's page already says; anything unreadable is left out."""
    found: dict[str, Any] = {}
    for name in ("room", "photographer", "assistant", "client"):
        text = request.GET.get(name, "")
        if text.isascii() and text.isdecimal() and len(text) < 16:
            found[name] = int(text)
    day = read_day(request.GET.get("day", ""))
    if day is not None:
        found["day"] = day
    if CLOCK.fullmatch(request.GET.get("at", "")):
        found["time"] = request.GET["at"]
    return found


def _with_one_more(data: QueryDict) -> SittingForm:
    """The same page with one more row for a person, judged by nobody yet."""
    form = SittingForm(with_one_more(data, MOST_IN_A_SITTING))
    form.leave_unjudged()
    return form


@allow(*EVERY_ROLE)
def sitting(request: HttpRequest, number: str) -> HttpResponse:
    return _page(request, _found(number))


@allow("front_desk", "photographer", "owner")
@require_POST
def change_stage(request: HttpRequest, number: str) -> HttpResponse:
    row, form = _found(number), StageForm(request.POST)
    if not form.is_valid():
        return _page(request, row, wrong=_("Choose one of the steps."), note=request.POST.get("note", ""))
    try:
        row = sittings.change_stage(by=request.member, sitting=row, **form.cleaned_data)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _page(request, _found(number), wrong=str(refusal), note=form.cleaned_data["note"])
    messages.success(request, stages.sentence(row))
    return redirect("sitting", number)


def _found(number: str) -> Sitting:
    return get_object_or_404(Sitting.objects.with_people(), number=number)


def _page(request: HttpRequest, row: Sitting, *, wrong: str = "", note: str = "") -> HttpResponse:
    member = request.member  # type: ignore[attr-defined]
    moves = [
        {"to": stage.value, "label": stage.label, "needs_note": stages.needs_a_note(row.stage, stage)}
        for stage in stages.FOLLOWS[row.stage]
    ]
    panels = [import_string(path)(request, row) for path in settings.SITTING_PANELS]
    return render(
        request,
        "bookings/sitting.html",
        {
            "sitting": row,
            "stage": stages.sentence(row),
            "moves": moves if member.has_role("front_desk", "photographer", "owner") else [],
            "wrong": wrong,
            "note": note,
            "sitters": row.sitters.with_what_is_known(),
            "history": sorted(
                [*row.stage_changes.select_related("by"), *row.changes.select_related("by")], key=lambda one: one.at
            ),
            "may_change": may_book(member) and row.stage in stages.CHANGEABLE,
            "may_read_notes": may_read_notes(member, row),
            "may_add_notes": may_add_notes(member),
            "panels": [panel for panel in panels if panel],
        },
    )
