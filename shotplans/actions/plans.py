"""From brief to plan: confirming what the picture must be, making a numbered plan of it, and claiming its kit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.actions import claims
from bookings.models import Sitting
from shotplans import snapshot
from shotplans.models import STANDARD_WORDS, Brief, Plan
from shotplans.planner import codec, shotlist, solve
from shotplans.planner.brief import Standard
from shotplans.planner.request import Request
from shotplans.records import again
from studio import clock
from studio.languages import kept_for_all
from studio.models import KitItem, Member
from studio.models.versions import Stale

MOST_NAMED = 5  # gaps said at once


class Refused(ValueError):
    """A plan cannot be made; str() says what is missing, the first gaps by name."""

    def __init__(self, sentence: str, faults: Sequence[str] = ()) -> None:
        super().__init__(" ".join([sentence, *faults[:MOST_NAMED]]))


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


def make_plan(*, by: Member, sitting: Sitting, why: str = "", reason: str | None = None) -> Plan:
    """Plan a sitting from today's rows; the former plan is superseded and the kit claims move to the new one.
    `reason` is why a company's locked value is left, where `why` says something else.

    Raises Refused with every gap when the input cannot be planned, and the bookings' Taken when a piece of kit was
    claimed by somebody else in the meantime: nothing is kept then.
    """
    if not hasattr(sitting, "brief"):
        raise Refused(_("Confirm the brief first."))
    try:
        request = snapshot.request_for(sitting)
    except codec.Unreadable as error:
        raise Refused(_("The plan still misses something."), error.faults) from error
    with kept_for_all():
        document = solve.plan(request)  # outside the transaction: nobody waits for the reckoning
    people = {s.label: str(s.pk) for s in sitting.sitters.all()}
    shotlist.known_by(document["shots"], people)  # so that ticks outlive a new name
    _kept_or_said_why(sitting, request, document, why if reason is None else reason)
    return keep(by=by, sitting=sitting, request=request, document=document, why=why)


def _kept_or_said_why(sitting: Sitting, request: Request, document: dict[str, Any], why: str) -> None:
    """Locked values, the company's and those of the brief's own standard, are kept; where they cannot be, somebody says
    why. Refused else, with each of them."""
    locked = _locked(request.brief.standard)
    if (held := snapshot.company_standard(sitting)) is not None:
        locked |= held.locked_values
    cameras = [body.model_dump(mode="json") for body in request.kit.cameras]
    left = list(again.departures(document, locked, cameras)) if locked and not why.strip() else []
    if left:
        raise Refused(
            _("This plan would leave the company's standard. Say why, and make it again."),
            [
                _("%(setup)s: %(name)s %(got)s, locked at %(wanted)s.")
                % {"setup": one.setup_name, "name": STANDARD_WORDS[one.name], "got": one.got, "wanted": one.wanted}
                for one in left
            ],
        )


def _locked(standard: Standard | None) -> dict[str, Any]:
    return {name: getattr(standard, name) for name in standard.locked} if standard is not None else {}


@transaction.atomic
def keep(
    *, by: Member, sitting: Sitting, request: Any, document: dict[str, Any], why: str, after: Plan | None = None
) -> Plan:
    """Keep a document as the sitting's next version and move the kit claims to it. `after` is the version it was made
    of: Refused where another has taken its place."""
    held = Sitting.objects.select_for_update().get(pk=sitting.pk)
    former = Plan.objects.of(held).order_by("-number").first()
    if after is not None and (former is None or former.pk != after.pk or former.blanked_at):
        raise Refused(_("Another version took this plan's place meanwhile, so nothing was saved. Open that first."))
    Plan.objects.of(held).supersede(clock.now())
    plan = Plan.objects.create(
        sitting=held, number=(former.number + 1) if former else 1, request=snapshot.frozen_input(request),
        document=document, fingerprint=document["fingerprint"], made_at=clock.now(), made_by=by, why=why[:200],
    )  # fmt: skip
    codes = {row["item"] for row in document["packing"]}
    claims.claim_kit(sitting=held, kit=KitItem.objects.filter(code__in=codes).values_list("pk", flat=True))
    return plan
