"""What a sitting's page shows of the light: how far the plan is, and links for those who may open it."""

from __future__ import annotations

from django.http import HttpRequest
from django.template.loader import render_to_string

from bookings.models import Sitting
from shotplans import again, clashes
from shotplans.models import Plan


def plan_panel(request: HttpRequest, sitting: Sitting) -> str:
    """Whether there is a brief and a plan; no numbers and no reasons, since the desk reads this too."""
    member = request.member  # type: ignore[attr-defined]
    may_plan = member.has_role("photographer")
    plan = Plan.objects.of(sitting).current().select_related("sitting__room").first()
    context = {
        "sitting": sitting, "plan": plan, "clashes": clashes.of_plan(plan) if plan else [],
        "has_brief": hasattr(sitting, "brief"),
        "may_plan": may_plan, "last": again.last_plan(sitting) if may_plan else None,
        "may_open": member.has_role("photographer", "assistant"),
    }  # fmt: skip
    return render_to_string("shotplans/_plan_panel.html", context, request)
