"""The till. Belongs here: keeping what was counted at the end of a day beside what the entries say."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.db import transaction
from django.utils.translation import gettext as _

from bookings import prices, takings
from bookings.models import DayCount, Payment
from bookings.refusals import NoteNeeded, WrongAmount
from studio import clock
from studio.models import Member, Profile


@transaction.atomic
def count(*, by: Member, day: date, counted: Decimal, note: str) -> DayCount:
    """Keep a count. A difference needs a note. Refuses with `WrongAmount`, `NoteNeeded`."""
    profile = Profile.get()
    if counted < 0 or counted != prices.rounded(counted, profile.currency):
        raise WrongAmount(_("Give the cash in whole coins, nothing or more."))
    expected = takings.of_day(day, profile).of_method(Payment.Method.CASH)
    if counted != expected and not note.strip():
        raise NoteNeeded
    return DayCount.objects.create(
        day=day, expected=expected, counted=counted, note=note.strip(), at=clock.now(), by=by
    )
