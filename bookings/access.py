"""Who may see what of a booking. Belongs here: the rules for comfort notes. Which page is for which role each view
says itself."""

from __future__ import annotations

from bookings.models import Sitting
from bookings.models.sittings import OFF
from studio import clock
from studio.models import Member, Role


def may_read_notes(member: Member, sitting: Sitting) -> bool:
    """From booking to strike: the photographers, and the assistant on that very sitting. The desk writes without
    reading, the owner neither."""
    if sitting.stage in OFF or clock.now() > sitting.strike_ends_at:
        return False
    return member.has_role(Role.PHOTOGRAPHER) or (member.has_role(Role.ASSISTANT) and sitting.assistant_id == member.pk)


def may_mend_notes(member: Member, sitting: Sitting) -> bool:
    """Those who may write what is known anew, and so take something out: whoever does reads it."""
    return member.has_role(Role.PHOTOGRAPHER) and may_read_notes(member, sitting)


def may_add_notes(member: Member) -> bool:
    return member.has_role(Role.PHOTOGRAPHER, Role.FRONT_DESK)


def may_book(member: Member) -> bool:
    return member.has_role(Role.FRONT_DESK)
