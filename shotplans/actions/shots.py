"""The shot list and the pose cards: keeping what the photographer set, ticking what is taken."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.models import Sitting
from bookings.refusals import Refusal
from shotplans.models import OwnPoseCard, Plan, PoseCardEdit, SetTap, ShotList
from studio import clock
from studio.models import Member
from studio.models.versions import Stale


class NotTaken(Refusal):
    """A tick that is of no picture of the plan; nothing was written."""


@transaction.atomic
def keep_list(
    *, by: Member, sitting: Sitting, rows: list[dict[str, Any]], in_order: bool, seen: int
) -> ShotList:
    """Keep a sitting's list; no rows: back to the suggested one. Stale when it moved on since version `seen`."""
    held = Sitting.objects.select_for_update().get(pk=sitting.pk)
    former = ShotList.objects.filter(sitting=held).first()
    if (former.version if former else 0) != seen:
        raise Stale(former)
    if former is None:
        former = ShotList(sitting=held, version=0)
    former.rows, former.in_order = rows, in_order
    former.changed_at, former.changed_by = clock.now(), by
    former.version += 1
    former.save()
    return former


@transaction.atomic
def tick(*, by: Member, plan: Plan, key: str, done: bool = True) -> SetTap:
    """A picture is taken, or not after all; the newest tap counts."""
    shot = next((s for s in plan.document["shots"] if s.get("key") == key), None)
    if shot is None:
        raise NotTaken(_("The list has no such picture. Load the page again."))
    return SetTap.objects.create(
        plan=plan, setup_name=shot["setup"], on=SetTap.On.SHOTS, code=key, done=done, at=clock.now(), by=by
    )


def note_card(*, by: Member, card: OwnPoseCard, before: dict[str, Any]) -> PoseCardEdit:
    """What a card says now and said before; called in the transaction that kept it."""
    after = card.lines | {"in_use": card.in_use}
    return PoseCardEdit.objects.create(kind=card.kind, before=before, after=after, at=clock.now(), by=by)
