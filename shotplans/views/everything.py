"""Everything the studio owns. Belongs here: the owner's page that hands it over."""

from __future__ import annotations

import tempfile

from django.http import FileResponse, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_POST

from shotplans import everything
from studio import clock
from studio.access import allow


@allow("owner")
def export(request: HttpRequest) -> HttpResponse:
    """What goes out and what stays, and the button."""
    shown = {"tables": len(list(everything.tables()))}
    return render(request, "shotplans/export.html", shown)


@allow("owner")
@require_POST
def export_file(request: HttpRequest) -> HttpResponseBase:
    """Written to the disk first and sent from there, so that a big house needs no big memory."""
    file = tempfile.TemporaryFile()  # noqa: SIM115 (the answer closes it)
    for _part in everything.write(file):
        pass
    file.seek(0)
    answer = FileResponse(file, as_attachment=True, filename=f"studio-{clock.today():%Y-%m-%d}.zip")
    answer["Cache-Control"] = "private, no-store"
    return answer
