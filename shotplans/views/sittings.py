"""What every page of a sitting's light asks first: what its address names, and how lengths are written for who asks."""

from __future__ import annotations

from typing import Any

from django.http import Http404, HttpRequest
from django.shortcuts import get_object_or_404

from bookings import permissions
from bookings.models import Sitting
from shotplans.models import Plan
from shotplans.sheets import measures
from shotplans.sheets.measures import Measures
from studio.access import on_screen


def sitting_or_404(number: str, *, people: bool = False) -> Sitting:
    """The sitting of a number, with all that its pages show; with `people`, what is noted of them and allowed."""
    rows = Sitting.objects.select_related("client", "kind", "room", "photographer", "assistant")
    if people:
        rows = rows.prefetch_related(permissions.people())
    return get_object_or_404(rows.prefetch_related("sitters__wishes"), number=number)


def plan_or_404(sitting: Sitting, version: int | None = None) -> Plan:
    """One version of a sitting's plan, the current one unless a version is named."""
    plans = Plan.objects.of(sitting)
    found = plans.current().first() if version is None else plans.filter(number=version).first()
    if found is None:
        raise Http404
    found.sitting = sitting
    return found


def setup_or_404(number: str, version: int, setup: int) -> tuple[Plan, dict[str, Any]]:
    """A set-up by its number in a version of the plan, as the plan has it; one without usable light is not there: there
    is nothing to shoot."""
    plan = plan_or_404(sitting_or_404(number), version)
    if not 1 <= setup <= len(plan.setups) or plan.setups[setup - 1]["camera"] is None:
        raise Http404
    return plan, plan.setups[setup - 1]


def measures_of(request: HttpRequest) -> Measures:
    """How lengths are written for whoever asks."""
    return measures.of(on_screen(request).units)
