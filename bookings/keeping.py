"""How long comfort notes are kept. Belongs here: whose day has come and why, and what the log of readings says. Not
here: taking anything out (`actions.keeping`, `actions.erasure`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.utils import timezone

from bookings.models import Consent, NoteReading, NotesPurged, Sitter, Sitting, Stage, StageChange
from bookings.models.sittings import OFF
from studio import clock
from studio.models import Member, Profile

ENDED = (Stage.DELIVERED, Stage.CLOSED, *OFF)
MOST_SHOWN = 500
Answer, What, Why = Consent.Answer, Consent.What, NotesPurged.Why


@dataclass(frozen=True)
class Due:
    """One sitter whose notes are to go, since which day and why."""

    sitter: Sitter
    day: date
    why: str


def purge_day(answer: str, over_on: date, ended_on: date | None, days: int) -> tuple[date, str] | None:
    """From when the notes of a sitting that is over are to go; None where they stay.

    `answer` to “keep comfort notes”: a yes keeps them for the next time, a no or a withdrawal ends them with the
    sitting. Otherwise `days` after it was delivered (or fell through); what was not delivered yet is still at work.
    """
    if answer in (Answer.NO, Answer.WITHDRAWN):
        return over_on, Why.NOT_WANTED
    if answer == Answer.YES or ended_on is None:
        return None
    return ended_on + timedelta(days=days), Why.DAY


def due(now: datetime, profile: Profile, sittings: Iterable[Sitting] | None = None) -> list[Due]:
    """All whose day has come, the longest due first."""
    rows = Sitter.objects.with_what_is_known().filter(has_notes=True).select_related("sitting")
    rows = rows.filter(sitting__starts_at__lt=now) | rows.filter(sitting__stage__in=OFF)
    if sittings is not None:
        rows = rows.filter(sitting__in=list(sittings))
    people = [row for row in rows if row.sitting.stage in OFF or row.sitting.strike_ends_at <= now]
    answers = _answers(people)
    ended = _ended(people, profile)
    found = []
    for row in people:
        over_on = timezone.localdate(min(row.sitting.strike_ends_at, now), profile.zone)
        told = purge_day(answers.get(row.pk, ""), over_on, ended.get(row.sitting_id), profile.keep_notes_days)
        if told is not None and told[0] <= timezone.localdate(now, profile.zone):
            found.append(Due(row, *told))
    return sorted(found, key=lambda one: (one.day, one.sitter.pk))


def _answers(people: Sequence[Sitter]) -> dict[int, str]:
    rows = Consent.objects.filter(sitter__in=people, what=What.KEEP_NOTES)
    return dict(rows.values_list("sitter_id", "answer"))


def _ended(people: Sequence[Sitter], profile: Profile) -> dict[int, date]:
    """By sitting: the day on which it was last delivered, closed or given up; none for what goes on."""
    over = {row.sitting_id for row in people if row.sitting.stage in ENDED}
    found: dict[int, date] = {}
    for change in StageChange.objects.filter(sitting__in=over, stage_to__in=ENDED).order_by("at", "pk"):
        if change.stage_to != Stage.CLOSED or change.sitting_id not in found:  # closing begins nothing anew
            found[change.sitting_id] = timezone.localdate(change.at, profile.zone)
    return found


def log(
    member: Member, sitting: Sitting, where: str, *, sitter: Sitter | None = None, refused: bool = False
) -> None:
    """Note that somebody read, or was refused; the one thing that looking at a page writes."""
    NoteReading.objects.create(
        sitting=sitting, sitter=sitter, by=member, at=clock.now(), where=where, refused=refused
    )


def readings(*, number: str = "", member: int | None = None, refused: bool = False) -> list[NoteReading]:
    """The latest, newest first."""
    rows = NoteReading.objects.select_related("sitting", "sitter", "by")
    if number:
        rows = rows.filter(sitting__number=number)
    if member is not None:
        rows = rows.filter(by=member)
    if refused:
        rows = rows.filter(refused=True)
    return list(rows[:MOST_SHOWN])
