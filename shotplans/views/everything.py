"""Everything the studio owns. Belongs here: the owner's page that hands it over."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.views.decorators.http import require_POST

from shotplans import everything
from studio import clock, sending
from studio.access import allow


@allow("owner")
def export(request: HttpRequest) -> HttpResponse:
    """What goes out and what stays, and the button."""
    shown = {"tables": len(list(everything.tables()))}
    return render(request, "shotplans/export.html", shown)


@allow("owner")
@require_POST
def export_file(request: HttpRequest) -> HttpResponseBase:
    return sending.archive(_sent(), f"studio-{clock.today():%Y-%m-%d}.zip")


def _sent() -> Iterator[bytes]:
    """Written to the disk first and sent from there, so that a big house needs no big memory."""
    with tempfile.TemporaryFile() as file:
        for _part in everything.write(file):
            pass
        file.seek(0)
        while part := file.read(1 << 16):
            yield part
