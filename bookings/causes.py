"""What went wrong, counted. Belongs here: causes of re-shoots and of complaints by month, and the rows behind each
number. Not here: keeping them (`actions.complaints`)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone

from bookings.models import Cause, Complaint, Reshoot
from studio.days import midnight

MONTHS = 12
RESHOOTS, COMPLAINTS = "reshoots", "complaints"


@dataclass(frozen=True)
class Count:
    cause: str
    number: int

    @property
    def label(self) -> str:
        return str(Cause(self.cause).label)


@dataclass(frozen=True)
class Month:
    """The first day of a month, and its counts in the order of `Cause`."""

    first: date
    counts: Sequence[Count]

    @property
    def sum(self) -> int:
        return sum(count.number for count in self.counts)


def month_of(moment: datetime) -> date:
    """In the zone in force."""
    return timezone.localtime(moment).date().replace(day=1)


def back(first: date, months: int) -> date:
    """The first day of the month so many months before."""
    number = first.year * 12 + first.month - 1 - months
    return date(number // 12, number % 12 + 1, 1)


def by_month(of: str, today: date) -> list[Month]:
    """The last twelve months, the latest first: a re-shoot counts in the month of its first sitting, where the cause
    lay, a complaint in the month it was made. One query."""
    latest = today.replace(day=1)
    months = [back(latest, number) for number in range(MONTHS)]
    since = midnight(months[-1])
    if of == RESHOOTS:
        rows = Reshoot.objects.filter(first__starts_at__gte=since).values_list("first__starts_at", "cause")
    else:
        rows = Complaint.objects.order_by().filter(opened_at__gte=since).values_list("opened_at", "cause")
    counted = Counter((month_of(moment), cause) for moment, cause in rows)
    return [Month(month, [Count(cause, counted[month, cause]) for cause in Cause.values]) for month in months]


def behind(of: str, month: date, cause: str) -> list[Reshoot] | list[Complaint]:
    """The rows that one number counts."""
    start = midnight(month)
    end = midnight(back(month, -1))
    if of == RESHOOTS:
        rows = Reshoot.objects.filter(first__starts_at__gte=start, first__starts_at__lt=end, cause=cause)
        return list(rows.select_related("sitting__client", "first", "by"))
    complaints = Complaint.objects.filter(opened_at__gte=start, opened_at__lt=end, cause=cause)
    return list(complaints.with_names())
