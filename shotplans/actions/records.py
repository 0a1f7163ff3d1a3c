"""What the assistant writes down: readings beside targets, what was done otherwise, and the signature."""

from __future__ import annotations

from decimal import Decimal

from django.db import transaction
from django.utils.translation import gettext as _

from shotplans.models import Change, Plan, Reading, Record
from shotplans.records.readings import parse_reading
from studio import clock
from studio.models import Member


class Refused(ValueError):
    """A record could not be written; str() says why and what to do."""


@transaction.atomic
def open_record(*, plan: Plan) -> Record:
    """The record of a plan, opened on first use."""
    record, _made = Record.objects.get_or_create(plan=plan, defaults={"opened_at": clock.now()})
    return record


def _writable(record: Record) -> Record:
    held = Record.objects.select_for_update().get(pk=record.pk)
    if held.closed_at is not None:
        raise Refused(_("This record is signed. Make a new version of the plan to go on."))
    return held


def _step(plan: Plan, setup_name: str, step: int) -> dict[str, object]:
    setup = plan.setup(setup_name)
    found = next((s for s in (setup or {}).get("meter_round", []) if s["step"] == step), None)
    if found is None:
        raise Refused(_("The plan has no such reading."))
    return dict(found)


@transaction.atomic
def type_reading(*, by: Member, record: Record, setup_name: str, step: int, text: str) -> Reading:
    """Keep one reading as typed. Raises readings.Unclear for text that asks back, Refused for a signed record."""
    stops: Decimal = parse_reading(text)
    held = _writable(record)
    _step(held.plan, setup_name, step)
    return Reading.objects.create(
        record=held, setup_name=setup_name, step=step, stops=stops, as_typed=text.strip()[:40], at=clock.now(), by=by
    )


@transaction.atomic
def note_change(
    *, by: Member, record: Record, setup_name: str, about: str, what: str, planned: str, actual: str, why: str
) -> Change:
    """Keep one difference from the plan."""
    held = _writable(record)
    if held.plan.setup(setup_name) is None:
        raise Refused(_("The plan has no such set-up."))
    return Change.objects.create(
        record=held, setup_name=setup_name, about=about, what=what, planned=planned[:80], actual=actual.strip()[:80],
        why=why.strip()[:200], at=clock.now(), by=by,
    )  # fmt: skip


@transaction.atomic
def sign(*, by: Member, record: Record) -> Record:
    """Close the record: it is what was really done from now on."""
    held = _writable(record)
    if not held.readings.exists():
        raise Refused(_("Nothing has been metered yet. Type at least the reading that sets the camera."))
    held.closed_at, held.closed_by = clock.now(), by
    held.version += 1
    held.save()
    return held
