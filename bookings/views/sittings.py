"""New sittings. Belongs here: booking one. Not here: its page (`sitting_page`)."""

from __future__ import annotations

import re
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from bookings.forms.moments import moved, with_one_more
from bookings.forms.sittings import SittingForm
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.views.diary import read_day
from studio.access import allow

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
