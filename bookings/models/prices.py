"""Prices. Belongs here: what a kind of sitting costs from one day on. Not here: what one sitting was booked at
(`sittings`), fees by the terms (`bookings.prices`)."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings import prices
from bookings.models.kinds import Kind
from bookings.models.terms import money


class Price(models.Model):
    """The fee of a kind for sittings from one day on; a season is two of them."""

    kind = models.ForeignKey(Kind, on_delete=models.CASCADE, related_name="prices")
    from_day = models.DateField(_("for sittings from"))
    amount = money(_("fee"), validators=[MinValueValidator(0)])

    class Meta:
        ordering = ("from_day",)
        constraints = (models.UniqueConstraint(fields=("kind", "from_day"), name="price_once_a_day"),)

    def __str__(self) -> str:
        return f"{self.kind}, from {self.from_day:%Y-%m-%d}: {self.amount}"


def fee_on(kind: Kind, day: date) -> Decimal | None:
    """What a sitting of that kind costs on that day; None where no price was given yet."""
    return prices.price_on((prices.Dated(row.from_day, row.amount) for row in kind.prices.all()), day)
