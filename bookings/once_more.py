"""A time for a sitting that is there already: the same once more for its client, or this one at another time. Belongs
here: what is looked for, and what the page it leads to is told. Not here: looking (`fits`), booking or moving."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import stages
from bookings.forms.gaps import TIMES, USUAL_DAYS
from bookings.models import Sitting
from studio.models import Profile

LIKE, MOVE = "like", "move"  # in an address: book one like it, or move it


@dataclass(frozen=True)
class OnceMore:
    """The sitting, and whether it is moved or another is booked like it."""

    sitting: Sitting
    moves: bool

    @property
    def name(self) -> str:
        return MOVE if self.moves else LIKE

    def search(self, today: date) -> dict[str, Any]:
        """What the gaps are asked for: as long as it is; a moved one with its people and in its room."""
        row = self.sitting
        asked: dict[str, Any] = {name: getattr(row, name) for name in TIMES}
        asked |= {"kind": row.kind_id if row.kind.active else "", "assistant": row.assistant_id or "", "part": "any"}
        asked |= {"first": today.isoformat(), "last": (today + timedelta(days=USUAL_DAYS)).isoformat()}
        if self.moves:
            asked |= {"room": row.room_id, "photographer": row.photographer_id}
        return asked

    def leads_to(self) -> tuple[str, dict[str, Any]]:
        """The page that books or moves it, and what only this sitting tells it."""
        if self.moves:
            return reverse("change_sitting", args=[self.sitting.number]), {}
        return reverse("new_sitting"), {"client": self.sitting.client_id, LIKE: self.sitting.number}


def of(asked: Mapping[str, Any]) -> OnceMore | None:
    """The sitting an address names; none where it names nothing that can be done."""
    for name in (MOVE, LIKE):
        number = str(asked.get(name, ""))
        if not (number and number.isascii() and number.isprintable()):
            continue
        rows = Sitting.objects.select_related("kind", "client")
        row = rows.filter(number=number).first()
        if row is not None and (name == LIKE or row.stage in stages.CHANGEABLE):
            return OnceMore(row, name == MOVE)
    return None


def people_in_a_line(sitting: Sitting, on: date) -> str:
    """Who sat, as one types them in one line, each as old as they are by then where an age was told."""
    years = max(0, (on - timezone.localdate(sitting.starts_at, Profile.get().zone)).days // 365)
    people = [(one.label, one.age_years) for one in sitting.sitters.all()]
    return ", ".join(label if age is None else f"{label} {_aged(age + years)}" for label, age in people)


def _aged(years: float) -> str:
    """An age as the line reads it: the years, of the very young the months."""
    return f"{years:.0f}" if years == int(years) else f"{12 * years:.0f} {_('months')}"
