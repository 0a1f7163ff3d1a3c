"""Last time's light planned anew for today."""

from __future__ import annotations

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
    `plans.make_plan` is."""
    wanted = again.wanted(sitting)
    if wanted is None:
        raise plans.Refused(_("There is no plan of this client from before."))
    brief = plans.confirm_brief(by=by, sitting=sitting, data=wanted.brief)
    Brief.objects.filter(pk=brief.pk).update(again_of=wanted.last)
    said = _("as on %(day)s, %(number)s") % {
        "day": date_format(wanted.last.sitting.starts_at, "j F Y"), "number": wanted.last.sitting.number,
    }  # fmt: skip
    why = f"{said}: {reason.strip()}" if reason.strip() else said
    return plans.make_plan(by=by, sitting=Sitting.objects.get(pk=sitting.pk), why=why, reason=reason)
