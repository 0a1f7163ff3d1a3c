"""What happens after a sitting is photographed: reading the two clocks out of its history. Belongs here: the turns of
many sittings in a few queries, and what the clocks come to as sentences. Not here: the arithmetic (`clocks`), writing
(`actions.clocks`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo

from django.utils import timezone
from django.utils.functional import cached_property
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings import clocks, hours, wording
from bookings.clocks import CLIENT, STUDIO, Turn
from bookings.models import LateReason, Sitting, Stage, StageChange, Wait
from bookings.models.sittings import OFF
from studio import clock

OPEN = (Stage.PHOTOGRAPHED, Stage.CHOSEN)  # something is still waited for
AFTER = (*OPEN, Stage.DELIVERED, Stage.CLOSED)
OVER = (*AFTER, *OFF)  # nobody comes for it any more
BY_STAGE: dict[str, str] = {Stage.PHOTOGRAPHED: Wait.What.CHOOSE, Stage.CHOSEN: Wait.What.DELIVER}
# Days a client is given; common practice, no source.
CLIENT_DAYS: dict[str, int] = {Wait.What.CHOOSE: 14, Wait.What.PAY: 14, Wait.What.ANSWER: 7}
_KEPT = "_afterwards"  # on a row whose clocks were read along with others


@dataclass(frozen=True)
class House:
    """When the house is open, for counting days."""

    table: hours.Timetable

    def is_open(self, day: date) -> bool:
        week, off = self.table.weeks[hours.HOUSE], self.table.off.get(hours.HOUSE, ())
        return day.weekday() in week and not any(first <= day <= last for first, last, _words in off)


@dataclass(frozen=True)
class Afterwards:
    """The clocks of one sitting at a moment."""

    sitting: Sitting
    turns: Sequence[Turn]
    now: datetime
    house: House
    reasons: Sequence[LateReason] = ()

    @property
    def zone(self) -> tzinfo:
        return self.house.table.zone

    @property
    def turn(self) -> Turn:
        """What is waited for now."""
        return self.turns[-1]

    @property
    def whose(self) -> str:
        return self.turn.whose if self.sitting.stage in OPEN else ""

    @property
    def what_words(self) -> str:
        return str(Wait.What(self.turn.what).label) if self.turn.what else ""

    @property
    def measured_at(self) -> datetime:
        """Both clocks stop with delivery."""
        return self.turn.at if not self.turn.what else self.now

    @cached_property
    def promise(self) -> date | None:
        return self._promised(self.measured_at)

    @cached_property
    def promise_before(self) -> date | None:
        """What was promised when this turn began."""
        return self._promised(self.turn.at)

    def _promised(self, at: datetime) -> date | None:
        turns = [turn for turn in self.turns if turn.at <= at]
        return clocks.promised(
            turns, days=self.sitting.delivery_days, now=at, zone=self.zone, is_open=self.house.is_open
        )

    @property
    def due_on(self) -> date | None:
        """The day of whoever's move it is."""
        if self.whose == CLIENT:
            return _local(self.turn.at, self.zone) + timedelta(days=CLIENT_DAYS[self.turn.what])
        return self.promise

    @property
    def days_past(self) -> int:
        """Days past the promise; nothing while it is kept or once it is delivered."""
        if self.sitting.stage not in OPEN or self.promise is None:
            return 0
        return max((_local(self.now, self.zone) - self.promise).days, 0)

    @property
    def is_late(self) -> bool:
        return self.days_past > 0

    @property
    def reason(self) -> LateReason | None:
        return self.reasons[-1] if self.reasons else None

    @property
    def sentence(self) -> str:
        """Which clock runs, since when, and what that does to the promise."""
        words = {"since": wording.day(self.turn.at, self.zone), "promise": _said(self.promise)}
        if not self.whose:
            return _("Delivered on %(since)s; promised for %(promise)s.") % words
        if self.is_late:
            words["past"] = ngettext("%(n)d day past", "%(n)d days past", self.days_past) % {"n": self.days_past}
            words["whose"] = _("the client") if self.whose == CLIENT else _("the studio")
            return _("Promised for %(promise)s: %(past)s. Waiting for %(whose)s since %(since)s.") % words
        if self.whose == STUDIO:
            return _("Waiting for the studio since %(since)s. Promised for %(promise)s.") % words
        if self.promise == self.promise_before:
            words["then"] = _("if that is made today, the promise of %(promise)s stays.") % words
        else:
            words["before"] = _said(self.promise_before)
            words["then"] = _("made today, the promised date moves from %(before)s to %(promise)s.") % words
        return _("Waiting for the client since %(since)s: the studio's clock stands; %(then)s") % words

    @property
    def ran(self) -> str:
        """How long each clock ran."""
        at, house = self.measured_at, self.house
        words = _(
            "The client's clock ran %(client)s, the studio's %(studio)s. Days of the studio: %(days)d promised, "
            "%(used)d gone."
        )
        return words % {
            "client": _length(clocks.ran(self.turns, CLIENT, at)),
            "studio": _length(clocks.ran(self.turns, STUDIO, at)),
            "used": clocks.used(self.turns, now=at, zone=self.zone, is_open=house.is_open),
            "days": self.sitting.delivery_days,
        }

    @property
    def how_counted(self) -> str:
        """How the days of the studio are counted, for whoever asks."""
        return _("A day counts for the studio when the house is open and it was the studio's move as the day began.")


