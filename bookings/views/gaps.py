"""Next free times. Belongs here: their one page."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode

from bookings import fits, once_more
from bookings.fits import Fit
from bookings.forms.gaps import TIMES, GapsForm
from bookings.once_more import OnceMore
from studio import clock
from studio.access import allow
from studio.days import read_day


@allow("front_desk")
def gaps(request: HttpRequest) -> HttpResponse:
    """Asked with every field, so that the address of an answer can be kept; for a sitting that is there already the
    first answer comes at once."""
    again = once_more.of(request.GET)
    if "first" not in request.GET and again is None:
        day = read_day(request.GET.get("from", ""))
        start = max(day, clock.today()) if day else clock.today()
        return render(request, "bookings/gaps.html", {"form": GapsForm(today=start)})
    asked = request.GET if again is None or "first" in request.GET else again.search(clock.today())
    form = GapsForm(asked, today=clock.today())
    shown: dict[str, Any] = {"form": form, "again": again}
    if form.is_valid():
        found = fits.find(form.search(clock.now()))
        shown |= {"found": found, "fits": [(fit, _address(fit, form, again)) for fit in found.fits]}
    return render(request, "bookings/gaps.html", shown)


def _address(fit: Fit, form: GapsForm, again: OnceMore | None) -> str:
    """The address of a new sitting there, or of the one that is moved, everything filled in that is known."""
    start, kind = timezone.localtime(fit.start), form.cleaned_data["kind"]
    known = {
        "day": start.date().isoformat(),
        "at": start.strftime("%H:%M"),
        "kind": kind.pk if kind else "",
        "room": fit.room.pk,
        "photographer": fit.photographer.pk,
        "assistant": fit.assistant.pk if fit.assistant else "",
    } | {name: form.cleaned_data[name] for name in TIMES}
    page, more = again.leads_to() if again else (reverse("new_sitting"), {})
    return f"{page}?{urlencode({name: value for name, value in (known | more).items() if value != ''})}"
