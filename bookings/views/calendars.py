"""Calendars to subscribe to. Belongs here: the calendar behind a secret address, and the page where a member makes,
copies and revokes their own. The address itself is the key: a calendar program signs in nowhere."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, HttpResponseNotModified
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bookings import feed
from bookings.actions import calendars
from bookings.models import CalendarAddress
from studio import clock
from studio.access import EVERY_ROLE, allow
from studio.models import Profile


@allow.anyone
@require_safe
def calendar_feed(request: HttpRequest, secret: str) -> HttpResponse:
    member = feed.owner_of(secret)
    if member is None:
        return HttpResponse(_("There is no calendar here."), content_type="text/plain; charset=utf-8", status=404)
    profile = Profile.get()
    with timezone.override(profile.zone):
        found = feed.of(member, clock.now(), profile)
    mark = f'"{found.mark}"'
    answer: HttpResponse
    if mark in request.headers.get("If-None-Match", ""):
        answer = HttpResponseNotModified()
    else:
        answer = HttpResponse(found.content, content_type="text/calendar; charset=utf-8")
        answer["Content-Disposition"] = 'inline; filename="sittings.ics"'
    answer["ETag"] = mark
    answer["Cache-Control"] = "private, no-cache"
    answer["Referrer-Policy"] = "no-referrer"
    return answer


@allow(*EVERY_ROLE)
def my_calendar(request: HttpRequest) -> HttpResponse:
    return _page(request)


def _page(request: HttpRequest, secret: str = "") -> HttpResponse:
    kept = CalendarAddress.objects.filter(member=request.member).first()  # type: ignore[attr-defined]
    address = settings.TENTHSTOP_URL + reverse("calendar_feed", kwargs={"secret": secret}) if secret else ""
    answer = render(request, "bookings/my_calendar.html", {"kept": kept, "address": address})
    if secret:
        answer["Cache-Control"] = "no-store"
    return answer


@allow(*EVERY_ROLE)
@require_POST
def make_address(request: HttpRequest) -> HttpResponse:
    """Shown in the answer itself: it is kept nowhere, not even in a message."""
    return _page(request, calendars.make_address(member=request.member))  # type: ignore[attr-defined]


@allow(*EVERY_ROLE)
@require_POST
def revoke_address(request: HttpRequest) -> HttpResponse:
    calendars.revoke_address(member=request.member)  # type: ignore[attr-defined]
    messages.success(request, _("The address is revoked: it shows nothing any more."))
    return redirect("my_calendar")
