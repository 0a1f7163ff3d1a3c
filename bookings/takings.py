"""What came in. Belongs here: the payments of a day or a month added up by how they were paid, what is still owed, and
the rows a bookkeeper takes away. Not here: one sitting's account (`accounts`)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.db.models import DecimalField, F, OuterRef, Subquery, Sum, Value
from django.db.models.functions import Coalesce
from django.utils import timezone
from django.utils.translation import gettext as _

from bookings import prices
from bookings.afterwards import OVER
from bookings.models import Charge, DayCount, Payment, Sitting
from bookings.prices import NOTHING
from studio.models import Profile

MOST_OWED = 200
MONEY = DecimalField(max_digits=12, decimal_places=3)
HEAD = (
    "entry", "date", "number", "sitting", "client", "for", "count", "place", "tax name", "tax percent", "net", "tax",
    "amount", "currency", "method", "by", "note", "corrects",
)  # fmt: skip


@dataclass(frozen=True)
class Takings:
    """Payments of a span of days with their sums by method; what was refunded counts below nothing."""

    first: date
    last: date
    payments: Sequence[Payment]
    counts: Sequence[DayCount]

    def of_method(self, method: str) -> Decimal:
        return sum((p.amount for p in self.payments if p.method == method), NOTHING)

    @property
    def by_method(self) -> list[tuple[str, int, Decimal, Decimal, Decimal]]:
        """Method, how many entries, taken, refunded, together; a mistake and its counter-entry stand in one column."""
        found = []
        for method in Payment.Method:
            rows = [p for p in self.payments if p.method == method]
            if rows:
                went = sum((p.amount for p in rows if p.kind == Payment.Kind.REFUND), NOTHING)
                both = sum((p.amount for p in rows), NOTHING)
                found.append((str(method.label), len(rows), both - went, went, both))
        return found

    @property
    def total(self) -> Decimal:
        return sum((p.amount for p in self.payments), NOTHING)

    @property
    def count(self) -> DayCount | None:
        """The latest count."""
        return self.counts[-1] if self.counts else None


def of_day(day: date, profile: Profile) -> Takings:
    return between(day, day, profile)


def between(first: date, last: date, profile: Profile) -> Takings:
    """All payments of the days from `first` to `last`, both counted, in the studio's own days."""
    start, end = span(first, last, profile)
    rows = Payment.objects.filter(at__gte=start, at__lt=end).select_related("sitting__client", "by", "corrects")
    return Takings(first, last, list(rows.order_by("receipt")), list(DayCount.objects.filter(day__range=(first, last))))


def by_day(found: Takings, profile: Profile) -> list[tuple[date, Decimal]]:
    """The days on which anything was entered, each with its sum."""
    sums: dict[date, Decimal] = {}
    for payment in found.payments:
        day = timezone.localdate(payment.at, profile.zone)
        sums[day] = sums.get(day, NOTHING) + payment.amount
    return sorted(sums.items())


def owed(today: date) -> list[tuple[Sitting, Decimal, Decimal]]:
    """Sittings that are over, with what is still to be paid and what is to be refunded, the longest ago first; over is
    also one from before `today` of which nobody has said what became of it."""
    over = Sitting.objects.filter(stage__in=OVER) | Sitting.objects.left_standing(today)
    rows = (
        over.with_people()
        .annotate(due=_sum(Charge), paid=_sum(Payment))
        .annotate(left=F("due") - F("paid"))
        .exclude(left=0)
        .order_by("starts_at", "pk")[:MOST_OWED]
    )
    return [(row, max(row.left, Decimal(0)), max(-row.left, Decimal(0))) for row in rows]


def _sum(model: type[Charge] | type[Payment]) -> Coalesce:
    rows = model.objects.filter(sitting=OuterRef("pk")).order_by().values("sitting").annotate(s=Sum("amount"))
    return Coalesce(Subquery(rows.values("s"), output_field=MONEY), Value(NOTHING, output_field=MONEY))


def span(first: date, last: date, profile: Profile) -> tuple[datetime, datetime]:
    """From the first midnight to the one after the last, in the studio's zone."""
    midnight = datetime.min.time()
    start = datetime.combine(first, midnight, profile.zone)
    return start, datetime.combine(last + timedelta(days=1), midnight, profile.zone)


def rows(first: date, last: date, profile: Profile) -> Iterator[tuple[object, ...]]:
    """Charges and payments of a span for the bookkeeper, by moment: dates as ISO 8601, amounts with their sign."""
    start, end = span(first, last, profile)
    charges = Charge.objects.filter(at__gte=start, at__lt=end).select_related("sitting__client", "by")
    payments = Payment.objects.filter(at__gte=start, at__lt=end).select_related("sitting__client", "by", "corrects")
    found = sorted([*charges, *payments], key=lambda row: (row.at, isinstance(row, Payment), row.pk))
    for row in found:
        day, currency = timezone.localdate(row.at, profile.zone).isoformat(), row.sitting.currency
        amount = prices.rounded(row.amount, currency)  # as many digits as its coin has, however many are kept
        if isinstance(row, Payment):
            yield (
                _("payment"), day, row.receipt_number, row.sitting.number, row.sitting.client.name,
                row.get_kind_display(), 1, "", "", "", "", "", amount, currency,
                row.get_method_display(), row.by.name, row.note, row.corrects.receipt_number if row.corrects else "",
            )  # fmt: skip
        else:
            yield (
                _("charge"), day, f"C-{row.pk}", row.sitting.number, row.sitting.client.name,
                row.label or row.get_what_display(), row.count, row.place, row.tax_words,
                row.tax_percent if row.tax_words else "", prices.rounded(row.amount - row.tax, currency),
                prices.rounded(row.tax, currency), amount, currency, "", row.by.name, row.note,
                f"C-{row.corrects_id}" if row.corrects_id else "",
            )  # fmt: skip
