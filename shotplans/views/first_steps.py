"""The first steps of a new studio and its sample. Belongs here: the panel on the owner's first page, and the sample's
two buttons."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bookings.refusals import Refusal
from shotplans import first_steps
from shotplans.actions import plans, sample
from shotplans.models import Plan, Sample
from studio.access import allow


def panel(request: HttpRequest) -> str:
    """Before everything else while the house is being set up; where it is, only what is left of the sample."""
    member = request.member  # type: ignore[attr-defined]
    path, made = first_steps.today(), Sample.get()
    if path.done and made is None:
        return ""
    plan = Plan.objects.of(made.sitting).current().first() if made else None
    shown = {
        "path": path, "sample": made, "sample_plan": plan, "me": member,
        "may_book": member.has_role("front_desk"), "may_plan": member.has_role("photographer"),
        "may_open": member.has_role("photographer", "assistant"),
    }  # fmt: skip
    return render_to_string("shotplans/_first_steps.html", shown, request)


@allow("owner")
@require_POST
def make_sample(request: HttpRequest) -> HttpResponse:
    member = request.member  # type: ignore[attr-defined]
    try:
        plan = sample.make(by=member)
    except Refusal as refusal:
        messages.error(request, str(refusal))
        return redirect("studio")
    except plans.Refused as refusal:
        messages.error(request, " ".join([str(refusal), *refusal.faults[:5]]))
        return redirect("studio")
    messages.success(request, _("The sample is made and planned. Its sheet is ready to print."))
    if member.has_role("photographer", "assistant"):
        return redirect("plan", number=plan.sitting.number, version=plan.number)
    return redirect("studio")


@allow("owner")
@require_POST
def take_sample_away(request: HttpRequest) -> HttpResponse:
    try:
        sample.take_away()
    except Refusal as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, _("The sample is gone, with all that was entered on it."))
    return redirect("studio")
