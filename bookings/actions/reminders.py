"""Reminders. Belongs here: finding whom one is due to, writing it once, and keeping what clients answer. Not here:
which one is due when (`bookings.reminders`), what it says (`correspondence`)."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.db.models import Max, OuterRef, Q, Subquery

from bookings import correspondence, hours, reminders
from bookings.actions import letters
from bookings.letter_refusals import NothingToAnswer
from bookings.models import Answer, Letter, Sitting, SittingChange, Stage, StageChange
from bookings.models.letters import REMINDERS
from bookings.reminders import Due
from studio import clock
from studio.languages import as_house
from studio.models import Member, Profile


def is_daytime(now: datetime, profile: Profile) -> bool:
    """Nobody is reminded at night: within the opening hours, on closed days within the usual ones."""
    local = now.astimezone(profile.zone)
    open_ = hours.timetable(local.date(), local.date(), [], profile.zone).open(local.date(), local.date())
    if open_:
        return any(span.starts_at <= now < span.ends_at for span in open_)
    first, last = reminders.DAYTIME
    return first <= local.time() < last


def due(now: datetime, profile: Profile) -> Iterator[tuple[Sitting, Due]]:
    """Sittings with the reminder that is due to them and was not written yet; two queries however many there are."""
    found: list[tuple[Sitting, Due]] = []
    for sitting in _unanswered(now):
        one = reminders.due(
            starts_at=sitting.starts_at,
            settled_at=max(filter(None, (sitting.confirmed_at, sitting.moved_at)), default=now),  # type: ignore[attr-defined]
            now=now,
            kinds=sitting.kind.reminders,
            zone=profile.zone,
        )
        if one is not None:
            found.append((sitting, one))
    keys = [_key(sitting, one) for sitting, one in found]
    written = set(Letter.objects.filter(once_key__in=keys).values_list("once_key", flat=True))
    return ((sitting, one) for sitting, one in found if _key(sitting, one) not in written)


def write_due(now: datetime, profile: Profile) -> list[Letter]:
    """Write what is due, each once, unless it is night."""
    if not is_daytime(now, profile):
        return []
    with as_house(profile):
        return [letter for sitting, one in due(now, profile) if (letter := _write(sitting.pk, one, profile))]


def _unanswered(now: datetime) -> Any:
    """Confirmed sittings ahead whose client has not answered since the time was last moved."""
    latest = {"sitting": OuterRef("pk")}
    confirmed = StageChange.objects.filter(**latest, stage_to=Stage.CONFIRMED).order_by("-at").values("at")[:1]
    moved = SittingChange.objects.filter(**latest, what=SittingChange.What.START).order_by("-at").values("at")[:1]
    longest = timedelta(days=max(reminders.DAYS.values()) + 1)
    rows = Sitting.objects.filter(stage=Stage.CONFIRMED).between(now, now + longest).with_people()
    rows = rows.annotate(
        confirmed_at=Subquery(confirmed), moved_at=Subquery(moved), answered_at=Max("answers__at")
    )
    unanswered = Q(answered_at__isnull=True) | Q(moved_at__isnull=False, answered_at__lt=Subquery(moved))
    return rows.filter(unanswered)


@transaction.atomic
def _write(pk: int, one: Due, profile: Profile) -> Letter | None:
    """The sitting is looked at once more: it may have been cancelled or moved a moment ago."""
    sitting = Sitting.objects.select_for_update(of=("self",)).with_people().get(pk=pk)
    if sitting.stage != Stage.CONFIRMED or sitting.starts_at < one.useless_at:
        return None
    text = correspondence.compose(one.kind, sitting, profile)
    return letters.write(
        sitting=sitting, kind=one.kind, to=sitting.client.email, subject=text.subject, body=text.body, by=None,
        once_key=_key(sitting, one), useless_at=one.useless_at,
    )  # fmt: skip


def _key(sitting: Sitting, one: Due) -> str:
    return f"{one.kind}:{sitting.pk}:{int(sitting.starts_at.timestamp())}"


@transaction.atomic
def answer(*, sitting: Sitting, what: str, by: Member | None, note: str = "") -> Answer:
    """Keep what a client said; the same again is kept once. Reminders that wait are needed no more. Refuses with
    `NothingToAnswer`."""
    kept = Sitting.objects.select_for_update().get(pk=sitting.pk)
    if kept.stage != Stage.CONFIRMED:
        raise NothingToAnswer(kept)
    note = note.strip()
    last = Answer.objects.filter(sitting=kept).last()
    moved = SittingChange.objects.filter(sitting=kept, what=SittingChange.What.START).last()
    if last is None or (last.what, last.note) != (what, note) or (moved is not None and moved.at > last.at):
        last = Answer.objects.create(sitting=kept, at=clock.now(), by=by, what=what, note=note)
    Letter.objects.waiting().filter(sitting=kept, kind__in=REMINDERS, lease="").update(state=Letter.State.WITHDRAWN)
    return last
