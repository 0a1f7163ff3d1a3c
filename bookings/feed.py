"""A person's calendar to subscribe to. Belongs here: finding whose secret address it is, what stands in it, and its
calendar. Reads only. Not here: making and revoking an address (`actions.calendars`).

A sitting is there by number, kind, room and times. Who sits and what is known of them is not: the address may lie on a
lost telephone.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import Max, Q
from django.utils.translation import gettext as _

from bookings import invitations
from bookings.afterwards import AFTER as AFTERWARDS
from bookings.invitations import Happening
from bookings.models import CalendarAddress, Sitting, Stage
from bookings.models.sittings import FIRM
from studio.models import Member, Profile, Role

BEFORE, AFTER = timedelta(days=30), timedelta(days=400)
SHOWN = (Stage.HELD, *FIRM, *AFTERWARDS)
OF_THE_SET = {Role.PHOTOGRAPHER, Role.ASSISTANT}


@dataclass(frozen=True)
class Feed:
    """A calendar with its mark: equal marks, equal calendars."""

    content: bytes
    mark: str


def digest(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()


def owner_of(secret: str) -> Member | None:
    """Whose address it is; nobody's once it is revoked or they work here no more."""
    rows = CalendarAddress.objects.filter(digest=digest(secret), member__active=True)
    kept = rows.select_related("member").prefetch_related("member__role_rows").first()
    return kept.member if kept is not None else None


def of(member: Member, now: datetime, profile: Profile) -> Feed:
    """Their own sittings; for somebody who never works on the set, all of the house. One query."""
    rows = Sitting.objects.filter(stage__in=SHOWN).between(now - BEFORE, now + AFTER)
    if member.roles & OF_THE_SET:
        rows = rows.filter(Q(photographer=member) | Q(assistant=member))
    rows = rows.select_related("room", "kind").annotate(
        staged_at=Max("stage_changes__at"), changed_at=Max("changes__at")
    )
    content = invitations.calendar([_happening(row) for row in rows], name=profile.studio_name, zone=profile.zone)
    return Feed(content, hashlib.sha256(content).hexdigest()[:32])


def _happening(row: Sitting) -> Happening:
    """As long as the room is held, with the sitting's own times in words."""
    held = row.stage == Stage.HELD
    summary = _("%(number)s, %(kind)s (held)") if held else _("%(number)s, %(kind)s")
    words = _("Set-up %(setup)d minutes before, strike %(strike)d minutes after.") % {
        "setup": row.setup_minutes, "strike": row.strike_minutes
    }  # fmt: skip
    return Happening(
        uid=f"sitting-{row.pk}@tenthstop",
        starts_at=row.starts_at,
        ends_at=row.ends_at,
        summary=summary % {"number": row.number, "kind": row.kind},
        place=row.room.name,
        words=words,
        sequence=row.version,
        stamp=max(filter(None, (row.staged_at, row.changed_at)), default=row.starts_at),  # type: ignore[attr-defined]
        tentative=held,
    )
