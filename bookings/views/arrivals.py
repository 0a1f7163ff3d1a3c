"""Arrivals. Belongs here: who comes today, and what they allow, recorded by the studio. Not here: money and the other
steps of a sitting (`sitting_page`)."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import arrivals as reads
from bookings import permissions, stages
from bookings.access import may_book
from bookings.actions import arrivals, sittings
from bookings.forms.arrivals import ConsentsForm, PeopleForm, ReleaseForm, TakeBackForm, WaiveForm
from bookings.models import Sitting, Stage
from bookings.refusals import Refusal, WrongSignature
from bookings.views import sitting_page
from studio import clock
from studio.access import allow, member_of
from studio.days import read_day
from studio.models import Role
from studio.sent import whole

AT_THE_DOOR = ("front_desk", "photographer", "owner")


@allow(*AT_THE_DOOR)
def day(request: HttpRequest) -> HttpResponse:
    """The whole page, or its board alone for the page's own script."""
    today = clock.today()
    on = read_day(request.GET.get("day", "")) or today
    shown = {
        "board": reads.board(on, now=clock.now(), today=today),
        "today": today,
        "before": on - timedelta(days=1),
        "after": on + timedelta(days=1),
        "may_book": _is(request, may_book),
    }
    name = "bookings/_arrivals.html" if request.headers.get("X-Fragment") else "bookings/arrivals.html"
    return render(request, name, shown)


@allow(*AT_THE_DOOR)
@require_POST
def arrive(request: HttpRequest, number: str) -> HttpResponse:
    """They are here: one tap on the board."""
    row = sitting_page.found(number)
    seen = whole(request.POST.get("seen", "")) or 0
    try:
        row = sittings.change_stage(
            by=request.member, sitting=row, to=Stage.ARRIVED, seen=seen  # type: ignore[attr-defined]
        )
    except Refusal as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, f"{row.number}, {row.client.short_name}: {stages.sentence(row)}")
    return redirect(_on_board(row))


@allow(*AT_THE_DOOR)
def permissions_of(request: HttpRequest, number: str) -> HttpResponse:
    return _page(request, sitting_page.found(number))


@allow(*AT_THE_DOOR)
@require_POST
def sign_release(request: HttpRequest, number: str) -> HttpResponse:
    def keep(row: Sitting, form: Any) -> str:
        said = {"by": request.member, "sitting": row, "people": form.cleaned_data["people"]}  # type: ignore[attr-defined]
        if not form.cleaned_data["how"]:
            arrivals.name_guardian(**said, signature=form.signature, how="desk")
            return _("The guardian is saved; nothing is signed yet.")
        signed = {"how": form.cleaned_data["how"], "signed_on": form.cleaned_data["signed_on"]}
        arrivals.sign(**said, signature=form.signature, **signed)
        return _("Saved as signed.")

    return _kept(request, number, "release", ReleaseForm, keep)


@allow(*AT_THE_DOOR)
@require_POST
def answer_consents(request: HttpRequest, number: str) -> HttpResponse:
    def keep(row: Sitting, form: Any) -> str:
        arrivals.answer(by=request.member, sitting=row, answers=form.answers, how=form.cleaned_data["consents_how"])  # type: ignore[attr-defined]
        return _("The answers are saved.")

    return _kept(request, number, "consents", ConsentsForm, keep)


@allow(*AT_THE_DOOR)
@require_POST
def waive_release(request: HttpRequest, number: str) -> HttpResponse:
    def keep(row: Sitting, form: Any) -> str:
        by, said = request.member, form.cleaned_data  # type: ignore[attr-defined]
        arrivals.waive(by=by, sitting=row, people=said["people"], note=said["waive_note"])
        return _("Waived.") if by.has_role(Role.OWNER) else _("The owner is asked; arrivals shows it.")

    return _kept(request, number, "waiving", WaiveForm, keep)


@allow(*AT_THE_DOOR)
@require_POST
def take_back_release(request: HttpRequest, number: str) -> HttpResponse:
    def keep(row: Sitting, form: Any) -> str:
        by, said = request.member, form.cleaned_data  # type: ignore[attr-defined]
        arrivals.take_back(by=by, sitting=row, people=said["people"], note=said["taken_note"])
        return _("Taken back.")

    return _kept(request, number, "taking_back", TakeBackForm, keep)


_NOTES = {WaiveForm: "waive_note", TakeBackForm: "taken_note"}


def _kept(
    request: HttpRequest, number: str, name: str, asked: Callable[..., forms.Form], keep: Callable[[Sitting, Any], str]
) -> HttpResponse:
    """Do what a form asks and go back to the board, or show the page with the form as it was sent."""
    row = sitting_page.found(number)
    form = asked(permissions.of_sitting(row), request.POST)
    if form.is_valid():
        try:
            done = keep(row, form)
        except WrongSignature as refusal:
            form.add_error(refusal.field, str(refusal))
        except Refusal as refusal:
            form.add_error(_NOTES.get(type(form)), str(refusal))
        else:
            messages.success(request, done)
            return redirect(_on_board(row))
    return _page(request, row, status=422, **{name: form})


def _page(request: HttpRequest, row: Sitting, *, status: int = 200, **sent: PeopleForm | ConsentsForm) -> HttpResponse:
    rows = permissions.of_sitting(row)
    kept = {row.pk for row in row.sitters.with_what_is_known() if row.has_notes}  # type: ignore[attr-defined]
    forms_shown: dict[str, Any] = {
        "release": ReleaseForm(rows),
        "consents": ConsentsForm(rows),
        "waiving": WaiveForm(rows),
        "taking_back": TakeBackForm(rows),
    }
    shown = {
        "sitting": row,
        "people": rows,
        "notes_unwanted": [one.sitter.label for one in rows if one.notes_unwanted and one.sitter.pk in kept],
        "may_waive": _is(request, lambda member: member.has_role(Role.OWNER)),
        "board": _on_board(row),
        "adult_years": permissions.ADULT_YEARS,
    }
    return render(request, "bookings/permissions.html", shown | forms_shown | sent, status=status)


def _on_board(row: Sitting) -> str:
    return f"{reverse('arrivals')}?day={timezone.localdate(row.starts_at):%Y-%m-%d}#{row.number}"


def _is(request: HttpRequest, rule: Callable[[Any], bool]) -> bool:
    member = member_of(request)
    return member is not None and rule(member)
