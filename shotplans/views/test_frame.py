"""The test frame of a set-up: its file beside the plan, its picture in numbers, the fourteen checks."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.refusals import Refusal
from shotplans import darkroom, round_page
from shotplans.actions import frames
from shotplans.models import Record
from shotplans.records.frame_checks import BY_CODE
from shotplans.views.frames import place, take_all
from shotplans.views.sittings import setup_or_404
from studio import entries, on_set
from studio.access import allow


@allow("photographer", "assistant")
def test_frame(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """The newest test frame; a touch on its picture says what the grey card or the lit skin there measures."""
    plan, entry = setup_or_404(number, version, setup)
    found = darkroom.tested(plan, entry["name"])
    kelvin = (entry.get("camera") or {}).get("white_balance_k")
    what = next((name for name in ("grey", "skin") if f"{name}.x" in request.GET), "")
    at = place(request, what, found.picture) if what else None
    said = darkroom.touched(found.picture, what, *at, kelvin) if at and found.picture else []
    held = Record.objects.filter(plan=plan).first()
    context = {
        "round": round_page.round_of(plan, held, setup), "next": round_page.round_after(plan, held, setup),
        "plan": plan, "sitting": plan.sitting, "setup": entry, "n": setup, "tested": found, "said": said,
        "touch": (request.GET.get("touch") == "skin" and "skin") or "grey", "what": what,
        "histogram": darkroom.histogram(found.frame.look) if found.frame and found.frame.look else None,
        "mark": {"x": 36 * at[0], "y": 24 * at[1]} if at else None,
    }  # fmt: skip
    return on_set.render(request, "shotplans/test_frame.html", context)


@allow("photographer", "assistant")
@require_POST
@entries.once
def send(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """Bring in the test frame's file, whole or its two ends."""
    plan, entry = setup_or_404(number, version, setup)
    outcomes = take_all(request, plan.sitting, test_of=entry["name"])
    page = reverse("test_frame", args=(number, version, setup))
    for one in outcomes:
        if one.says:  # of a frame that is kept only what was not read of it
            messages.add_message(request, messages.WARNING if one.frame else messages.ERROR, f"{one.name}: {one.says}")
    if not outcomes:
        messages.error(request, _("No file was chosen."))
    if request.headers.get("Accept") == "application/json":
        return JsonResponse({"lines": [], "page": page})
    return redirect(page)


@allow("photographer", "assistant")
@require_POST
@entries.once
def answer(request: HttpRequest, number: str, version: int, setup: int) -> HttpResponse:
    """One check in one tap, or all that are still open at once."""
    plan, entry = setup_or_404(number, version, setup)
    codes = request.POST.getlist("code")
    if "all" in request.POST:
        codes = [c.check.code for c in darkroom.tested(plan, entry["name"]).open]
    try:
        passed = "all" in request.POST or request.POST.get("passed") == "yes"
        frames.answer_checks(by=request.member, plan=plan, setup_name=entry["name"], codes=codes, passed=passed)  # type: ignore[attr-defined]
    except Refusal as error:
        messages.error(request, str(error))
    known = codes[0] if len(codes) == 1 and codes[0] in BY_CODE else "checks"
    return redirect(reverse("test_frame", args=(number, version, setup)) + f"#{known}")
