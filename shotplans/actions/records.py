"""What the assistant writes down: readings beside targets, what was done otherwise, and the signature."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from shotplans.light.exposure import stops_between
from shotplans.models import CameraSet, Change, Plan, Reading, Record
from shotplans.records import again, remedies
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


@contextmanager
def opened(plan: Plan) -> Iterator[Record]:
    """The record of a plan, for what is written to it in one transaction: what is refused opens none."""
    with transaction.atomic():
        yield open_record(plan=plan)


def writable(record: Record) -> Record:
    """The record, held for writing. Refused once it is signed."""
    held = Record.objects.select_for_update().get(pk=record.pk)
    if held.closed_at is not None and clock.now() >= held.closed_at:  # what was written before only comes in late
        raise Refused(_("This record is signed. Make a new version of the plan to go on."))
    return held


def _step(plan: Plan, setup_name: str, step: int) -> dict[str, Any]:
    setup = plan.setup(setup_name)
    found = next((s for s in (setup or {}).get("meter_round", []) if s["step"] == step), None)
    if found is None:
        raise Refused(_("The plan has no such reading."))
    return dict(found)


def _as_planned(record: Record, setup_name: str, step: dict[str, Any]) -> bool:
    """Whether what is read stands as planned: only then does a lamp learn from it. Not once it was moved or turned, and
    not a second time: what was done after the first reading need not have been noted."""
    here = {"setup_name": setup_name}
    moved = record.changes.filter(**here, about__in=step["on"], what__in=Change.MOVES)
    return not moved.exists() and not record.readings.filter(**here, step=step["step"], cause="").exists()


def _of_one_light(plan: Plan, setup_name: str, step: dict[str, Any]) -> dict[str, Any]:
    """What a reading of one light alone will teach: the pair, its exact target, and the correction in that target."""
    light = remedies.light_of(plan.setup(setup_name) or {}, step)
    if light is None:
        return {}
    pair = (light["head"], light["modifier"])
    known = plan.request.get("corrections") or ()
    used = next((c["offset_stops"] for c in known if (c["head"], c["modifier"]) == pair), 0.0)
    expected = float(stops_between(1.0, float(step["target"]["f_number"])))
    return {
        "head": pair[0], "modifier": pair[1], "expected": Decimal(str(round(expected, 2))),
        "corrected": Decimal(str(round(used, 2))),
    }  # fmt: skip


@transaction.atomic
def type_reading(
    *, by: Member, record: Record, setup_name: str, step: int, text: str, seen: int | None = None,
    came_in_at: datetime | None = None,
) -> Reading:
    """Keep one reading as typed. `seen` is the newest of its step its page showed, `came_in_at` when it reached the
    house if it had to wait. Raises readings.Unclear for text that asks back, Refused for a signed record."""
    stops: Decimal = parse_reading(text)
    held = writable(record)
    found = _step(held.plan, setup_name, step)
    taught = _of_one_light(held.plan, setup_name, found) if _as_planned(held, setup_name, found) else {}
    return Reading.objects.create(
        record=held, setup_name=setup_name, step=step, stops=stops, as_typed=text.strip()[:40], at=clock.now(), by=by,
        seen=seen, came_in_at=came_in_at, **taught,
    )  # fmt: skip


@transaction.atomic
def put_right(*, by: Member, record: Record, setup_name: str, step: int, cause: str) -> Reading:
    """Say of the newest reading of a step what was amiss on the set: it is kept, and no lamp learns from it."""
    held = writable(record)
    newest = held.readings.filter(setup_name=setup_name, step=step).order_by("-at", "-pk").first()
    if newest is None:
        raise Refused(_("Nothing has been read there yet."))
    if cause not in Reading.Cause.values:
        raise Refused(_("Say which it was: cloth, distance, dial, another light, or the meter."))
    newest.cause, newest.cause_by = cause, by
    newest.save(update_fields=["cause", "cause_by"])
    return newest


@transaction.atomic
def set_camera(
    *, by: Member, record: Record, setup_name: str, f_number: float, shutter_s: float, iso: int
) -> CameraSet:
    """Keep what the camera stands at for a set-up."""
    held = writable(record)
    if held.plan.setup(setup_name) is None:
        raise Refused(_("The plan has no such set-up."))
    return CameraSet.objects.create(
        record=held, setup_name=setup_name, f_number=f_number, shutter_s=shutter_s, iso=iso, at=clock.now(), by=by
    )


@transaction.atomic
def note_change(
    *, by: Member, record: Record, setup_name: str, about: str, what: str, planned: str, actual: str, why: str
) -> Change:
    """Keep one difference from the plan."""
    held = writable(record)
    setup = held.plan.setup(setup_name)
    if setup is None:
        raise Refused(_("The plan has no such set-up."))
    if not why.strip() and again.locked_by(held.plan.request, setup, about, what):
        raise Refused(_("The company's standard locks this: say why it was changed."))
    return Change.objects.create(
        record=held, setup_name=setup_name, about=about, what=what, planned=planned[:80], actual=actual.strip()[:80],
        why=why.strip()[:200], at=clock.now(), by=by,
    )  # fmt: skip


@transaction.atomic
def sign(*, by: Member, record: Record) -> Record:
    """Close the record: it is what was really done from now on."""
    held = writable(record)
    if not held.readings.exists():
        raise Refused(_("Nothing has been metered yet. Type at least the reading that sets the camera."))
    later = held.readings.exclude(by=by).filter(at__gt=clock.now()).select_related("by").order_by("-at").first()
    if later is not None:  # only an entry that came in late meets one
        words = _("%(who)s went on metering after this signature. Look at the readings and sign again.")
        raise Refused(words % {"who": later.by.name})
    held.closed_at, held.closed_by = clock.now(), by
    held.version += 1
    held.save()
    return held
