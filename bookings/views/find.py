"""Finding while one types. Belongs here: the answers that a page's script puts into it. Asked by POST, so that no name
and no number stands in an address or a log."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from bookings import find
from studio.access import allow


@allow("front_desk")
@require_POST
def find_client(request: HttpRequest) -> HttpResponse:
    """Who is meant by `text`, as the options of a list."""
    text = request.POST.get("text", "")
    return render(request, "bookings/_found_clients.html", {"answer": find.clients(text), "text": text})


@allow("front_desk")
@require_POST
def client_choices(request: HttpRequest) -> HttpResponse:
    """The one chosen, or those who may be the same as somebody about to be named, to choose from."""
    chosen = request.POST.get("client", "")
    if chosen:
        known = find.chosen(chosen)
    else:
        known = find.alike(**{name: request.POST.get(f"new_{name}", "") for name in ("name", "email", "phone")})
    return render(request, "bookings/_client_choices.html", {"known": known, "chosen": chosen})
