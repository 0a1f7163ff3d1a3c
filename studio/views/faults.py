"""The page of a fault of ours, and of a machine that can keep nothing just now. Belongs here: which of the two, and
putting the request's number on it, by which the log is searched. Not here: telling them apart (`outages`)."""

from __future__ import annotations

import sys

from django.http import HttpRequest, HttpResponse, HttpResponseServerError
from django.template.loader import render_to_string

from studio import logs, on_set, outages


def fault(request: HttpRequest) -> HttpResponse:
    """Nothing is asked of the database or of the session: they may be what is broken. Called while what went wrong is
    being handled, wherever it was: in a view, on the way in or on the way out."""
    outage = outages.outage_of(sys.exc_info()[1])
    words = {
        "number": logs.number(),
        "outage": outage,
        "sent": request.method == "POST",
        "is_set_address": on_set.is_address(request.path),
    }
    if outage is None:
        return HttpResponseServerError(render_to_string("500.html", words))
    answer = HttpResponse(render_to_string("503.html", words), status=503)
    answer["Retry-After"] = str(outages.AGAIN_S)
    answer["Cache-Control"] = "no-store"
    return answer
