"""Complaints and re-shoots. Belongs here: the list, one card, its end, which sitting is a re-shoot, and the causes
counted."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import causes as reads
from bookings.actions import complaints as actions
from bookings.forms.complaints import CloseForm, ComplaintForm, OpenAgainForm, ReshootForm
from bookings.models import Cause, Client, Complaint, Sitting
from bookings.models.complaints import KEEPERS
from bookings.refusals import Refusal
from bookings.views import sitting_page
from studio import clock
from studio.access import allow
from studio.days import read_day

CLOSED_SHOWN = 50


@allow(*KEEPERS)
def complaints(request: HttpRequest) -> HttpResponse:
    """What is open, the first due first; then what was closed last."""
    shown = {
        "open": Complaint.objects.still_open().with_names().by_due_day(),
        "closed": Complaint.objects.filter(closed_at__isnull=False).with_names().order_by("-closed_at")[:CLOSED_SHOWN],
        "today": clock.today(),
    }
    return render(request, "bookings/complaints.html", shown)


@allow(*KEEPERS)
def new_complaint(request: HttpRequest, pk: int) -> HttpResponse:
    client = get_object_or_404(Client, pk=pk)
    number = request.GET.get("sitting", "").replace("\0", "")
    sitting = Sitting.objects.filter(client=client, number=number).first() if number else None
    form = ComplaintForm(
        request.POST or None,
        by=request.member,  # type: ignore[attr-defined]
        instance=Complaint(client=client),
        initial={"sitting": sitting.pk} if sitting else None,
    )
    return _card(request, form)


@allow(*KEEPERS)
def complaint(request: HttpRequest, pk: int) -> HttpResponse:
    row = _found(pk)
    if row.is_open or request.method == "POST":  # closed meanwhile: what was typed is shown again, and refused
        return _card(request, ComplaintForm(request.POST or None, by=request.member, instance=row))  # type: ignore[attr-defined]
    return _page(request, row, form=None)


@allow(*KEEPERS)
@require_POST
def close_complaint(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _found(pk), CloseForm(request.POST)
    if form.is_valid():
        try:
            actions.close(by=request.member, complaint=row, **form.cleaned_data)  # type: ignore[attr-defined]
        except Refusal as refusal:
            form.add_error("remedy", str(refusal))
        else:
            messages.success(request, _("The complaint is closed."))
            return redirect("complaint", pk)
    return _page(request, _found(pk), closing=form, status=422)


@allow(*KEEPERS)
@require_POST
def open_complaint_again(request: HttpRequest, pk: int) -> HttpResponse:
    row, form = _found(pk), OpenAgainForm(request.POST)
    if form.is_valid():
        values = form.cleaned_data
        try:
            actions.open_again(by=request.member, complaint=row, note=values["again_note"], seen=values["seen"])  # type: ignore[attr-defined]
        except Refusal as refusal:
            form.add_error("again_note", str(refusal))
        else:
            messages.success(request, _("The complaint is open again."))
            return redirect("complaint", pk)
    return _page(request, _found(pk), again=form, status=422)


@allow(*KEEPERS)
def reshoot(request: HttpRequest, number: str) -> HttpResponse:
    """Which earlier sitting this one takes again, and for what cause."""
    row = sitting_page.found(number)
    form = ReshootForm(row, request.POST or None)
    if request.method == "POST" and form.is_valid():
        values = form.cleaned_data
        try:
            kept = actions.link_reshoot(
                by=request.member,  # type: ignore[attr-defined]
                sitting=row,
                first=values["first"],
                cause=values["cause"],
                note=values["reshoot_note"],
            )
        except Refusal as refusal:
            form.add_error("first", str(refusal))
        else:
            said = _("Saved: a re-shoot of %(first)s.") % {"first": kept.first.number} if kept else _("No re-shoot.")
            messages.success(request, said)
            return redirect("sitting", number)
    shown = {"sitting": row, "form": form}
    return render(request, "bookings/reshoot.html", shown, status=422 if form.errors else 200)


@allow("owner")
def causes(request: HttpRequest) -> HttpResponse:
    today = clock.today()
    titles = {
        reads.RESHOOTS: _("Re-shoots, by the month of the first sitting"),
        reads.COMPLAINTS: _("Complaints, by the month they were made"),
    }
    counted = {of: reads.by_month(of, today) for of in titles}
    tables = [(of, titles[of], months, sum(month.sum for month in months)) for of, months in counted.items()]
    return render(request, "bookings/causes.html", {"tables": tables, "causes": Cause.labels})


@allow("owner")
def cause(request: HttpRequest, of: str, month: str, code: str) -> HttpResponse:
    """The rows behind one number."""
    first = read_day(f"{month}-01")
    if first is None or of not in (reads.RESHOOTS, reads.COMPLAINTS) or code not in Cause.values:
        raise Http404
    shown = {"of": of, "rows": reads.behind(of, first, code), "month": first, "cause": Cause(code).label}
    return render(request, "bookings/cause.html", shown | {"today": clock.today()})


def _found(pk: int) -> Complaint:
    return get_object_or_404(Complaint.objects.with_names(), pk=pk)


def _card(request: HttpRequest, form: ComplaintForm) -> HttpResponse:
    row, is_new = form.instance, form.instance._state.adding
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("The complaint is open.") if is_new else _("The card is saved."))
        return redirect("complaint", row.pk)
    return _page(request, row, form=form, status=422 if form.errors else 200)


def _page(request: HttpRequest, row: Complaint, *, status: int = 200, **forms: Any) -> HttpResponse:
    """The card with its history; `forms` as they were sent."""
    is_new = row._state.adding
    shown: dict[str, Any] = {"complaint": row, "is_new": is_new, "today": clock.today()}
    if not is_new:
        shown["history"] = row.changes.select_related("by")
        seen = {"seen": row.version}
        shown["closing"] = CloseForm(initial=seen | {"remedy": row.remedy}) if row.is_open else None
        shown["again"] = None if row.is_open else OpenAgainForm(initial=seen)
        if row.is_open and "form" not in forms:
            shown["form"] = ComplaintForm(by=request.member, instance=row)  # type: ignore[attr-defined]
    return render(request, "bookings/complaint.html", shown | forms, status=status)
