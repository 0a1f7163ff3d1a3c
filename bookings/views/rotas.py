"""A rota before the day. Belongs here: the list with its preview, keeping it, and what is printed of it. Not here: the
board of the day (`rota_board`)."""

from __future__ import annotations

import hashlib
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from bookings import place_letters, rota_board, rota_list, rota_paper, stages
from bookings.actions import place_letters as telling
from bookings.actions import rotas
from bookings.forms.rotas import RotaForm
from bookings.models import Sitting
from bookings.objections import Objection
from bookings.refusals import Objected, Refusal, TooLate
from bookings.rota_list import Arranged
from bookings.views import sitting_page
from studio import clock, sending
from studio.access import EVERY_ROLE, allow, profile_of
from studio.models.versions import Stale


@allow("front_desk")
def rota(request: HttpRequest, number: str) -> HttpResponse:
    """The list and its times; a preview, and with `keep` the places themselves."""
    row = sitting_page.found(number)
    if row.stage not in stages.CHANGEABLE:
        messages.error(request, str(TooLate(row)))
        return redirect("sitting", number)
    if request.method != "POST":
        return _page(request, row, RotaForm(row))
    form = RotaForm(row, request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, row, form, status=422)
    only = form.cleaned_data["only_listed"]
    arranged = rota_list.arrange(row, form.list.lines, form.settings, only_listed=only)
    if "keep" not in request.POST:
        return _page(request, row, form, arranged=arranged)
    if request.POST["keep"] != _as_shown(arranged):
        wrong = _("The list was changed after its places were shown: here they are anew. Nothing is saved yet.")
        return _page(request, row, form, arranged=arranged, wrong=wrong, status=422)
    said = {"seen": form.cleaned_data["seen"] or 0, "lengthen": form.cleaned_data["lengthen"], "only_listed": only}
    try:
        rotas.keep(
            by=request.member, sitting=row, lines=form.list.lines, settings=form.settings,  # type: ignore[attr-defined]
            acknowledged=form.acknowledged, **said,
        )  # fmt: skip
    except Objected as refusal:
        wrong = _("Nothing is saved yet: something speaks against it.")
        return _page(request, row, form, arranged=arranged, wrong=wrong, objections=refusal.objections, status=422)
    except (Refusal, Stale) as refusal:
        return _page(request, row, form, arranged=arranged, wrong=str(refusal), status=422)
    count = len(arranged.places)
    messages.success(request, _("%(count)d places are saved.") % {"count": count})
    return redirect("rota", number)


def _page(
    request: HttpRequest,
    row: Sitting,
    form: RotaForm,
    *,
    arranged: Arranged | None = None,
    wrong: str = "",
    objections: list[Objection] | None = None,
    status: int = 200,
) -> HttpResponse:
    shown: dict[str, Any] = {
        "sitting": row,
        "form": form,
        "arranged": arranged,
        "wrong": wrong,
        "objections": objections or [],
        "told": place_letters.told(form.instance) if form.instance.pk else [],
    }
    if arranged is not None:
        minutes = arranged.minutes_from(row.starts_at)
        shown |= {
            "as_shown": _as_shown(arranged),
            "too_long": max(minutes - row.minutes, 0),
            "spare_places": max(row.minutes - minutes, 0) // form.settings.place_minutes,
            "late": round(arranged.expected.late),
            "worst_late": round(arranged.expected.worst_late),
            "mean_wait": round(arranged.expected.mean_wait, 1),
        }
    return render(request, "bookings/rota.html", shown, status=status)


def _as_shown(arranged: Arranged) -> str:
    """What tells one preview from another: who has which time."""
    said = "\n".join(f"{seat.span.starts_at.isoformat()} {seat.entry.name}" for seat in arranged.places if seat.entry)
    return hashlib.sha256(said.encode()).hexdigest()[:16]


@allow("front_desk")
@require_POST
def tell_places(request: HttpRequest, number: str) -> HttpResponse:
    """A letter to everybody who does not know their time yet."""
    kept = rota_board.found(number)
    written = telling.tell(by=request.member, rota=kept)  # type: ignore[attr-defined]
    missing = place_letters.without_address(place_letters.told(kept))
    words = [
        ngettext("One letter is written.", "%(n)d letters are written.", len(written)) % {"n": len(written)}
        if written else _("Everybody with an address knows their time."),
        _("Without an address, to be told by telephone: %(names)s.") % {"names": ", ".join(missing)} if missing else "",
    ]  # fmt: skip
    messages.success(request, " ".join(filter(None, words)))
    return redirect("rota", number)


@allow(*EVERY_ROLE)
def door_list(request: HttpRequest, number: str) -> HttpResponse:
    """Who comes when, to tick at the door."""
    kept = rota_board.found(number)
    board = rota_board.read(kept, clock.now(), with_needs=False)
    return sending.pdf(rota_paper.door_list(board, profile_of(request)), f"{number}-door-list.pdf")


@allow(*EVERY_ROLE)
def slates(request: HttpRequest, number: str) -> HttpResponse:
    """A page for each person, to be held before the camera."""
    kept = rota_board.found(number)
    board = rota_board.read(kept, clock.now(), with_needs=False)
    return sending.pdf(rota_paper.slates(board, profile_of(request)), f"{number}-slates.pdf")
