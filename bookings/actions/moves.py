"""Moving a sitting in the diary. Belongs here: what another time, room or person would take, found out by doing it and
undoing it, and doing it. Not here: every other change (`changes`), which this goes through."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from copy import copy
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal

from django.db import transaction

from bookings import accounts
from bookings.actions import changes, objecting
from bookings.models import Sitting, SittingChange
from bookings.objections import Objection
from bookings.refusals import Refusal, Taken
from studio import clock
from studio.models import Member, Room
from studio.models.versions import Stale


@dataclass(frozen=True)
class Place:
    """When, where and with whom; everything else of a sitting stays."""

    starts_at: datetime
    room: Room
    photographer: Member
    assistant: Member | None


@dataclass(frozen=True)
class Preview:
    """What a move takes: `refusal` says why it cannot be, `next_start` when it could; `fee` by the terms of the
    booking; `after` is the sitting as it would be, never saved."""

    after: Sitting
    fee: Decimal
    objections: Sequence[Objection]
    refusal: str = ""
    next_start: datetime | None = None


class _Undone(Exception):
    """Carries the trial out of its transaction."""


def preview(*, by: Member, sitting: Sitting, seen: int, to: Place) -> Preview:
    """What would come of `move`; nothing is written. The refusal is the very one, for it is tried and taken back."""
    after = copy(sitting)
    after.starts_at, after.room = to.starts_at.astimezone(UTC), to.room
    after.photographer, after.assistant = to.photographer, to.assistant
    moves = after.starts_at != sitting.starts_at
    fee = accounts.fee_to_move(sitting, clock.now()) if moves else Decimal(0)
    ages = [sitter.age_years for sitter in sitting.sitters.all()]
    stood_before = objecting.against(sitting, ages)
    found = [one for one in objecting.against(after, ages) if one not in stood_before]
    refusal, next_start = "", None
    try:
        with transaction.atomic():
            move(by=by, sitting=sitting, seen=seen, to=to, agreed_fee=fee, acknowledged=[one.code for one in found])
            raise _Undone
    except _Undone:
        pass
    except Taken as taken:
        refusal, next_start = str(taken), taken.next_start
    except (Refusal, Stale) as refused:
        refusal = str(refused)
    return Preview(after, fee, found, refusal, next_start)


def move(
    *,
    by: Member,
    sitting: Sitting,
    seen: int,
    to: Place,
    note: str = "",
    agreed_fee: Decimal | None = None,
    acknowledged: Collection[str] = (),
) -> list[SittingChange]:
    """Refuses and raises as `changes.change` does."""
    return changes.change(
        by=by,
        sitting=sitting,
        seen=seen,
        starts_at=to.starts_at,
        minutes=sitting.minutes,
        setup_minutes=sitting.setup_minutes,
        strike_minutes=sitting.strike_minutes,
        room=to.room,
        photographer=to.photographer,
        assistant=to.assistant,
        purpose=sitting.purpose,
        print_width_cm=sitting.print_width_cm,
        people=(),
        note=note,
        agreed_fee=agreed_fee,
        acknowledged=acknowledged,
    )
