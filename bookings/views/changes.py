"""Changing a booked sitting. Belongs here: its one page."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from bookings import stages
from bookings.forms import asked
from bookings.forms.changes import PLACE, ChangeForm
from bookings.forms.moments import moved, with_one_more
from bookings.models import Sitting
from bookings.models.sitters import MOST_IN_A_SITTING
from bookings.refusals import TooLate
from studio.access import allow


@allow("front_desk")
def change_sitting(request: HttpRequest, number: str) -> HttpResponse:
    """Time, place, people and purpose of a sitting until it is photographed."""
    row = get_object_or_404(Sitting.objects.with_people(), number=number)
    if row.stage not in stages.CHANGEABLE:
        messages.error(request, str(TooLate(row)))
        return redirect("sitting", number)
    if request.method != "POST":
        return _page(request, ChangeForm(row, to=asked.read(request.GET, PLACE)))
    if "more" in request.POST:
        form = ChangeForm(row, with_one_more(request.POST, MOST_IN_A_SITTING))
        form.leave_unjudged()
        return _page(request, form)
    form = ChangeForm(row, moved(request.POST))
    if form.is_valid() and form.keep_by(request.member):  # type: ignore[attr-defined]
        messages.success(request, _("Changed.") if form.changed else _("Nothing was different: nothing was changed."))
        return redirect("sitting", number)
    return _page(request, form, status=422)


def _page(request: HttpRequest, form: ChangeForm, *, status: int = 200) -> HttpResponse:
    return render(request, "bookings/change_sitting.html", {"form": form, "sitting": form.instance}, status=status)
