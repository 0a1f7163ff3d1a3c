"""Last time's light planned anew for today."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from bookings.models import Sitting
from shotplans import again
from shotplans.actions import plans
from shotplans.models import Brief, Plan
from studio.models import Member


def plan_again(*, by: Member, sitting: Sitting, reason: str = "") -> Plan:
    """Confirm last time's brief for this sitting, with each set-up's light as shot for its look, and plan it with
    today's room and kit. `reason` is why a company's locked value is left. Refused without a last time, and as
    `plans.make_plan` is: then the brief is what it was."""
    wanted = again.wanted(sitting)
    if wanted is None:
        raise plans.Refused(_("There is no plan of this client from before."))
    before = Brief.objects.filter(sitting=sitting).values().first()
    brief = _confirm(by, sitting, wanted)
    said = _("as on %(day)s, %(number)s") % {
        "day": date_format(wanted.last.sitting.starts_at, "j F Y"), "number": wanted.last.sitting.number,
    }  # fmt: skip
    why = f"{said}: {reason.strip()}" if reason.strip() else said
    try:
        return plans.make_plan(by=by, sitting=Sitting.objects.get(pk=sitting.pk), why=why, reason=reason)
    except Exception:
        _put_back(brief, before)
        raise


@transaction.atomic
def _confirm(by: Member, sitting: Sitting, wanted: again.Wanted) -> Brief:
    """The brief with whose light it is, or neither."""
    brief = plans.confirm_brief(by=by, sitting=sitting, data=wanted.brief)
    Brief.objects.filter(pk=brief.pk).update(again_of=wanted.last)
    return brief


def _put_back(brief: Brief, before: dict[str, Any] | None) -> None:
    """As it was, unless somebody confirmed another meanwhile. The reckoning lies outside any transaction, so that
    nobody waits for it: what was confirmed for it is taken back by hand."""
    ours = Brief.objects.filter(pk=brief.pk, version=brief.version)
    if before is None:
        ours.delete()
    else:
        ours.update(**before)
