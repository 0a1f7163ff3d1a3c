"""The plan on screen and on paper."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from shotplans import snapshot, workbench
from shotplans.models import Plan
from shotplans.views.sittings import plan_or_404, sitting_or_404
from studio.access import allow, role_of


@allow("photographer", "assistant")
def plan(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """One version of the plan: the drawn set, the lights, what to expect and why."""
    found = plan_or_404(sitting_or_404(number), version)
    context = {
        "plan": found, "sitting": found.sitting, "stale": found.superseded_at is None and snapshot.is_stale(found),
        "current": Plan.objects.of(found.sitting).current().first(), "may_plan": role_of(request) == "photographer",
        "pages": workbench.pages(found, request.profile.ratio_convention),  # type: ignore[attr-defined]
    }  # fmt: skip
    return render(request, "shotplans/plan.html", context)
