"""Taps around a sitting: the hazard walk, the strike list. Belongs here: writing them, and what they wait for: sitters
come in after four ticks, a set is struck after its last sweep. Not here: what is ticked (`set_page`)."""

from __future__ import annotations

from django.db import transaction
from django.utils.translation import gettext as _

from bookings.refusals import Refusal
from shotplans import set_page
from shotplans.models import Plan, SetTap
from shotplans.sheets import measures, strike, walk
from studio import clock
from studio.models import Member

On = SetTap.On


class NotYet(Refusal):
    """A tap that was not taken; nothing was written."""


@transaction.atomic
def tap_walk(*, by: Member, plan: Plan, setup_name: str, code: str, done: bool = True) -> SetTap:
    """One tick of the walk, its beginning, or "sitters in": refused while a tick is missing."""
    held = _held(plan)
    if code not in (*walk.CODES, SetTap.BEGUN, SetTap.SITTERS_IN) or held.setup(setup_name) is None:
        raise NotYet(_("The walk has no such tick. Load the page again."))
    if code == SetTap.SITTERS_IN and done:
        found = set_page.newest(held, On.WALK)
        ticked = {one for one in walk.CODES if (tap := found.get((setup_name, one))) and tap.done}
        left = [walk.NAMES[one] for one in walk.CODES if one not in ticked]
        if left:
            raise NotYet(_("Sitters in waits for: %(left)s.") % {"left": ", ".join(left).lower()})
    return _tap(by, held, setup_name, On.WALK, code, done)


@transaction.atomic
def tap_strike(*, by: Member, plan: Plan, code: str, done: bool = True) -> SetTap:
    """One line of the strike list, its beginning, or "struck": refused before the last sweep, or while a line is open
    that does not stay up."""
    held = _held(plan)
    setup, found = set_page.last_setup(held), set_page.struck(held, measures.METRIC)
    if setup is None or found is None:
        raise NotYet(_("Nothing of this plan was built."))
    codes = {one.line.code for one in found.lines}
    if code not in (*codes, SetTap.BEGUN, SetTap.STRUCK):
        raise NotYet(_("The strike list has no such line. Load the page again."))
    if code == SetTap.STRUCK and done:
        if found.left:
            raise NotYet(_("Struck waits for: %(left)s.") % {"left": "; ".join(found.left)})
        if not found.is_swept:
            raise NotYet(_("Struck waits for the last sweep: floor, sills, sockets, behind the ground."))
    if code == strike.SWEEP and done and found.left:
        raise NotYet(_("The last sweep comes last. Still standing: %(left)s.") % {"left": "; ".join(found.left)})
    return _tap(by, held, setup["name"], On.STRIKE, code, done)


def _held(plan: Plan) -> Plan:
    return Plan.objects.select_for_update().select_related("sitting").get(pk=plan.pk)


def _tap(by: Member, plan: Plan, setup_name: str, on: str, code: str, done: bool) -> SetTap:
    return SetTap.objects.create(
        plan=plan, setup_name=setup_name, on=on, code=code, done=done, at=clock.now(), by=by
    )
