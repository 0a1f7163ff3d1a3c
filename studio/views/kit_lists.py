"""The kit as a file, out and in. Belongs here: sending a list in, its one page of what it would do, and the file of all
of it. Not here: the rules (`actions.kit_lists`), the columns (`studio.kit_list`)."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from studio import clock, csv_out, kit_list, sending
from studio.access import allow
from studio.actions import kit_lists
from studio.actions.kit_lists import Outcome
from studio.csv_in import Unreadable
from studio.forms.kit_lists import SendKitForm
from studio.models import KitList
from studio.sent_lists import AlreadyBroughtIn, FaultsLeft

_SHOWN = 20  # lists brought in before


@allow("owner")
def kit_file(request: HttpRequest) -> Any:
    """All of it, line by line; brought in again it changes nothing."""
    lines = csv_out.lines(kit_list.columns(), kit_list.everything(), mark=True)
    return sending.csv(lines, f"kit-{clock.today().isoformat()}.csv")


@allow("owner")
def send_kit(request: HttpRequest) -> HttpResponse:
    form = SendKitForm(request.POST, request.FILES) if request.method == "POST" else SendKitForm()
    if form.is_valid():
        name, by = form.cleaned_data["file"].name, request.member  # type: ignore[attr-defined]
        return redirect("sent_kit", kit_lists.send_in(by=by, file_name=name, content=form.content).pk)
    before = KitList.objects.exclude(brought_in_at=None).defer("content").select_related("by")[:_SHOWN]
    return render(
        request, "studio/send_kit.html", {"form": form, "before": before}, status=422 if form.is_bound else 200
    )


@allow("owner")
def sent_kit(request: HttpRequest, pk: int) -> HttpResponse:
    """What it would do; brought in when that is said."""
    row = get_object_or_404(KitList, pk=pk)
    if row.brought_in_at is not None:
        messages.info(request, str(AlreadyBroughtIn()))
        return redirect("send_kit")
    try:
        if request.method == "POST":
            return _bring_in(request, row)
        return _page(request, row, kit_lists.foretell(row))
    except Unreadable as error:
        return _page(request, row, None, wrong=str(error), status=422)
    except UnicodeError:
        words = _("Its letters cannot be read: save it once more as CSV, in UTF-8.")
        return _page(request, row, None, wrong=words, status=422)


def _bring_in(request: HttpRequest, row: KitList) -> HttpResponse:
    by, leave_out = request.member, "leave_out" in request.POST  # type: ignore[attr-defined]
    try:
        done = kit_lists.bring_in(by=by, row=row, leave_out_faults=leave_out)
    except FaultsLeft as refusal:
        return _page(request, row, refusal.outcome, wrong=str(refusal), status=422)
    except AlreadyBroughtIn as refusal:
        messages.info(request, str(refusal))
        return redirect("send_kit")
    words = {"added": done.added, "changed": done.changed}
    messages.success(request, _("The list is brought in: %(added)d added, %(changed)d changed.") % words)
    return redirect("kit")


def _page(
    request: HttpRequest, row: KitList, outcome: Outcome | None, *, wrong: str = "", status: int = 200
) -> HttpResponse:
    shown = {"row": row, "outcome": outcome, "wrong": wrong}
    return render(request, "studio/sent_kit.html", shown, status=status)
