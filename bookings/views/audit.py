"""Who changed what, and when. Belongs here: the owner's table of it, page by page, and the same as a file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.module_loading import import_string

from bookings import audit, audit_rows
from bookings.forms.audit import EARLIEST, LATEST, AuditForm
from studio import csv_out, sending
from studio.access import allow, profile_of

MOST_PAGES = 10_000


@allow("owner")
def trail(request: HttpRequest) -> HttpResponse:
    form = AuditForm(request.GET)
    if not form.is_valid():
        return render(request, "bookings/audit.html", {"form": form}, status=422)
    number = _page(request.GET.get("page", ""))
    rows, more = audit.page_of(_rows(request, form), number)
    first, last = form.days
    shown = {
        "form": form, "rows": rows, "page": number, "first": first, "last": last,
        "all_days": (first, last) == (EARLIEST, LATEST),
        "newer": _asked(request, page=number - 1) if number > 1 else "",
        "older": _asked(request, page=number + 1) if more else "",
        "asked": _asked(request),
    }  # fmt: skip
    return render(request, "bookings/audit.html", shown)


@allow("owner")
def trail_file(request: HttpRequest) -> Any:
    """All of it, line by line; what makes no sense comes back beside its field."""
    form = AuditForm(request.GET)
    if not form.is_valid():
        return render(request, "bookings/audit.html", {"form": form}, status=422)
    rows = audit.cells(_rows(request, form), profile_of(request).zone)
    first, last = form.days
    name = form.cleaned_data["sitting"].number if form.cleaned_data["sitting"] else f"{first}-to-{last}"
    return sending.csv(csv_out.lines(audit.HEAD, rows), f"changes-{name}.csv")


def _rows(request: HttpRequest, form: AuditForm) -> Iterator[audit.Row]:
    sources = [*audit_rows.SOURCES, *map(import_string, settings.AUDIT_SOURCES)]
    return audit.merged(sources, **form.question(profile_of(request)))


def _page(text: str) -> int:
    """The page asked for; junk counts as the first."""
    return min(max(int(text), 1), MOST_PAGES) if text.isascii() and text.isdigit() and len(text) < 6 else 1


def _asked(request: HttpRequest, **other: int) -> str:
    """The same question again, at another page."""
    query = request.GET.copy()
    query.pop("page", None)
    query.update(other)
    return query.urlencode()
