"""From brief to plan: confirming what the picture must be, making a numbered plan of it, and claiming its kit."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.actions import claims
from bookings.models import Sitting
from shotplans import snapshot
from shotplans.models import Brief, Plan
from shotplans.planner import codec, solve
from shotplans.records import again
from studio import clock
from studio.models import KitItem, Member
from studio.models.versions import Stale


class Refused(ValueError):
    """A plan cannot be made; str() says what is missing, `faults` each gap."""

    def __init__(self, sentence: str, faults: list[str] | None = None) -> None:
        super().__init__(sentence)
        self.faults = faults or []


@transaction.atomic
def confirm_brief(*, by: Member, sitting: Sitting, data: dict[str, Any], seen: int | None = None) -> Brief:
    """Keep the brief as confirmed. `seen` is the version the form was filled from; Stale when it moved on."""
    held = Sitting.objects.select_for_update().get(pk=sitting.pk)
    former = Brief.objects.filter(sitting=held).first()
    if former is None:
        return Brief.objects.create(sitting=held, data=data, confirmed_at=clock.now(), confirmed_by=by)
    if seen is not None and seen != former.version:
        raise Stale(former)
    former.data, former.confirmed_at, former.confirmed_by = data, clock.now(), by
    former.version += 1
    former.save()
    return former


def make_plan(*, by: Member, sitting: Sitting, why: str = "") -> Plan:
    """Plan a sitting from today's rows; the former plan is superseded and the kit claims move to the new one.

    Raises Refused with every gap when the input cannot be planned, and the bookings' Taken when a piece of kit was
    claimed by somebody else in the meantime: nothing is kept then.
    """
    if not hasattr(sitting, "brief"):
        raise Refused(_("Confirm the brief first."))
    try:
        request = snapshot.request_for(sitting)
    except codec.Unreadable as error:
        raise Refused(_("The plan still misses something."), error.faults) from error
    document = solve.plan(request)  # outside the transaction: nobody waits for the reckoning
    _kept_or_said_why(sitting, document, why)
    return _keep(by=by, sitting=sitting, request=request, document=document, why=why)


def _kept_or_said_why(sitting: Sitting, document: dict[str, Any], why: str) -> None:
    """A company's locked values are kept; where they cannot be, somebody says why. Refused else, with each of them."""
    held = snapshot.company_standard(sitting)
    left = list(again.departures(document, held.locked_values)) if held and not why.strip() else []
    if left:
        raise Refused(
            _("This plan would leave the company's standard. Say why, and make it again."),
            [
                _("%(setup)s: %(name)s %(got)s, locked at %(wanted)s.")
                % {"setup": one.setup_name, "name": one.name, "got": one.got, "wanted": one.wanted}
                for one in left
            ],
        )


@transaction.atomic
def _keep(*, by: Member, sitting: Sitting, request: Any, document: dict[str, Any], why: str) -> Plan:
    held = Sitting.objects.select_for_update().get(pk=sitting.pk)
    former = Plan.objects.of(held).order_by("-number").first()
    Plan.objects.of(held).supersede(clock.now())
    plan = Plan.objects.create(
        sitting=held, number=(former.number + 1) if former else 1, request=snapshot.frozen_input(request),
        document=document, fingerprint=document["fingerprint"], made_at=clock.now(), made_by=by, why=why[:200],
    )  # fmt: skip
    codes = {row["item"] for row in document["packing"]}
    claims.claim_kit(sitting=held, kit=KitItem.objects.filter(code__in=codes).values_list("pk", flat=True))
    return plan
