"""What is waited for, and whom to ask back. Belongs here: the desk's page of everything with a day, what of it the
owner's first page shows, and the invitations. Not here: the late list (`clocks`)."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import afterwards, rebooking
from bookings import waiting as reads
from bookings.actions import rebooking as actions
from bookings.forms.occasions import OccasionForm
from bookings.models import Client, Complaint
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio import clock
from studio.access import allow

FEW = 8  # of those to ask back, on the page of everything


@allow("front_desk", "owner")
def waiting(request: HttpRequest) -> HttpResponse:
    found = reads.everything(clock.today())
    return render(request, "bookings/waiting.html", {"waiting": found, "few": found.asked_back[:FEW]})


def studio_panel(request: HttpRequest) -> str:
    """For the owner's first page: what is open of complaints and what is late, and where the rest is."""
    shown = {
        "open": Complaint.objects.still_open().with_names().by_due_day(),
        "late": afterwards.late(),
        "today": clock.today(),
    }
    return render_to_string("bookings/_studio_panel.html", shown, request)


@allow("front_desk", "owner")
def to_ask_back(request: HttpRequest) -> HttpResponse:
    prompts = rebooking.due(clock.today())
    shown = {
        "prompts": [one for one in prompts if one.answer is None],
        "answered": [one for one in prompts if one.answer is not None],
        "within": rebooking.WITHIN,
    }
    return render(request, "bookings/to_ask_back.html", shown)


@allow("front_desk", "owner")
@require_POST
def ask_back(request: HttpRequest, pk: int) -> HttpResponse:
    """One tap: invited by letter, by telephone, not this year, or never again."""
    client, member = get_object_or_404(Client, pk=pk), request.member  # type: ignore[attr-defined]
    what = request.POST.get("what", "")
    try:
        if what in ("letter", "telephone"):
            actions.invite(by=member, client=client, by_letter=what == "letter")
            messages.success(request, _("%(client)s is invited.") % {"client": client.name})
        elif what == "left":
            actions.leave(by=member, client=client)
            messages.success(request, _("%(client)s is not asked this year.") % {"client": client.name})
        elif what == "never":
            actions.never_again(client=client)
            messages.success(request, _("%(client)s is never asked again.") % {"client": client.name})
        else:
            messages.error(request, _("Choose one of the answers."))
    except Refusal as refusal:
        messages.error(request, str(refusal))
    return redirect("to_ask_back")


@allow("front_desk", "owner")
@require_POST
def keep_occasion(request: HttpRequest, number: str) -> HttpResponse:
    row, form = sitting_page.found(number), OccasionForm(request.POST)
    if not form.is_valid():
        said = form.errors.get("occasion_on") or [_("Look at the page again, then save.")]
        return sitting_page.page(request, row, status=422, occasion_wrong=said[0])
    try:
        actions.keep_occasion(
            by=request.member, sitting=row, day=form.cleaned_data["occasion_on"], seen=form.cleaned_data["seen"]  # type: ignore[attr-defined]
        )
    except Refusal as refusal:
        return sitting_page.page(request, row, status=422, occasion_wrong=str(refusal))
    messages.success(request, _("Saved: the day of the occasion."))
    return redirect("sitting", number)
