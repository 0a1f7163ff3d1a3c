"""Terms and prices that tests of bookings agree on, and the clock they are played by. Belongs here: makers alone."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

import pytest

from bookings.models import Price, Sitting, Terms, TermsWording
from studio import clock
from tests.bookings.making import House

SAYS: dict[str, Any] = {
    "hold_hours": 48,
    "deposit_percent": Decimal(25),
    "move": [[72, "10"], [24, "50"]],
    "cancel": [[72, "25"], [24, "100"]],
    "late_minutes": 20,
    "no_show_minutes": 30,
    "no_show_percent": Decimal(100),
    "words": "Twenty minutes late come off the sitting.",
}


def agree(house: House, **says: Any) -> Terms:
    """180.00 for an anniversary couple, a quarter of it beforehand, and terms with `says` changed."""
    terms = Terms.objects.create(name="Portraits")
    TermsWording.objects.create(terms=terms, valid_from=date(2026, 1, 1), **(SAYS | says))
    house.kind.terms = terms
    house.kind.save()
    Price.objects.create(kind=house.kind, from_day=date(2026, 1, 1), amount=Decimal(180))
    return terms


def set_clock(monkeypatch: pytest.MonkeyPatch, moment: datetime) -> None:
    monkeypatch.setattr(clock, "now", lambda: moment)


def again(sitting: Sitting) -> Sitting:
    """Fresh from the database."""
    return Sitting.objects.with_people().get(pk=sitting.pk)
