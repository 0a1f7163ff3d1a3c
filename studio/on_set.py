"""Pages that are needed on set, where the network drops. Belongs here: marking an answer so that the device of whoever
asked may keep it, and until when; which addresses are the set's. Not here: which pages are kept (each view says so
itself), keeping them (the worker, `templates/on_set/worker.js`)."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from django import shortcuts
from django.conf import settings
from django.http import HttpRequest, HttpResponse

from studio import clock

HEADER = "X-On-Set"  # whose device may keep the page, and for how many seconds
KEPT = timedelta(hours=12)


def is_ahead(request: HttpRequest) -> bool:
    """Whether a device asks for a page in order to keep it, before anybody looks at it: then it is nobody's reading of
    comfort notes, and comes without what follows from them."""
    return "X-Keep" in request.headers


def is_address(path: str) -> bool:
    """Whether what stands at that address is read in the theme of the set: a page of an error must not dazzle there."""
    return not settings.SET_ADDRESSES.isdisjoint(path.split("/"))


def render(
    request: HttpRequest, template: str, context: dict[str, Any], *, until: datetime | None = None, status: int = 200
) -> HttpResponse:
    """A page to be kept on the device. `until`: when a page that shows comfort notes must be gone there, too; once that
    has passed the page shows none any more, and it is kept like the others."""
    request.is_on_set, request.is_ahead = True, is_ahead(request)  # type: ignore[attr-defined]
    answer = shortcuts.render(request, template, context, status=status)
    return keepable(request, answer, until=until)


def keepable(request: HttpRequest, answer: HttpResponse, *, until: datetime | None = None) -> HttpResponse:
    """Mark a whole page that was asked for and shown; never what a form came back with."""
    if request.method == "GET" and answer.status_code == 200:
        left = until - clock.now() if until else KEPT
        seconds = int(min(left if left > timedelta(0) else KEPT, KEPT).total_seconds())
        answer[HEADER] = f"{request.member.pk} {seconds}"  # type: ignore[attr-defined]
    return answer
