"""Who could take a time that came free. Belongs here: whether it is free still, which waiting clients fit it, in which
order and why. Not here: offering it (`actions.wait_list`)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo
from typing import Any

from django.db.models import Q
from django.utils import timezone
from django.utils.formats import date_format
from django.utils.http import urlencode
from django.utils.translation import gettext as _

from bookings import wording
from bookings.models import Claim, ResourceKind, Sitting, Stage, WantedTime
from bookings.slots import PHOTOGRAPHER_BEFORE_MINUTES
from studio.models import Weekday

FREED = (Stage.CANCELLED, Stage.ENQUIRY)  # cancelled, or its hold lapsed
MOST = 8


@dataclass(frozen=True)
class Match:
    """A waiting client and when they would start; `why` is what speaks for them, in words."""

    wanted: WantedTime
    start: datetime
    why: str
    is_offered: bool  # this very time, already

    def booking(self, sitting: Sitting, zone: tzinfo) -> str:
        """The query of a new sitting there, everything filled in that is known."""
        local, wanted = timezone.localtime(self.start, zone), self.wanted
        known: dict[str, Any] = {
            "client": wanted.client_id, "day": local.date().isoformat(), "at": local.strftime("%H:%M"),
            "room": sitting.room_id, "photographer": sitting.photographer_id, "minutes": wanted.minutes,
        }  # fmt: skip
        return urlencode(known | ({"kind": wanted.kind_id} if wanted.kind_id else {}))


def is_free(sitting: Sitting, now: datetime) -> bool:
    """Whether its time came free, is still to come, and nobody else has it by now."""
    if sitting.stage not in FREED or sitting.setup_starts_at <= now:
        return False
    spans = sitting.spans
    things = Q(resource_kind=ResourceKind.ROOM, resource_id=sitting.room_id)
    things |= Q(resource_kind=ResourceKind.MEMBER, resource_id=sitting.photographer_id)
    return not Claim.objects.during(spans.whole.starts_at, spans.whole.ends_at).filter(things).exists()


def matches(sitting: Sitting, *, now: datetime, zone: tzinfo) -> list[Match]:
    """Those who fit its time, the best first: who fills most of it, then who asked for it most closely, then who has
    waited longest. Empty where it is not free. Two queries, however many wait."""
    if not is_free(sitting, now):
        return []
    day = timezone.localdate(sitting.starts_at, zone)
    rows = WantedTime.objects.waiting().with_names().exclude(client=sitting.client_id)
    rows = rows.filter(Q(room=None) | Q(room=sitting.room_id), minutes__lte=sitting.minutes)
    rows = rows.filter(Q(photographer=None) | Q(photographer=sitting.photographer_id))
    rows = rows.filter(Q(first_on=None) | Q(first_on__lte=day), Q(last_on=None) | Q(last_on__gte=day))
    found = [one for one in (match(sitting, row, zone) for row in rows) if one is not None]
    return sorted(found, key=lambda one: _order(one, sitting))[:MOST]


def match(sitting: Sitting, wanted: WantedTime, zone: tzinfo) -> Match | None:
    """When one client could start in the time of a sitting, if at all. Pure."""
    day = timezone.localdate(sitting.starts_at, zone)
    if wanted.weekdays and day.weekday() not in wanted.weekdays:
        return None
    start = _start(sitting, wanted, zone)
    if start is None:
        return None
    why = "; ".join(_why(sitting, wanted, day.weekday()))
    return Match(wanted, start, why, wanted.offered_id == sitting.pk)


def _start(sitting: Sitting, wanted: WantedTime, zone: tzinfo) -> datetime | None:
    """As near the start there was as set-up, strike, photographer and the wished hours allow."""
    spans, kind, length = sitting.spans, wanted.kind, timedelta(minutes=wanted.minutes)
    setup = timedelta(minutes=kind.setup_minutes if kind else sitting.setup_minutes)
    strike = timedelta(minutes=kind.strike_minutes if kind else sitting.strike_minutes)
    before = timedelta(minutes=PHOTOGRAPHER_BEFORE_MINUTES)
    low = max(spans.whole.starts_at + setup, spans.photographer.starts_at + before)
    high = min(spans.whole.ends_at - strike, spans.photographer.ends_at) - length
    day = timezone.localdate(sitting.starts_at, zone)
    earliest, latest = (datetime.combine(day, at, tzinfo=zone) for at in wanted.wall)
    low, high = max(low, earliest), min(high, latest)
    return min(max(sitting.starts_at, low), high) if low <= high else None


def _asked_closely(wanted: WantedTime, sitting: Sitting) -> int:
    """How much of what they wish is just this."""
    same_kind = wanted.kind_id is not None and wanted.kind_id == sitting.kind_id
    return sum((same_kind, bool(wanted.room_id), bool(wanted.photographer_id), bool(wanted.weekdays)))


def _order(one: Match, sitting: Sitting) -> tuple[Any, ...]:
    wanted = one.wanted
    return -wanted.minutes, -_asked_closely(wanted, sitting), wanted.written_at, wanted.pk


def _why(sitting: Sitting, wanted: WantedTime, weekday: int) -> list[str]:
    words = {"minutes": wanted.minutes, "of": sitting.minutes}
    said = [_("fills all %(of)d minutes") if wanted.minutes == sitting.minutes else _("%(minutes)d of %(of)d minutes")]
    said[0] %= words
    if wanted.kind_id is not None and wanted.kind_id == sitting.kind_id:
        said.append(_("the same kind of sitting"))
    if wanted.room_id:
        said.append(_("asked for the %(room)s") % {"room": sitting.room.name})
    if wanted.photographer_id:
        said.append(_("asked for %(name)s") % {"name": sitting.photographer.name})
    if wanted.weekdays:
        said.append(_("asked for a %(day)s") % {"day": Weekday(weekday).label})
    since = date_format(timezone.localtime(wanted.written_at), "j F Y")
    return [*said, _("waits since %(day)s") % {"day": since}]


def wishes(wanted: WantedTime) -> str:
    """What a client would take, as one line."""
    said: list[str] = [str(wanted.kind)] if wanted.kind else []
    said.append(_("%(n)d minutes") % {"n": wanted.minutes})
    said.append(str(wanted.room) if wanted.room else _("any room"))
    said.append(wanted.photographer.name if wanted.photographer else _("any photographer"))
    said.append(", ".join(str(Weekday(day).label) for day in sorted(wanted.weekdays)) or _("any day"))
    if wanted.first_on:
        said.append(_("from %(day)s") % {"day": wording.date(wanted.first_on)})
    if wanted.last_on:
        said.append(_("to %(day)s") % {"day": wording.date(wanted.last_on)})
    if wanted.earliest:
        said.append(_("not before %(time)s") % {"time": wanted.earliest.strftime("%H:%M")})
    if wanted.latest:
        said.append(_("not after %(time)s") % {"time": wanted.latest.strftime("%H:%M")})
    return "; ".join(said)


def lines(rows: Sequence[WantedTime]) -> list[tuple[WantedTime, str]]:
    return [(row, wishes(row)) for row in rows]
