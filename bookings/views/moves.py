"""Moving a sitting in the diary. Belongs here: showing what a move takes, as a piece of the diary's page or as a page
of its own, and doing it once it is agreed."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings import wording
from bookings.actions import moves
from bookings.forms.moments import moved
from bookings.forms.moves import MoveForm
from bookings.models import Sitting
from bookings.models.sittings import FIRM
from bookings.refusals import Refusal
from studio.access import allow
from studio.models.versions import Stale


@allow("front_desk")
@require_POST
def move_sitting(request: HttpRequest) -> HttpResponse:
    """A preview, and with `save` the move itself."""
    row = get_object_or_404(Sitting.objects.with_people(), number=slugify(request.POST.get("number", ""))[:20].upper())
    form, wrong = MoveForm(row, moved(request.POST)), ""
    if form.is_valid() and "save" in request.POST:
        agreed = {name: form.cleaned_data[name] for name in ("seen", "note", "agreed_fee", "acknowledged")}
        try:
            changed = moves.move(by=request.member, sitting=row, to=form.place, **agreed)  # type: ignore[attr-defined]
        except (Refusal, Stale) as refused:
            wrong = str(refused)
        else:
            messages.success(request, _moved(row, form) if changed else _("It stays where it was."))
            return redirect(_back(request, form.cleaned_data["day"].isoformat()))
    return _page(request, row, form, wrong)


def _page(request: HttpRequest, row: Sitting, form: MoveForm, wrong: str) -> HttpResponse:
    shown: dict[str, Any] = {"sitting": row, "form": form, "wrong": wrong, "back": _back(request)}
    preview = None
    if form.is_valid():
        by, seen = request.member, form.cleaned_data["seen"]  # type: ignore[attr-defined]
        preview = moves.preview(by=by, sitting=row, seen=seen, to=form.place)
        ticked = form.cleaned_data["acknowledged"]
        shown |= {"preview": preview, "is_firm": row.stage in FIRM, "ticked": ticked}
    template = "bookings/_move.html" if request.headers.get("X-Fragment") else "bookings/move.html"
    is_refused = wrong or preview is None or preview.refusal
    return render(request, template, shown, status=422 if is_refused else 200)


def _moved(row: Sitting, form: MoveForm) -> str:
    moment = wording.moment_in_full(form.cleaned_data["starts_at"], timezone.get_current_timezone())
    return _("%(number)s is moved to %(moment)s.") % {"number": row.number, "moment": moment}


def _back(request: HttpRequest, day: str = "") -> str:
    """The page of the diary it was moved on, at another day where one is given."""
    path, _mark, asked = request.POST.get("back", "")[:400].partition("?")
    week = reverse("week")
    query = QueryDict(asked, mutable=True)
    found = QueryDict(mutable=True)
    found.update({name: query[name] for name in ("day", "by", "only") if query.get(name)})
    if day:
        found["day"] = day
    return (week if path == week else reverse("diary")) + (f"?{found.urlencode()}" if found else "")
