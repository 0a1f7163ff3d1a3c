"""Wordings of letters. Belongs here: their list, and one to word anew with its blanks, its versions and a preview."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _

from bookings import correspondence, place_letters, rebooking
from bookings.actions import wordings as actions
from bookings.first_wordings import FIRST
from bookings.forms.letters import WordingForm
from bookings.models import LetterKind, Sitting, Wording
from bookings.refusals import Refusal
from studio.access import allow, profile_of


@allow("owner")
def wordings(request: HttpRequest) -> HttpResponse:
    latest: dict[str, Wording] = {}
    for row in Wording.objects.filter(kind__in=FIRST).select_related("by"):
        latest.setdefault(row.kind, row)
    shown = [(LetterKind(kind), latest.get(kind)) for kind in FIRST]
    return render(request, "bookings/wordings.html", {"wordings": shown, "blanks": correspondence.BLANKS})


@allow("owner")
def wording(request: HttpRequest, kind: str) -> HttpResponse:
    """`?first` puts the first wording into the form; nothing is kept before it is saved."""
    if kind not in FIRST:
        raise Http404
    if request.method != "POST":
        text = correspondence.first_wording(kind) if "first" in request.GET else correspondence.wording_of(kind)
        return _page(request, kind, WordingForm(initial=vars(text) | {"seen": actions.number_of(kind)}))
    form = WordingForm(request.POST)
    if not form.is_valid():
        return _page(request, kind, form, status=422)
    said = form.cleaned_data
    text = correspondence.Text(said["subject"], said["body"])
    if "preview" in request.POST:
        return _page(request, kind, form, preview=_preview(kind, said["sitting"], text, request), asked=said["sitting"])
    try:
        kept = actions.word(by=request.member, kind=kind, subject=text.subject, body=text.body, seen=said["seen"])  # type: ignore[attr-defined]
    except Refusal as refusal:
        form.add_error(None, str(refusal))
        # The next save is made in knowledge of that version.
        form.data = form.data.copy() | {"seen": str(actions.number_of(kind))}
        return _page(request, kind, form, status=409, stands=correspondence.wording_of(kind))
    messages.success(request, _("Saved as version %(number)d.") % {"number": kept.number})
    return redirect("wordings")


def _preview(
    kind: str, sitting: Sitting | None, text: correspondence.Text, request: HttpRequest
) -> correspondence.Text | None:
    if sitting is None:
        return None
    example = {"what": _("(what was changed)"), "fee": _("(the fee)"), "balance": _("(what is left to pay)")}
    profile = profile_of(request)
    more = {"bill.number": _("(its number)"), "bill.amount": _("(the amount)"), "bill.until": _("(a day)")}
    if kind == LetterKind.PLACE:
        more = place_letters.example(sitting, profile)
    elif kind == LetterKind.INVITATION:
        more = rebooking.blanks_of(rebooking.example(sitting))
    return correspondence.compose(kind, sitting, profile, text=text, more=more, **example)


def _page(request: HttpRequest, kind: str, form: WordingForm, status: int = 200, **more: Any) -> HttpResponse:
    shown = {
        "kind": LetterKind(kind),
        "form": form,
        "blanks": correspondence.BLANKS,
        "versions": Wording.objects.filter(kind=kind).select_related("by"),
    }
    return render(request, "bookings/wording.html", shown | more, status=status)
