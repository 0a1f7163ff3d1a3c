"""Bills and the till. Belongs here: quotes and invoices, numbered and frozen as they were given, and what was counted
at the end of a day. Not here: charges and payments themselves (`money`)."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.money import Charge
from bookings.models.numbers import INVOICE, QUOTE, written
from bookings.models.sittings import Sitting
from bookings.models.terms import money
from studio.models import Member


class Bill(models.Model):
    """A paper about money, written once: `content` is what stands on it."""

    number = models.PositiveIntegerField(_("number"), unique=True)
    content = models.JSONField(_("content"))
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        abstract = True
        ordering = ("number",)


class Quote(Bill):
    """What a sitting would cost with what was asked for; accepted, its items are charged at its own prices."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="quotes")
    valid_until = models.DateField(_("valid until"))
    accepted_at = models.DateTimeField(null=True, blank=True)
    accepted_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)

    class Meta(Bill.Meta):
        pass

    def __str__(self) -> str:
        return written(QUOTE, self.number)

    def has_lapsed(self, today: date) -> bool:
        """Whether nobody can accept it any more; one that was accepted in time holds."""
        return self.accepted_at is None and today > self.valid_until

    @property
    def lines(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self.content["lines"]
        return found


class Invoice(Bill):
    """Charges put on paper: each charge stands on one invoice at most."""

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="invoices")
    charges = models.ManyToManyField(Charge, related_name="invoices")

    class Meta(Bill.Meta):
        pass

    def __str__(self) -> str:
        return written(INVOICE, self.number)


class DayCount(models.Model):
    """What was counted in the till at the end of a day, beside what the entries say; counted again, another row."""

    day = models.DateField(_("day"), db_index=True)
    expected = money(_("by the entries"))
    counted = money(_("counted"))
    note = models.CharField(_("note"), max_length=400, blank=True)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("day", "pk")

    def __str__(self) -> str:
        return f"{self.day:%Y-%m-%d}: {self.counted}"

    @property
    def difference(self) -> Any:
        return self.counted - self.expected
