"""The set as shot: copying the plan, changing what differs, keeping what failed with why."""

from __future__ import annotations

import copy
from collections.abc import Mapping
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shotplans.actions.records import Refused, note_change, open_record, writable
from shotplans.models import Built, Plan, Record
from shotplans.records import as_shot
from studio import clock
from studio.models import Member
from studio.models.versions import Stale


def planned(record: Record, setup_name: str) -> dict[str, Any]:
    """What the plan says of a set-up, as a copy to change. Refused where it has no such set-up or no light in it."""
    for order, setup in enumerate(record.plan.setups, 1):
        if setup["name"] == setup_name and setup["camera"] is not None:
            return as_shot.copied(setup, order)
    raise Refused(_("The plan has no such set-up."))


def so_far(record: Record, setup_name: str) -> dict[str, Any]:
    """What the plan says of a set-up, with what was noted as otherwise put in where it can be read."""
    data = planned(record, setup_name)
    noted = record.changes.filter(setup_name=setup_name).order_by("pk") if record.pk else ()
    for change in noted:
        as_shot.put_noted(data, change.about, change.what, change.actual)
    return data


@transaction.atomic
def copy_plan(*, by: Member, record: Record, setup_name: str) -> Built:
    """Keep a set-up as built, as the plan has it with what was noted so far. Doing it again changes nothing."""
    held = writable(record)
    found = Built.objects.filter(record=held, setup_name=setup_name).first()
    if found is not None:
        return found
    data = so_far(held, setup_name)
    return Built.objects.create(record=held, setup_name=setup_name, data=data, at=clock.now(), by=by)


@transaction.atomic
def copy_and_change(*, by: Member, plan: Plan, setup_name: str, **typed: Any) -> Built:
    """What differs, of a set-up that need not be copied yet: both or neither. Raises as `change`."""
    return change(by=by, built=copy_plan(by=by, record=open_record(plan=plan), setup_name=setup_name), **typed)


@transaction.atomic
def change(
    *,
    by: Member,
    built: Built,
    typed: Mapping[tuple[str, str], Any],
    seen: int,
    failed: bool,
    why_failed: str,
    why: str,
) -> Built:
    """Set the values that differ; each that is new is noted with who and when. Stale where somebody changed it since.
    Refused without a reason for a failed set-up, and for a value a company's standard locks without one."""
    record = writable(built.record)
    held = Built.objects.select_for_update().get(pk=built.pk)
    if held.version != seen:
        raise Stale(held)
    if failed and not why_failed.strip():
        raise Refused(_("Say why it did not work: next year nobody remembers."))
    before, data = planned(record, held.setup_name), copy.deepcopy(held.data)
    was = {(about, key): value for about, key, value in as_shot.paths(before)}
    now = {(about, key): value for about, key, value in as_shot.paths(data)}
    for (about, key), value in typed.items():
        if (about, key) in now and not as_shot.same(key, now[about, key], value):
            as_shot.put(data, about, key, value)
            note_change(
                by=by, record=record, setup_name=held.setup_name, about=about, what=as_shot.WHAT[key],
                planned=as_shot.worded(key, was.get((about, key))), actual=as_shot.worded(key, value), why=why,
            )  # fmt: skip
    held.data, held.failed, held.why_failed = data, failed, why_failed.strip()[:300] if failed else ""
    held.at, held.by, held.version = clock.now(), by, held.version + 1
    held.save()
    return held
