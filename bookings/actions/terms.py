"""Terms and prices of the house. Belongs here: freezing them into a booking, and writing terms anew from a day on.
Not here: what they come to (`bookings.prices`)."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import transaction
from django.utils import timezone

from bookings import prices
from bookings.models import Sitting, Terms, TermsWording
from bookings.models.prices import fee_on
from studio import clock
from studio.models import Profile, versions


def agree(sitting: Sitting, profile: Profile) -> None:
    """Write into a new sitting what is agreed with it: the terms of the day it is booked on, the price of the day it
    is on, and within how many days it is delivered. Saved by whoever books."""
    kind = sitting.kind
    sitting.currency = profile.currency
    sitting.delivery_days = kind.delivery_days
    sitting.promised = kind.promises
    sitting.fee = fee_on(kind, timezone.localdate(sitting.starts_at, profile.zone))
    in_force = kind.terms.on(timezone.localdate(clock.now(), profile.zone)) if kind.terms else None
    sitting.terms = prices.frozen(in_force) if in_force else {}


@transaction.atomic
def write(terms: Terms, *, seen: int | None, valid_from: date, says: dict[str, Any]) -> TermsWording:
    """Keep terms with their wording from a day on; the wording of that very day is replaced, the others stay.

    Raises `Stale` when somebody else was faster.
    """
    if terms._state.adding:
        terms.save(force_insert=True)
    else:
        versions.save(terms, seen=seen or 0)
    return TermsWording.objects.update_or_create(terms=terms, valid_from=valid_from, defaults=says)[0]
