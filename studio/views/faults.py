"""The page of a fault of ours. Belongs here: putting the request's number on it, by which the log is searched."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse, HttpResponseServerError
from django.template.loader import render_to_string

from studio import logs


def fault(request: HttpRequest) -> HttpResponse:
    """Nothing is asked of the database or of the session: they may be what is broken."""
    return HttpResponseServerError(render_to_string("500.html", {"number": logs.number()}))
