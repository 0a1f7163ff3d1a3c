"""Holds. Belongs here: the list of what is held and for how long, and the end of one hold."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import promises, stages
from bookings.actions import holds as actions
from bookings.forms.steps import HoldForm
from bookings.refusals import Refusal, WrongEnd
from bookings.views import sitting_page
from studio import clock
from studio.access import allow
from studio.sent import whole


@allow("front_desk", "owner")
def holds(request: HttpRequest) -> HttpResponse:
    """What is held, the first to lapse first, and deposits on trust, the longest past first."""
    return render(
        request,
        "bookings/holds.html",
        {"held": promises.held(), "trusts": promises.on_trust(clock.today())},
    )


@allow("front_desk")
@require_POST
def change_hold(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    hold = actions.of(row)
    if hold is None:
        return redirect("sitting", number)
    form = HoldForm(hold, request.POST)
    if form.is_valid():
        values = form.cleaned_data
        try:
            actions.prolong(
                by=request.member,  # type: ignore[attr-defined]
                sitting=row,
                seen=values["seen"],
                expires_at=values["expires_at"],
                note=values["hold_note"],
            )
        except Refusal as refusal:
            form.add_error("hold_day" if isinstance(refusal, WrongEnd) else None, str(refusal))
        else:
            messages.success(request, stages.sentence(sitting_page.found(number)))
            return redirect("sitting", number)
    return sitting_page.page(request, row, status=422, hold=form)


@allow("front_desk")
@require_POST
def client_told(request: HttpRequest, number: str) -> HttpResponse:
    row = sitting_page.found(number)
    seen = whole(request.POST.get("seen", "")) or 0
    try:
        actions.told(by=request.member, sitting=row, seen=seen)  # type: ignore[attr-defined]
    except Refusal as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("Saved: the client was told."))
    return redirect("sitting", number)
