"""What a device on set needs of the house. Belongs here: the worker that keeps pages, a fresh token to send an entry
with, and the page of what is not yet sent. Not here: taking entries in (`studio.entries`)."""

from __future__ import annotations

from hashlib import sha256

from django.conf import settings
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.template.loader import get_template
from django.urls import reverse
from django.views.decorators.cache import never_cache

from studio import on_set
from studio.access import EVERY_ROLE, allow


@allow(*EVERY_ROLE)
def unsent(request: HttpRequest) -> HttpResponse:
    """What this device has not sent yet, filled in by its script; also shown in place of a page that is not kept."""
    return on_set.render(request, "on_set/unsent.html", {})


@allow(*EVERY_ROLE)
def worker(request: HttpRequest) -> HttpResponse:
    """The script that answers for the house while the network is off. It names no person: whose pages it keeps, the
    pages say."""
    template = get_template("on_set/worker.js")
    told = {"static": settings.STATIC_URL, "fallback": reverse("on_set"), "header": on_set.HEADER, "version": ""}
    told["version"] = sha256(template.render(told).encode()).hexdigest()[:12]
    answer = HttpResponse(template.render(told), content_type="text/javascript; charset=utf-8")
    answer["Service-Worker-Allowed"] = "/"
    answer["Cache-Control"] = "no-cache"
    return answer


@allow(*EVERY_ROLE)
@never_cache
def token(request: HttpRequest) -> HttpResponse:
    """What one entry is sent with, and whose it would be."""
    return JsonResponse({"token": get_token(request), "member": request.member.pk})  # type: ignore[attr-defined]
