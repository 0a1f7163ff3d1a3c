"""What is kept of people. Belongs here: the log of readings and the day of purging for the owner, a client's own copy,
and erasing one."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import erasure_paper, keeping, one_client
from bookings.actions import erasure
from bookings.actions import keeping as actions
from bookings.forms.keeping import EraseForm, ReadingsForm
from bookings.models import Client, Erasure, NoteReading, NotesPurged, Sitting
from bookings.models.keeping import client_number
from bookings.refusals import Refusal
from studio import clock, sending
from studio.access import allow, profile_of


@allow("owner")
def readings(request: HttpRequest) -> HttpResponse:
    """Who read comfort notes or was refused, whose day has come, what was purged and erased: never what they said."""
    form = ReadingsForm(request.GET or None)
    said = form.cleaned_data if form.is_bound and form.is_valid() else {}
    member = said.get("member")
    found = keeping.readings(
        number=said.get("number", "").strip().upper(), member=member.pk if member else None,
        refused=said.get("refused", False),
    )  # fmt: skip
    shown = {
        "form": form, "readings": found, "most": keeping.MOST_SHOWN,
        "due": keeping.due(clock.now(), profile_of(request)),
        "purged": NotesPurged.objects.select_related("sitting", "by")[:100],
        "erasures": Erasure.objects.select_related("client", "by"), "days": profile_of(request).keep_notes_days,
    }  # fmt: skip
    return render(request, "bookings/readings.html", shown)


@allow("owner")
@require_POST
def purge_now(request: HttpRequest) -> HttpResponse:
    """What `purge_notes` does by night."""
    done = actions.purge_due(profile_of(request), by=request.member)  # type: ignore[attr-defined]
    messages.success(request, _("Purged: the notes of %(n)d.") % {"n": done})
    return redirect("readings")


@allow("owner")
@require_POST
def client_copy(request: HttpRequest, pk: int) -> HttpResponseBase:
    """Everything about a client in one file, to be handed to that client. Making it is noted for each sitting."""
    client = get_object_or_404(Client, pk=pk)
    body = one_client.packed(client)
    for sitting in Sitting.objects.filter(client=client):
        keeping.log(request.member, sitting, NoteReading.Where.EXPORT)  # type: ignore[attr-defined]
    return sending.archive(body, f"client-{client_number(client.pk)}.zip")


@allow("owner")
def erase_client(request: HttpRequest, pk: int) -> HttpResponse:
    """Asks once, with words to type; then it is done."""
    client = get_object_or_404(Client, pk=pk)
    form = EraseForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            erasure.erase(by=request.member, client=client, **form.cleaned_data)  # type: ignore[attr-defined]
        except Refusal as refusal:
            form.add_error("asked_by" if isinstance(refusal, erasure.SayWhoAsked) else "typed", str(refusal))
        else:
            messages.success(request, _("Erased. The receipt is for whoever asked."))
            return redirect("erase_client", pk)
    shown = {
        "client": client, "form": form, "erasure": Erasure.objects.filter(client=client).select_related("by").first(),
        "words": erasure.wanted_words(client), "sittings": Sitting.objects.filter(client=client).count(),
    }  # fmt: skip
    return render(request, "bookings/erase_client.html", shown, status=422 if form.is_bound else 200)


@allow("owner")
def erasure_receipt(request: HttpRequest, pk: int) -> HttpResponse:
    """What was done, on paper, for whoever asked."""
    found = get_object_or_404(Erasure.objects.select_related("by"), client_id=pk)
    return sending.pdf(erasure_paper.receipt(found, profile_of(request)), f"erasure-{client_number(pk)}.pdf")
