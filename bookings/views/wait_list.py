"""Clients who wait for a time. Belongs here: their list, one wish, and the offer of a time that came free."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import wait_list as reads
from bookings.actions import wait_list as actions
from bookings.forms.wanted import WantedTimeForm
from bookings.models import Client, WantedTime
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio import clock
from studio.access import allow
from studio.sent import whole


@allow("front_desk")
def wanted_times(request: HttpRequest) -> HttpResponse:
    rows = list(WantedTime.objects.waiting().with_names())
    return render(request, "bookings/wanted_times.html", {"rows": reads.lines(rows)})


@allow("front_desk")
def new_wanted_time(request: HttpRequest, pk: int) -> HttpResponse:
    client = get_object_or_404(Client, pk=pk)
    row = WantedTime(client=client, by=request.member, written_at=clock.now())  # type: ignore[attr-defined]
    return _page(request, row)


@allow("front_desk")
def wanted_time(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, get_object_or_404(WantedTime.objects.waiting().with_names(), pk=pk))


def _page(request: HttpRequest, row: WantedTime) -> HttpResponse:
    form = WantedTimeForm(request.POST or None, instance=row)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("Saved: %(client)s waits for a time.") % {"client": row.client.name})
        return redirect("client", row.client_id)
    status = 422 if form.errors else 200
    return render(request, "bookings/wanted_time.html", {"form": form, "wanted": row}, status=status)


@allow("front_desk")
@require_POST
def take_off_wanted(request: HttpRequest, pk: int) -> HttpResponse:
    row, seen = get_object_or_404(WantedTime, pk=pk), whole(request.POST.get("seen", "")) or 0
    try:
        actions.take_off(wanted=row, seen=seen)
    except Refusal as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("Taken off: %(client)s waits no longer.") % {"client": row.client.name})
    return redirect("client", row.client_id)


@allow("front_desk")
@require_POST
def offer_time(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """One tap on the page of a sitting whose time came free."""
    sitting, wanted = sitting_page.found(number), get_object_or_404(WantedTime, pk=pk)
    try:
        letter = actions.offer(by=request.member, wanted=wanted, sitting=sitting)  # type: ignore[attr-defined]
    except Refusal as refusal:
        messages.error(request, str(refusal))
    else:
        said = _("Offered: the letter to %(client)s is on its way.")
        if not letter.to:
            said = _("Offered: %(client)s has no e-mail, so ring, or print the letter.")
        messages.success(request, said % {"client": wanted.client.name})
    return redirect("sitting", number)
