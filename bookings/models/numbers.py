"""Running numbers. Belongs here: a row for each series (sittings, receipts, quotes, invoices), its numbers taken one at
a time."""

from __future__ import annotations

from django.db import models

RECEIPT, QUOTE, INVOICE = "R", "Q", "I"  # a sitting's letter is its studio's


def written(letter: str, number: int) -> str:
    """A number as it stands on paper and is found by: R-0012."""
    return f"{letter}-{number:04d}"


class NumberSeries(models.Model):
    """The last number given in one series. Take the next inside a transaction, as its last lock."""

    name = models.CharField(max_length=20, primary_key=True)
    last = models.PositiveIntegerField(default=0)

    def __str__(self) -> str:
        return f"{self.name}: {self.last}"

    @classmethod
    def take(cls, name: str) -> int:
        """The next number of a series; given back only where the transaction is."""
        cls.objects.get_or_create(name=name)
        row = cls.objects.select_for_update().get(name=name)
        row.last += 1
        row.save(update_fields=["last"])
        return row.last
