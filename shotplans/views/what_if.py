"""What if one value of a plan were another: asked by a form, answered with the numbers beside the old ones.

Nothing is kept. A script gets the answer alone, a plain form the page with it.
"""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from shotplans.forms.what_if import WhatIfForm
from shotplans.models import Plan
from shotplans.planner import words
from shotplans.planner.request import Request
from shotplans.planner.whatif import Answer, Refused, what_if
from shotplans.views.sittings import plan_or_404, sitting_or_404
from studio.access import allow, on_screen


@allow("photographer")
@require_POST
def ask(request: HttpRequest, number: str, version: int) -> HttpResponse:
    """The numbers that follow from one change of a plan, and the limits that then break."""
    plan = plan_or_404(sitting_or_404(number), version)
    form = WhatIfForm(request.POST, document=plan.document, units=on_screen(request).units)
    found = _answer(plan, form) if form.is_valid() else None
    context = {
        "plan": plan, "sitting": plan.sitting, "what_if": form, "answer": found, "already": _already(plan, found),
    }  # fmt: skip
    if request.headers.get("X-Fragment") == "answer":
        return render(request, "shotplans/_what_if.html", context)
    return render(request, "shotplans/what_if.html", context, status=200 if found else 422)


def _answer(plan: Plan, form: WhatIfForm) -> Answer | None:
    setup, change = form.asked
    try:
        return what_if(Request.model_validate(plan.request), plan.document, setup, change)
    except Refused as refused:
        form.add_error("value", form.in_units(words.refusal(refused.code, refused.values)))
        return None


def _already(plan: Plan, found: Answer | None) -> list[str]:
    """Limits that the plan itself breaks in this set-up, as it says them."""
    if found is None:
        return []
    return [p["says"] for p in plan.document["problems"] if p["setup"] == found.setup["name"]]
