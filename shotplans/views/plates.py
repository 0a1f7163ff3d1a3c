"""The head pictures of a plan."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse

from bookings.access import may_read_notes
from shotplans import heads
from shotplans.views.sittings import plan_or_404, sitting_or_404
from studio import on_set, sending
from studio.access import allow


@allow("photographer")
def plate(request: HttpRequest, number: str, version: int, setup: int, way: int) -> HttpResponse:
    """The head under one set-up's lights (way 0) or those of one of its alternatives, in greys."""
    found = plan_or_404(sitting_or_404(number), version)
    may_read = not on_set.is_ahead(request) and may_read_notes(request.member, found.sitting)  # type: ignore[attr-defined]
    body = heads.png(found, setup, way, may_read=may_read)
    if body is None:
        raise Http404
    return sending.png(body, f"{number}-plan-{version}-head-{setup}-{way}.png")
