"""The board of a rota, the same for the desk and the set. Belongs here: showing it, its taps, walk-ins, the slate, and
a make-up date. It works by loading it again; its script asks for news every few seconds."""

from __future__ import annotations

import uuid
from contextlib import suppress
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseNotModified
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import rota_board as reads
from bookings.access import may_book, may_read_notes
from bookings.actions import rota_days
from bookings.forms.moments import moved
from bookings.forms.rotas import MakeUpForm
from bookings.models import Place, Rota, State
from bookings.refusals import Refusal
from studio import clock, entries, on_set
from studio.access import EVERY_ROLE, allow, role_of
from studio.models import Role
from studio.models.versions import Stale
from studio.sent import whole

TAPPING = ("front_desk", "photographer", "assistant")
ON_SET = (Role.PHOTOGRAPHER, Role.ASSISTANT)
TAPS = {*State.values, rota_days.NEXT}


@allow(*EVERY_ROLE)
def board(request: HttpRequest, number: str) -> HttpResponse:
    return _seen(request, reads.found(number), "board")


@allow(*EVERY_ROLE)
def slate(request: HttpRequest, number: str) -> HttpResponse:
    """Name and number of whoever is on set, or else next, over the whole screen."""
    return _seen(request, reads.found(number), "slate")


@allow(*TAPPING)
@require_POST
@entries.once
def tap(request: HttpRequest, number: str, pk: int) -> HttpResponse:
    """One tap: what became of one place."""
    kept = reads.found(number)
    place = get_object_or_404(Place.objects.select_related("rota__sitting", "sitter"), pk=pk, rota=kept)
    to, seen = request.POST.get("to", ""), whole(request.POST.get("seen", ""))
    if to not in TAPS or seen is None:
        return _told(request, kept, _("That was no tap of this board. Load it again."))
    try:
        rota_days.mark(by=request.member, place=place, to=to, seen=seen)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _told(request, kept, str(refusal))
    return _told(request, kept)


@allow(*TAPPING)
@require_POST
@entries.once
def undo(request: HttpRequest, number: str) -> HttpResponse:
    kept = reads.found(number)
    wanted = uuid.UUID(int=0)
    with suppress(ValueError):
        wanted = uuid.UUID(request.POST.get("tap", ""))
    try:
        rota_days.undo(by=request.member, rota=kept, tap=wanted)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _told(request, kept, str(refusal))
    return _told(request, kept)


@allow(*TAPPING)
@require_POST
@entries.once
def walk_in(request: HttpRequest, number: str) -> HttpResponse:
    kept = reads.found(number)
    name = request.POST.get("name", "")
    try:
        rota_days.walk_in(by=request.member, rota=kept, name=name)  # type: ignore[attr-defined]
    except (Refusal, Stale) as refusal:
        return _told(request, kept, str(refusal), typed=name[:400])
    return _told(request, kept)


@allow("front_desk")
def make_up(request: HttpRequest, number: str) -> HttpResponse:
    """Another date for those who were absent or are to be taken again."""
    kept = reads.found(number)
    form = MakeUpForm(moved(request.POST)) if request.method == "POST" else MakeUpForm()
    if request.method == "POST" and form.is_valid() and form.cleaned_data.get("starts_at"):
        starts_at = form.cleaned_data["starts_at"]
        try:
            booked = rota_days.make_up(
                by=request.member, rota=kept, starts_at=starts_at, acknowledged=form.acknowledged  # type: ignore[attr-defined]
            )
        except Refusal as refusal:
            form.refuse(refusal)
        else:
            messages.success(request, _("%(number)s is booked, with its places.") % {"number": booked.number})
            return redirect("sitting", booked.number)
    shown = {"rota": kept, "sitting": kept.sitting, "form": form, "missing": rota_days.still_to_photograph(kept)}
    is_wrong = request.method == "POST"
    return render(request, "bookings/make_up.html", shown, status=422 if is_wrong else 200)


def _seen(request: HttpRequest, kept: Rota, page: str) -> HttpResponse:
    """The whole page, or the part of it that changes, or nothing where nothing did."""
    is_news = bool(request.headers.get("X-Fragment"))
    tag = _tag(request, kept, page)
    if is_news and request.headers.get("If-None-Match") == tag:
        return HttpResponseNotModified(headers={"ETag": tag})
    template = f"bookings/_rota_{page}.html" if is_news else f"bookings/rota_{page}.html"
    shown = _shown(request, kept)
    if is_news:
        answer = render(request, template, shown)
    else:
        may_read = may_read_notes(request.member, kept.sitting)  # type: ignore[attr-defined]
        answer = on_set.render(request, template, shown, until=kept.sitting.strike_ends_at if may_read else None)
    answer["ETag"] = tag
    answer["Cache-Control"] = "private, no-cache"
    return answer


def _shown(request: HttpRequest, kept: Rota) -> dict[str, Any]:
    member = request.member  # type: ignore[attr-defined]
    return {
        "board": reads.read(kept, clock.now(), with_needs=may_read_notes(member, kept.sitting)),
        "sitting": kept.sitting,
        "may_tap": member.has_role(*TAPPING),
        "may_book": may_book(member),
        "is_on_set": role_of(request) in ON_SET,
    }


def _tag(request: HttpRequest, kept: Rota, page: str) -> str:
    """What the board depends on: every tap raises the rota's version, and the minute moves the forecast."""
    member = request.member  # type: ignore[attr-defined]
    said = (page, kept.version, kept.sitting.version, f"{clock.now():%d%H%M}", member.pk, role_of(request))
    return f'"{"-".join(map(str, said))}"'


def _told(request: HttpRequest, kept: Rota, wrong: str = "", typed: str = "") -> HttpResponse:
    """After a tap: the board anew for its script, else the page it was tapped on."""
    page = "slate" if request.POST.get("back") == "slate" else "board"
    if request.headers.get("X-Fragment"):
        shown = _shown(request, reads.found(kept.sitting.number)) | {"wrong": wrong, "typed": typed}
        return render(request, f"bookings/_rota_{page}.html", shown, status=409 if wrong else 200)
    if wrong:
        messages.error(request, wrong)
    return redirect(f"rota_{page}", kept.sitting.number)
