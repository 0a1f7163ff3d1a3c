"""Finding while one types. Belongs here: the answers that a page's script puts into it, and the page Find. Asked by
POST, so that no name and no number stands in an address or a log; an address with `?q=` written by hand is answered
too."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from bookings import find, find_anything
from studio import clock
from studio.access import EVERY_ROLE, allow


@allow(*EVERY_ROLE)
def find_page(request: HttpRequest) -> HttpResponse:
    """Anything meant by `q`: the page, or its groups alone for the head bar's script."""
    text = request.POST.get("q", request.GET.get("q", ""))
    groups = find_anything.anything(text, member=request.member, now=clock.now())  # type: ignore[attr-defined]
    shown = {"find_text": text.strip()[: find.LONGEST], "groups": groups, "count": find_anything.count(groups)}
    name = "bookings/_found.html" if request.headers.get("X-Fragment") else "bookings/find.html"
    answer = render(request, name, shown)
    answer["Cache-Control"] = "no-store"
    return answer


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
