"""Letters. Belongs here: what waits, failed and went out, one letter on screen and paper, what the desk does with it.
Not here: how letters are worded (`wordings`), what clients answer (`answers`)."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import letter_paper
from bookings.actions import correspondence, letters, outbox
from bookings.forms.letters import SendAgainForm
from bookings.models import Answer, Letter, Sitting, Stage
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio import clock, sending
from studio.access import allow, profile_of
from studio.days import midnight

KEEPERS = ("front_desk", "owner")
MOST = 200  # shown at once; the sitting's own page has all of its letters
State = Letter.State


@allow(*KEEPERS)
def all_letters(request: HttpRequest) -> HttpResponse:
    """What needs a hand first: to be printed, given up; then what waits for the next round and what went out today."""
    rows = Letter.objects.with_names()
    waiting = rows.waiting().order_by("due_at", "pk")
    goes = outbox.may_send()
    shown = {
        "goes": goes,
        "given_up": rows.filter(state=State.GIVEN_UP)[:MOST],
        "to_print": (waiting.filter(to="") if goes else waiting)[:MOST],
        "waiting": waiting.exclude(to="")[:MOST] if goes else [],
        "sent": rows.filter(state=State.SENT, sent_at__gte=midnight(clock.today())).order_by("-sent_at")[:MOST],
        "not_then": _who_cannot_come(),
    }
    return render(request, "bookings/letters.html", shown)


def _who_cannot_come() -> list[Answer]:
    """Clients who asked for another time and still have the old one."""
    rows = Answer.objects.filter(sitting__stage=Stage.CONFIRMED, sitting__starts_at__gte=clock.now())
    latest: dict[int, Answer] = {row.sitting_id: row for row in rows.select_related("sitting__client")}
    return [row for row in latest.values() if row.what == Answer.What.NOT_THEN]


@allow(*KEEPERS)
def letter(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, _found(pk))


def _page(request: HttpRequest, row: Letter, status: int = 200, **sent: Any) -> HttpResponse:
    form = SendAgainForm(initial={"to": row.to or (row.client.email if row.client else "")})
    shown = {"letter": row, "form": form, "goes": outbox.may_send()} | sent
    return render(request, "bookings/letter.html", shown, status=status)


@allow(*KEEPERS)
def letter_sheet(request: HttpRequest, pk: int) -> HttpResponse:
    return sending.pdf(letter_paper.render(_found(pk), profile_of(request)), f"letter-{pk}.pdf")


@allow(*KEEPERS)
@require_POST
def send_again(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _found(pk), SendAgainForm(request.POST)
    if not form.is_valid():
        return _page(request, row, 422, form=form)
    try:
        letters.send_again(letter=row, to=form.cleaned_data["to"])
    except Refusal as refusal:
        form.add_error(None, str(refusal))
        return _page(request, row, 422, form=form)
    messages.success(request, _("It goes with the next round."))
    return redirect("letters")


@allow(*KEEPERS)
@require_POST
def handed_over(request: HttpRequest, pk: int) -> HttpResponse:
    row = _found(pk)
    try:
        letters.handed_over(letter=row, by=request.member)  # type: ignore[attr-defined]
    except Refusal as refusal:
        return _page(request, row, 422, wrong=str(refusal))
    messages.success(request, _("Saved: “%(subject)s” was handed over.") % {"subject": row.subject})
    return redirect("letters")


@allow(*KEEPERS)
@require_POST
def write_confirmation(request: HttpRequest, number: str) -> HttpResponse:
    """The confirmation anew, as the sitting stands now."""
    row: Sitting = sitting_page.found(number)
    if row.stage != Stage.CONFIRMED:
        messages.error(request, _("A confirmation is written once the sitting is confirmed."))
        return redirect("sitting", number)
    written = correspondence.confirm(row, by=request.member)  # type: ignore[attr-defined]
    return redirect("letter", written.pk)


def _found(pk: int) -> Letter:
    return get_object_or_404(Letter.objects.with_names().prefetch_related("attachments"), pk=pk)
