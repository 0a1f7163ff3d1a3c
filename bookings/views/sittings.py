"""New sittings. Belongs here: booking one. Not here: its page (`sitting_page`)."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from bookings import once_more
from bookings.forms import asked
from bookings.forms.kind_choice import TIMES
from bookings.forms.moments import moved, with_one_more
from bookings.forms.people import LINE, with_the_line, with_whole_rows
from bookings.forms.sittings import SittingForm
from bookings.models import Client, Sitting, Stage
from bookings.models.sitters import MOST_IN_A_SITTING
from studio import clock
from studio.access import allow, profile_of

ASKED_FIRST = ("more", "rows", "find")  # buttons that ask for something and book nothing
KEYS = ("room", "photographer", "assistant", "client", "kind", *TIMES)
DRAFT = "draft new_sitting"  # what the draft of this page is told by when it has become a sitting (`drafts.js`)


@allow("front_desk")
def new_sitting(request: HttpRequest) -> HttpResponse:
    currency = profile_of(request).currency
    if request.method != "POST":
        return _new(request, SittingForm(initial=_prefilled(request), currency=currency))
    data = with_the_line(request.POST)
    if any(name in data for name in ASKED_FIRST):
        return _new(request, _unjudged(data, currency))
    form = SittingForm(with_whole_rows(moved(data)), currency=currency)
    if form.is_valid():
        booked = form.keep(request.member, behind=_to_wait_behind(data))  # type: ignore[attr-defined]
        if booked is not None:
            messages.success(request, _said_of(booked), extra_tags=DRAFT)
            return redirect("sitting", booked.number)
    return _new(request, form)


def _new(request: HttpRequest, form: SittingForm) -> HttpResponse:
    return render(request, "bookings/new_sitting.html", {"form": form, "behind": request.POST.get("behind", "")})


def _prefilled(request: HttpRequest) -> dict[str, Any]:
    """What a click in the diary, in the next gaps or on a client's page already says; anything unreadable is left
    out."""
    found = asked.read(request.GET, KEYS)
    client = Client.objects.filter(pk=found["client"]).first() if "client" in found else None
    if client is not None:
        found["new_name"] = client.name
    like = once_more.of(request.GET)
    if like is not None and not like.moves:
        found[LINE] = once_more.people_in_a_line(like.sitting, found.get("day") or clock.today())
    return found


def _unjudged(data: QueryDict, currency: str) -> SittingForm:
    """The same page with one more row, the rows of the line or the clients who are meant, judged by nobody yet."""
    if "more" in data:
        data = with_one_more(data, MOST_IN_A_SITTING)
    form = SittingForm(with_whole_rows(data), currency=currency, looking="find" in data)
    form.leave_unjudged()
    return form


def _to_wait_behind(data: QueryDict) -> Sitting | None:
    number = data.get("behind", "")
    readable = number.isascii() and number.isprintable()
    return Sitting.objects.filter(number=number).first() if number and readable else None


def _said_of(booked: Sitting) -> str:
    hold = getattr(booked, "hold", None)
    if booked.stage == Stage.HELD and hold is not None and hold.behind is not None:
        return _("%(number)s waits behind %(first)s.") % {"number": booked.number, "first": hold.behind.number}
    return _("%(number)s is booked and held.") % {"number": booked.number}
