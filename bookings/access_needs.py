"""What the door must have ready for a sitting. Belongs here: from what is known of the people to words for what to do,
for all of them together. Never a condition, never a name: the desk does what the word says and asks no further."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from django.utils.translation import gettext_lazy as _

from bookings.models import Notes, Sitter
from bookings.models.sitters import Posture

OLDER_YEARS = 65
LONG_ENOUGH_MINUTES = 15  # who stands for less is shown to a seat at once; common practice, no source
Need = Callable[[Sitter, Notes], bool]


def _tires_soon(notes: Notes) -> bool:
    return notes.stand_minutes is not None and notes.stand_minutes < LONG_ENOUGH_MINUTES


# In the order they are said. Common practice, no source.
NEEDS: tuple[tuple[Any, Need], ...] = (
    (_("clear path"), lambda sitter, notes: sitter.posture == Posture.WHEELCHAIR or bool(notes.low_vision)),
    (_("chair with arms"), lambda sitter, notes: bool(notes.hip_or_back) or (sitter.age_years or 0) >= OLDER_YEARS),
    (_("a seat at once"), lambda sitter, notes: _tires_soon(notes)),
    (_("no flash"), lambda sitter, notes: bool(notes.no_flash)),
    (_("face them when you speak"), lambda sitter, notes: bool(notes.hearing)),
    (_("offer an arm, say what is where"), lambda sitter, notes: bool(notes.low_vision)),
    (_("a quiet place to wait"), lambda sitter, notes: bool(notes.sensory)),
)


def of(sitters: Iterable[Sitter]) -> list[str]:
    """Each need once; no query where the notes were read along."""
    known = [(sitter, getattr(sitter, "notes", None) or Notes()) for sitter in sitters]
    return [str(words) for words, is_needed in NEEDS if any(is_needed(*one) for one in known)]
