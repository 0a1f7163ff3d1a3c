"""Pages around a sitting: the hazard walk, the strike list, power and place."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode
from django.views.decorators.http import require_POST

from bookings.refusals import Refusal
from shotplans import paper, set_page, set_papers
from shotplans.actions import set_taps
from shotplans.models import Plan
from shotplans.sheets import location_sheet, strike_sheet
from shotplans.views.sittings import measures_of, plan_or_404, sitting_or_404
from studio import clock, entries, on_set, sending
from studio.access import allow, on_screen


def _plan(number: str, version: int) -> Plan:
    return plan_or_404(sitting_or_404(number), version)


def _page(request: HttpRequest, template: str, plan: Plan, **more: Any) -> HttpResponse:
    return on_set.render(request, f"shotplans/{template}.html", {"plan": plan, "sitting": plan.sitting, **more})


@allow("assistant", "photographer")
def walk(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """The hazard walk of every set-up; the sitters come in after it."""
    plan = _plan(number, version)
    return _page(request, "walk", plan, walks=set_page.walks(plan, measures_of(request)))


@allow("assistant", "photographer")
@require_POST
@entries.once
def tap_walk(request: HttpRequest, number: str, version: int) -> HttpResponse:
    plan, setup = _plan(number, version), request.POST.get("setup", "")
    code, done = request.POST.get("code", ""), request.POST.get("done") != "no"
    try:
        set_taps.tap_walk(by=request.member, plan=plan, setup_name=setup, code=code, done=done)  # type: ignore[attr-defined]
    except Refusal as refusal:
        messages.error(request, str(refusal))
    at = next((n for n, s in enumerate(plan.setups, 1) if s["name"] == setup), 1)
    return redirect(f"{reverse('walk', args=(number, version))}#walk-{at}")


@allow("assistant", "photographer")
def strike(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """What comes down, last built first, what stays up for the next sitting, and the last sweep."""
    plan = _plan(number, version)
    day, packing_at = timezone.localdate(plan.sitting.starts_at), reverse("packing")
    if day != clock.today():  # today's is kept on a device by its short address
        packing_at += f"?{urlencode({'day': day.isoformat()})}"
    strike = set_page.struck(plan, measures_of(request))
    return _page(request, "strike", plan, strike=strike, packing_at=packing_at)


@allow("assistant", "photographer")
@require_POST
@entries.once
def tap_strike(request: HttpRequest, number: str, version: int) -> HttpResponse:
    code, done = request.POST.get("code", ""), request.POST.get("done") != "no"
    try:
        set_taps.tap_strike(by=request.member, plan=_plan(number, version), code=code, done=done)  # type: ignore[attr-defined]
    except Refusal as refusal:
        messages.error(request, str(refusal))
    return redirect("strike", number=number, version=version)


@allow("assistant", "photographer")
def strike_pdf(request: HttpRequest, number: str, version: int) -> HttpResponse:
    plan = _plan(number, version)
    content = set_papers.strike(plan, request.profile)  # type: ignore[attr-defined]
    if content is None:
        raise Http404
    body = strike_sheet.render(content, paper.size_of(request.profile))  # type: ignore[attr-defined]
    return sending.pdf(body, f"{number}-plan-{version}-strike.pdf")


@allow("assistant", "photographer")
def location(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """Power, space, way in and emergency of the room a plan is for."""
    plan = _plan(number, version)
    return _page(request, "location", plan, sheet=set_papers.location(plan, on_screen(request)))


@allow("assistant", "photographer")
def location_pdf(request: HttpRequest, number: str, version: int) -> HttpResponse:
    plan = _plan(number, version)
    content = set_papers.location(plan, request.profile)  # type: ignore[attr-defined]
    body = location_sheet.render(content, paper.size_of(request.profile))  # type: ignore[attr-defined]
    return sending.pdf(body, f"{number}-plan-{version}-place.pdf")
