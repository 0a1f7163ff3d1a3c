"""The studio's terms. Belongs here: their list, one of them with all its wordings, new ones."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from bookings.forms.terms import TermsForm
from bookings.models import Terms
from bookings.prices import HOLD_HOURS
from studio import clock
from studio.access import allow, profile_of


@allow("owner")
def all_terms(request: HttpRequest) -> HttpResponse:
    today = clock.today()
    rows = [(row, row.on(today)) for row in Terms.objects.with_wordings().prefetch_related("kinds")]
    said = {"rows": rows, "currency": profile_of(request).currency, "hold_hours": HOLD_HOURS}
    return render(request, "bookings/all_terms.html", said)


@allow("owner")
def one_terms(request: HttpRequest, pk: int) -> HttpResponse:
    return _page(request, get_object_or_404(Terms.objects.with_wordings(), pk=pk))


@allow("owner")
def new_terms(request: HttpRequest) -> HttpResponse:
    return _page(request, Terms())


def _page(request: HttpRequest, row: Terms) -> HttpResponse:
    form = TermsForm(request.POST or None, instance=row)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(name)s is saved.") % {"name": row.name})
        return redirect("all_terms")
    wordings = [] if row.pk is None else [wording.as_agreed(row.name) for wording in row.wordings.all()]
    said = {"form": form, "terms": row, "wordings": wordings, "currency": profile_of(request).currency}
    return render(request, "bookings/terms.html", said, status=422 if form.is_bound else 200)
