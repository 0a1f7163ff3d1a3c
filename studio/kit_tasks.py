"""What the owner must see to of the kit. Belongs here: which pieces and consumables that are, for every page that says
so. Not here: what a check in found (an upper app's)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from studio.models import Consumable, KitItem

AHEAD_DAYS = 30  # common practice, no source


@dataclass(frozen=True)
class Test:
    """A piece whose electrical test is due, in `days`; below 0 it is past."""

    piece: KitItem
    days: int


@dataclass(frozen=True)
class Tasks:
    """All there is to see to; every part is a query."""

    tests: list[Test]
    away: list[KitItem]
    low: list[Consumable]
    ahead_days: int = AHEAD_DAYS

    def __bool__(self) -> bool:
        return bool(self.tests or self.away or self.low)


def on(day: date) -> Tasks:
    """Tests due within so many days of that one, those past first; what is in repair or lost; what runs low."""
    due = KitItem.objects.to_test_by(day + timedelta(days=AHEAD_DAYS)).order_by("next_test_on", "code")
    tests = [Test(piece, (piece.next_test_on - day).days) for piece in due if piece.next_test_on]
    return Tasks(tests, list(KitItem.objects.away().order_by("state", "code")), list(Consumable.objects.low()))
