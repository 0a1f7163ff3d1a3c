"""Packing: out and in, one tap for one thing, and what is to be seen to. Belongs here: those writes with all they bring
along: the state of a piece, a claim on what went in its place, a task for the owner. Not here: which things there are
(`packing_page`)."""

from __future__ import annotations

from datetime import date

from django.db import transaction
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings.actions import claims
from bookings.models import Claim, ResourceKind
from bookings.refusals import Refusal
from shotplans.models import PackingTap, ToSeeTo
from shotplans.models.packing import MOST_ITEM
from shotplans.packing_page import PackingList, Thing
from studio import clock
from studio.actions import kit
from studio.models import KitItem, Member

What, Condition, State = PackingTap.What, PackingTap.Condition, KitItem.State
STATES = {Condition.CHARGE: State.CHARGING, Condition.REPAIR: State.REPAIR, Condition.MISSING: State.LOST}
TO_SEE_TO = (Condition.CLEAN, Condition.REPAIR, Condition.MISSING)


class NotPacked(Refusal):
    """A tap that was not taken; nothing was written."""


@transaction.atomic
def take_out(*, by: Member, day: date, packed: PackingList, thing: Thing) -> PackingTap:
    """It goes along. A piece that was charging is charged with that; refuses what is in repair or lost."""
    if thing.cannot:
        raise NotPacked(_("%(thing)s is %(state)s.") % {"thing": thing.row.item, "state": thing.cannot})
    if thing.piece is not None and thing.piece.state == State.CHARGING:
        kit.change_state(by=by, piece=thing.piece, state=State.READY, why=_("packed for %(day)s") % {"day": day})
    return _tap(by, day, packed, thing, What.OUT, instead=thing.instead)


@transaction.atomic
def take_instead(*, by: Member, day: date, packed: PackingList, thing: Thing, instead: str) -> PackingTap:
    """Another ring goes along in its place, and is held for the sittings that need it.

    Refuses a ring that does not mend the pair, and with the bookings' `Taken` one that another sitting holds then.
    """
    fits = {ring for one in packed.unproved if one.ring in (thing.row.item, thing.instead) for ring in one.rings}
    piece = KitItem.objects.free().filter(code=instead).first()
    if piece is None or instead not in fits:
        raise NotPacked(_("%(ring)s does not fit there, or is not to be had.") % {"ring": instead or _("That ring")})
    for plan in packed.plans:
        if any(row["item"] == thing.row.item for row in plan.document["packing"]):
            held = Claim.objects.filter(sitting=plan.sitting, resource_kind=ResourceKind.KIT, resource_id=piece.pk)
            if not held.exists():
                wanted = claims.Wanted(ResourceKind.KIT, piece.pk, plan.sitting.spans.whole)
                claims.hold(sitting=plan.sitting, wanted=[wanted])
    return _tap(by, day, packed, thing, What.OUT, instead=instead)


@transaction.atomic
def bring_back(
    *, by: Member, day: date, packed: PackingList, thing: Thing, condition: str, note: str = ""
) -> PackingTap:
    """It is back, or is not: a piece that needs repair or is missing is free for no plan from now on, and the owner is
    told. Refuses what did not go out."""
    if condition not in Condition.values:
        raise NotPacked(_("Say how it came back: whole, needs charging, cleaning or repair, or missing."))
    if thing.is_open:
        raise NotPacked(_("%(thing)s did not go out.") % {"thing": thing.row.item})
    code = thing.instead or thing.row.item
    piece = thing.piece if not thing.instead else KitItem.objects.filter(code=code).first()
    tap = _tap(by, day, packed, thing, What.BACK, condition=condition, instead=thing.instead, note=note)
    former = ToSeeTo.objects.filter(tap__day=day, tap__where=packed.where, item=code, done_at=None)
    former.update(done_at=clock.now(), done_by=by)  # what was said of it before was said too soon
    if condition in TO_SEE_TO:
        ToSeeTo.objects.create(tap=tap, item=code, piece=piece, condition=condition)
    if piece is not None:
        state = STATES.get(Condition(condition), State.READY)
        kit.change_state(by=by, piece=piece, state=state, why=note or str(tap.get_condition_display()))
    return tap


@transaction.atomic
def undo(*, by: Member, day: date, packed: PackingList, thing: Thing) -> PackingTap:
    """As if nobody had taken it out."""
    if thing.is_back:
        raise NotPacked(_("%(thing)s is back. Say how, if it is otherwise.") % {"thing": thing.row.item})
    return _tap(by, day, packed, thing, What.UNDONE)


@transaction.atomic
def say_packed(*, by: Member, day: date, packed: PackingList) -> PackingTap:
    """All of it is out. Refuses while a thing is not, or a head does not meet its modifier."""
    for one in packed.unproved:
        raise NotPacked(
            _("Not packed: %(modifier)s on %(head)s: %(fault)s.")
            % {"modifier": one.modifier, "head": one.head, "fault": one.fault}
        )
    left = [thing.row.item for thing in packed.things if thing.is_open]
    if left:
        words = ngettext(
            "Not packed: %(n)d thing is not out yet: %(first)s.",
            "Not packed: %(n)d things are not out yet: %(first)s.",
            len(left),
        )
        raise NotPacked(words % {"n": len(left), "first": ", ".join(left[:5])})
    return PackingTap.objects.create(day=day, where=packed.where, what=What.PACKED, at=clock.now(), by=by)


@transaction.atomic
def seen_to(*, by: Member, task: ToSeeTo) -> ToSeeTo:
    """The owner has seen to it: a piece is ready again. Refused when it was done already."""
    held = ToSeeTo.objects.select_for_update().get(pk=task.pk)
    if held.done_at is not None:
        raise NotPacked(_("That was seen to already."))
    held.done_at, held.done_by = clock.now(), by
    held.save(update_fields=["done_at", "done_by"])
    if held.piece is not None:
        kit.change_state(by=by, piece=held.piece, state=State.READY, why=_("seen to"))
    return held


def _tap(by: Member, day: date, packed: PackingList, thing: Thing, what: str, **more: str) -> PackingTap:
    more["note"] = " ".join(more.get("note", "").split())[:200]
    item = thing.row.item[:MOST_ITEM]
    return PackingTap.objects.create(day=day, where=packed.where, item=item, what=what, at=clock.now(), by=by, **more)
