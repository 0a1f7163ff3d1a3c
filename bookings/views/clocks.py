"""The clocks after a sitting. Belongs here: what it waits for by hand, why it is late, and all that are late on one
page and on paper. Not here: what else is promised (`waiting`)."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import afterwards, late_paper
from bookings.actions import clocks
from bookings.forms.clocks import LateForm, WaitForm
from bookings.models import Sitting
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio import clock, sending
from studio.access import allow, profile_of
from studio.paper.page import PAPERS

KEEPERS = ("front_desk", "photographer", "owner")
LISTS = ("front_desk", "owner")


@allow(*LISTS)
def late_list(request: HttpRequest) -> HttpResponse:
    """Everything past its promise on one page, each with its reason or the question for it."""
    return _late_page(request)


@allow(*LISTS)
def late_sheet(request: HttpRequest) -> HttpResponse:
    profile = profile_of(request)
    sheet = late_paper.content(afterwards.late(), profile, clock.now())
    return sending.pdf(late_paper.render(sheet, PAPERS[profile.paper]), "late-list.pdf")


def _late_page(request: HttpRequest, **sent: Any) -> HttpResponse:
    """The list; a reason that was sent and refused stands in its own row as it was typed."""
    rows = []
    for one in afterwards.late():
        mine = sent.get("number") == one.sitting.number
        rows.append((one, sent["form"] if mine else LateForm(auto_id=f"{one.sitting.pk}_%s")))
    return render(request, "bookings/late_list.html", {"rows": rows}, status=422 if sent else 200)


@allow(*KEEPERS)
@require_POST
def wait_for(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    after = afterwards.of(row)
    if after is None or not after.whose:
        return redirect("sitting", number)
    form = WaitForm(after, request.POST)
    if form.is_valid():
        values = form.cleaned_data
        try:
            clocks.wait_for(
                by=request.member,  # type: ignore[attr-defined]
                sitting=row,
                what=values["what"],
                note=values["wait_note"],
                seen=values["seen"],
            )
        except Refusal as refusal:
            form.add_error(None, str(refusal))
        else:
            return _told(request, number)
    return sitting_page.page(request, row, status=422, waiting=form)


@allow(*KEEPERS)
@require_POST
def say_why_late(request: HttpRequest, number: str) -> HttpResponse:
    row, on_list = sitting_page.found(number), "on_list" in request.POST
    form = LateForm(request.POST, auto_id=f"{row.pk}_%s" if on_list else "id_%s")
    if form.is_valid():
        values = form.cleaned_data
        try:
            clocks.say_why_late(by=request.member, sitting=row, code=values["code"], note=values["why"])  # type: ignore[attr-defined]
        except Refusal as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, _("Saved: why it is late."))
            return redirect("late_list") if on_list else redirect("sitting", number)
    if on_list and request.member.has_role(*LISTS):  # type: ignore[attr-defined]
        return _late_page(request, form=form, number=number)
    return sitting_page.page(request, row, status=422, late_reason=form)


def _told(request: HttpRequest, number: str) -> HttpResponse:
    fresh: Sitting = sitting_page.found(number)
    after = afterwards.of(fresh)
    if after is not None:
        messages.success(request, after.sentence)
    return redirect("sitting", number)