def attach(rows: Iterable[Sitting]) -> None:
    """Read the clocks of those that have any along with others: five queries, however many."""
    found = [row for row in rows if row.stage in AFTER]
    for row, one in zip(found, _read(found), strict=True):
        keep(row, one)


def keep(row: Sitting, found: Afterwards) -> None:
    """Whoever asks this row again asks the database nothing."""
    setattr(row, _KEPT, found)


def said(sitting: Sitting) -> list[Wait | LateReason]:
    """What people said of its clocks, for its history."""
    if sitting.stage not in AFTER:
        return []
    return [*sitting.waits.select_related("by"), *sitting.late_reasons.select_related("by")]


def of(sitting: Sitting) -> Afterwards | None:
    """None before a sitting is photographed. No query where it was `attach`ed, and its stage is as it was then."""
    if sitting.stage not in AFTER:
        return None
    kept: Afterwards | None = getattr(sitting, _KEPT, None)
    return kept if kept is not None else _read([sitting])[0]


def waiting() -> list[Afterwards]:
    """Every sitting that still waits for somebody."""
    return _read(list(Sitting.objects.filter(stage__in=OPEN).with_people().order_by("starts_at", "pk")))


def late() -> list[Afterwards]:
    """Those past their promise, the longest past first."""
    return sorted((one for one in waiting() if one.is_late), key=lambda one: -one.days_past)


def _read(rows: Sequence[Sitting]) -> list[Afterwards]:
    if not rows:
        return []
    keys = [row.pk for row in rows]
    turns: dict[int, list[tuple[datetime, int, int, Turn]]] = {pk: [] for pk in keys}
    for change in StageChange.objects.filter(sitting__in=keys):
        turn = Turn(change.at, BY_STAGE.get(change.stage_to, ""))
        turns[change.sitting_id].append((change.at, 0, change.pk, turn))
    for wait in Wait.objects.filter(sitting__in=keys):
        turns[wait.sitting_id].append((wait.at, 1, wait.pk, Turn(wait.at, wait.what, wait.note)))
    reasons: dict[int, list[LateReason]] = {pk: [] for pk in keys}
    for reason in LateReason.objects.filter(sitting__in=keys).select_related("by"):
        reasons[reason.sitting_id].append(reason)
    zone, now = timezone.get_current_timezone(), clock.now()
    first = min(row.starts_at for row in rows).astimezone(zone).date()
    house = House(hours.timetable(first, now.astimezone(zone).date() + timedelta(days=clocks.FURTHEST), (), zone))
    return [Afterwards(row, _begun(row, turns[row.pk]), now, house, reasons[row.pk]) for row in rows]


def _begun(row: Sitting, found: Sequence[tuple[datetime, int, int, Turn]]) -> list[Turn]:
    """From when it was first photographed on; with no such row, from the end of the sitting."""
    turns = [turn for _at, _order, _pk, turn in sorted(found, key=lambda one: one[:3])]
    begun = next((number for number, turn in enumerate(turns) if turn.what), None)
    return turns[begun:] if begun is not None else [Turn(row.ends_at.astimezone(UTC), BY_STAGE.get(row.stage, ""))]


def _local(moment: datetime, zone: tzinfo) -> date:
    return moment.astimezone(zone).date()


def _said(day: date | None) -> str:
    return wording.date(day) if day else _("no day: the house is never open")


def _length(length: timedelta) -> str:
    """In days, or in hours where it was less than one."""
    if length >= timedelta(days=1):
        return ngettext("%(n)d day", "%(n)d days", length.days) % {"n": length.days}
    hours_run = int(length / timedelta(hours=1))
    return ngettext("%(n)d hour", "%(n)d hours", hours_run) % {"n": hours_run}
