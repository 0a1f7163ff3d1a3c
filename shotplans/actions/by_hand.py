"""A set moved by hand, kept as a new version of its plan."""

from __future__ import annotations

from collections.abc import Sequence

from django.utils.translation import gettext as _

from shotplans.actions import plans
from shotplans.models import Plan
from shotplans.planner import hand_plan, words
from shotplans.planner.moves import Change
from shotplans.planner.moves import Refused as CannotStand
from shotplans.planner.request import Request
from studio.languages import kept_for_all
from studio.models import Member


class NoReason(plans.Refused):
    """Nobody said why."""


def keep(*, by: Member, plan: Plan, setup: str, changes: Sequence[Change], why: str) -> Plan:
    """A new version with one set-up as a hand left it, reckoned from the same input; the former is superseded.

    Raises plans.Refused without a reason, where nothing stands otherwise, where a change cannot be set, and where
    another version has taken the plan's place meanwhile; and the bookings' Taken as `plans.make_plan` does.
    """
    if not why.strip():
        raise NoReason(_("Say why it stands otherwise than suggested; then it is saved."))
    request = Request.model_validate(plan.request)
    try:
        with kept_for_all():
            document = hand_plan.plan(request, plan.document, setup, changes, why.strip())
    except CannotStand as refused:
        raise plans.Refused(words.refusal(refused.code, refused.values)) from None
    return plans.keep(by=by, sitting=plan.sitting, request=request, document=document, why=why.strip(), after=plan)
