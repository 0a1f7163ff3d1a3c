"""How the house's machine is, for the owner. Belongs here: the page. Not here: what is on it (`studio.status`)."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from studio import status as found
from studio.access import allow
from studio.backup.nights import sized


@allow("owner")
def status(request: HttpRequest) -> HttpResponse:
    """The last backup first, for the rest can be bought again."""
    last = found.last_backup()
    shown = {
        "last": last, "size": sized(last.row.size) if last.row else "", "facts": found.facts(),
        "backups": found.backups(),
    }  # fmt: skip
    return render(request, "studio/status.html", shown)
