"""Next gaps. Belongs here: their one page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode

from bookings import fits
from bookings.fits import Fit
from bookings.forms.gaps import TIMES, GapsForm
from studio import clock
from studio.access import allow
from studio.days import read_day


@allow("front_desk")
def gaps(request: HttpRequest) -> HttpResponse:
    """Asked with every field, so that the address of an answer can be kept."""
    if "first" not in request.GET:
        day = read_day(request.GET.get("from", ""))
        start = max(day, clock.today()) if day else clock.today()
        return render(request, "bookings/gaps.html", {"form": GapsForm(today=start)})
    form = GapsForm(request.GET, today=clock.today())
    shown = {"form": form}
    if form.is_valid():
        found = fits.find(form.search(clock.now()))
        shown |= {"found": found, "fits": [(fit, _new_sitting(fit, form)) for fit in found.fits]}
    return render(request, "bookings/gaps.html", shown)


def _new_sitting(fit: Fit, form: GapsForm) -> str:
    """The address of a new sitting there, everything filled in that is known."""
    start, kind = timezone.localtime(fit.start), form.cleaned_data["kind"]
    known = {
        "day": start.date().isoformat(),
        "at": start.strftime("%H:%M"),
        "kind": kind.pk if kind else "",
        "room": fit.room.pk,
        "photographer": fit.photographer.pk,
        "assistant": fit.assistant.pk if fit.assistant else "",
    } | {name: form.cleaned_data[name] for name in TIMES}
    return f"{reverse('new_sitting')}?{urlencode({name: value for name, value in known.items() if value != ''})}"
