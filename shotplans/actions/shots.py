"""The shot list and the pose cards: keeping what the photographer set, ticking what is taken."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.models import Sitting
from bookings.refusals import Refusal
from shotplans import shot_page
from shotplans.models import OwnPoseCard, Plan, PoseCardEdit, SetTap, ShotList, ShotListEdit
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
    _note_list(by=by, former=former, rows=rows, in_order=in_order)
    former.rows, former.in_order = rows, in_order
    former.changed_at, former.changed_by = clock.now(), by
    former.version += 1
    former.save()
    return former


def _note_list(*, by: Member, former: ShotList, rows: list[dict[str, Any]], in_order: bool) -> None:
    """What of the list changes, from or to the suggested one where there are no rows; kept as it was, nothing does."""
    if rows == former.rows and in_order == former.in_order:
        return
    suggested = shot_page.suggested(former.sitting)
    before, after = former.rows or suggested, rows or suggested
    were, are = ([_known_by(row) for row in own] for own in (before, after))
    stayed = [one for one in were if one in are], [one for one in are if one in were]
    ShotListEdit.objects.create(
        sitting=former.sitting, before=[row for row in before if _known_by(row) not in are],
        after=[row for row in after if _known_by(row) not in were], count_before=len(former.rows),
        count_after=len(rows), reordered=stayed[0] != stayed[1] or in_order != former.in_order, at=clock.now(), by=by,
    )  # fmt: skip


def _known_by(row: dict[str, Any]) -> tuple[Any, ...]:
    return row["words"], sorted(row["who"]), row["must"], row["setup"], row["card"]


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
