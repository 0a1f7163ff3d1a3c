"""Secret addresses of calendars. Belongs here: making one, which ends the one before, and revoking it."""

from __future__ import annotations

import secrets

from bookings.feed import digest
from bookings.models import CalendarAddress
from studio import clock
from studio.models import Member


def make_address(*, member: Member) -> str:
    """A new secret; it is shown once, for only its digest is kept."""
    secret = secrets.token_urlsafe(24)
    CalendarAddress.objects.update_or_create(
        member=member, defaults={"digest": digest(secret), "made_at": clock.now()}
    )
    return secret


def revoke_address(*, member: Member) -> None:
    CalendarAddress.objects.filter(member=member).delete()
