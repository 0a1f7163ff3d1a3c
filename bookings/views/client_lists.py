"""Bringing in a list of clients. Belongs here: sending it in, and its one page with columns and what it would do. Not
here: the rules (`actions.client_lists`)."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import client_list
from bookings.actions import client_lists
from bookings.actions.client_lists import Outcome
from bookings.forms.client_lists import ColumnsForm, SendForm
from bookings.models import SentList
from studio import sent_lists
from studio.access import allow
from studio.csv_in import SEPARATORS, Unreadable
from studio.sent_lists import AlreadyBroughtIn, FaultsLeft

_SHOWN = 20  # lists brought in before


@allow("front_desk", "owner")
def send_list(request: HttpRequest) -> HttpResponse:
    form = SendForm(request.POST, request.FILES) if request.method == "POST" else SendForm()
    if form.is_valid():
        name = form.cleaned_data["file"].name
        row = client_lists.send_in(by=request.member, file_name=name, content=form.content)  # type: ignore[attr-defined]
        return redirect("sent_list", row.pk)
    before = SentList.objects.exclude(brought_in_at=None).defer("content").select_related("by")[:_SHOWN]
    return render(
        request, "bookings/send_list.html", {"form": form, "before": before}, status=422 if form.is_bound else 200
    )


@allow("front_desk", "owner")
def sent_list(request: HttpRequest, pk: int) -> HttpResponse:
    """What it would do; brought in when that is said."""
    row = get_object_or_404(SentList, pk=pk)
    if row.brought_in_at is not None:
        messages.info(request, str(AlreadyBroughtIn()))
        return redirect("send_list")
    try:
        with sent_lists.as_file(row.content) as path:
            head = client_list.head(path)
        form = ColumnsForm(head, request.POST or None)
        if "bring_in" in request.POST and form.is_valid():
            return _bring_in(request, row, form)
        return _page(request, row, form)
    except (Unreadable, UnicodeError) as error:
        return _page(request, row, None, unreadable=str(error))


def _bring_in(request: HttpRequest, row: SentList, form: ColumnsForm) -> HttpResponse:
    said = {"alike": form.cleaned_data["alike"], "leave_out_faults": form.cleaned_data["leave_out_faults"]}
    try:
        done = client_lists.bring_in_sent(by=request.member, row=row, shape=form.shape, **said)  # type: ignore[attr-defined]
    except FaultsLeft:
        form.add_error("leave_out_faults", _("Some lines are wrong: mend them in the file, or say this."))
        return _page(request, row, form)
    except AlreadyBroughtIn as refusal:
        messages.error(request, str(refusal))
        return redirect("send_list")
    words = ngettext("%(n)d client added.", "%(n)d clients added.", done.added) % {"n": done.added}
    messages.success(request, words)
    return redirect("send_list")


def _page(request: HttpRequest, row: SentList, form: ColumnsForm | None, *, unreadable: str = "") -> HttpResponse:
    said: dict[str, Any] = {"row": row, "form": form, "unreadable": unreadable}
    if form is not None:
        outcome = _foretold(row, form)
        separator = SEPARATORS[form.head.separator]
        said |= {"outcome": outcome, "letters": form.head.letters, "separator": separator}
    wrong = unreadable or (form is not None and form.is_bound and form.errors)
    return render(request, "bookings/sent_list.html", said, status=422 if wrong else 200)


def _foretold(row: SentList, form: ColumnsForm) -> Outcome | None:
    """What the list would do as the columns stand; None while they make no sense."""
    asked = form if form.is_bound else ColumnsForm(form.head, form.guessed)
    refused = {"leave_out_faults"}
    if not asked.is_valid() and set(asked.errors) - refused:
        return None
    with sent_lists.as_file(row.content) as path:
        return client_lists.foretell(path, asked.shape, alike=asked.cleaned_data["alike"])
