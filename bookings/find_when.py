"""When is meant by a word: months by name. Belongs here: reading a month and a year out of what somebody typed, and the
two spans that may be meant. Not here: what is found in them (`find_anything`)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone
from django.utils.dates import MONTHS

from bookings.folding import fold
from studio.days import midnight

FIRST_YEAR, LAST_YEAR = 2000, 2100
LEAST_LETTERS = 3
Between = tuple[datetime, datetime]


@dataclass(frozen=True)
class When:
    """A month; without a year the next of that name and the last, which for this month's own name are this and last
    year's."""

    month: int
    year: int | None
    coming: Between
    past: Between

    def holds(self, moment: datetime) -> bool:
        local = timezone.localtime(moment)
        return local.month == self.month and self.year in (None, local.year)


def read(folded: str, today: date) -> tuple[When | None, str]:
    """The month the words name, and the words without it; None and all of them where none does."""
    words = folded.split()
    months = [(word, number) for word in words if (number := _month(word))]
    if len(months) != 1:
        return None, folded
    word, month = months[0]
    years = [other for other in words if len(other) == 4 and other.isascii() and other.isdecimal()]
    year = int(years[0]) if len(years) == 1 and FIRST_YEAR <= int(years[0]) < LAST_YEAR else None
    words.remove(word)
    if year is not None:
        words.remove(years[0])
        span = _span(year, month)
        return When(month, year, span, (span[0], span[0])), " ".join(words)
    next_year = today.year + (month < today.month)
    return When(month, None, _span(next_year, month), _span(next_year - 1, month)), " ".join(words)


def _month(word: str) -> int:
    """The number of the month whose name begins so; 0 where none or several do."""
    if len(word) < LEAST_LETTERS:
        return 0
    found = [number for number, name in MONTHS.items() if fold(str(name)).startswith(word)]
    return found[0] if len(found) == 1 else 0


def _span(year: int, month: int) -> Between:
    after = (year + month // 12, month % 12 + 1)
    return midnight(date(year, month, 1)), midnight(date(*after, 1))
