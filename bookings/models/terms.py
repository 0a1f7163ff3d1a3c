"""Terms: what the studio agrees with its clients about holds, deposits, moving and staying away. Belongs here: the
studio's named terms and their wording from one day on. Not here: the copy each sitting keeps (`sittings`)."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings import prices
from studio.models.kit import plain_label
from studio.models.quantities import whole_number
from studio.models.versions import Versioned

PERCENT = (MinValueValidator(0), MaxValueValidator(100))


def percent(label: Any, **kwargs: Any) -> models.DecimalField[Any, Any]:
    return models.DecimalField(label, max_digits=5, decimal_places=2, validators=PERCENT, default=Decimal(0), **kwargs)


def money(label: Any, **kwargs: Any) -> models.DecimalField[Any, Any]:
    """An amount in the studio's currency; three digits behind the point, for some currencies have them."""
    return models.DecimalField(label, max_digits=12, decimal_places=3, **kwargs)


class TermsQuerySet(models.QuerySet["Terms"]):
    def with_wordings(self) -> TermsQuerySet:
        return self.prefetch_related("wordings")


class Terms(Versioned):
    """Terms by name; what they say from when on lies in their wordings."""

    name = models.CharField(_("name"), max_length=80, unique=True, validators=[plain_label])

    objects = TermsQuerySet.as_manager()

    class Meta:
        ordering = ("name",)
        verbose_name = _("terms")

    def __str__(self) -> str:
        return self.name

    def on(self, day: date) -> prices.Terms | None:
        """The wording in force on a day; None before the first."""
        begun = [wording for wording in self.wordings.all() if wording.valid_from <= day]
        return max(begun, key=lambda wording: wording.valid_from).as_agreed(self.name) if begun else None


class TermsWording(models.Model):
    """What terms say from one day on. The shares and hours are the studio's own: the law of the place comes first."""

    terms = models.ForeignKey(Terms, on_delete=models.CASCADE, related_name="wordings")
    valid_from = models.DateField(_("valid from"))
    hold_hours = whole_number(_("a hold lasts, hours"), low=1, high=720, default=prices.HOLD_HOURS)
    deposit_percent = percent(_("deposit, percent of the fee"))
    deposit_amount = money(_("or deposit, amount"), default=Decimal(0), validators=[MinValueValidator(0)])
    move = models.JSONField(_("moving"), default=list)  # [[hours, "percent"], ...]: less notice than that, that share
    cancel = models.JSONField(_("cancelling"), default=list)
    late_minutes = whole_number(_("late after, minutes"), low=1, high=240, default=20)
    no_show_minutes = whole_number(_("no-show after, minutes"), low=1, high=240, default=30)
    no_show_percent = percent(_("a no-show costs, percent of the fee"))
    words = models.TextField(_("words to the client"), max_length=4000, blank=True)

    class Meta:
        ordering = ("-valid_from",)
        constraints = (models.UniqueConstraint(fields=("terms", "valid_from"), name="terms_wording_once_a_day"),)

    def __str__(self) -> str:
        return f"{self.terms}, from {self.valid_from:%Y-%m-%d}"

    def as_agreed(self, name: str) -> prices.Terms:
        return prices.Terms(
            name=name,
            valid_from=self.valid_from,
            move=prices.notices(self.move),
            cancel=prices.notices(self.cancel),
            no_show_percent=self.no_show_percent,
            deposit_percent=self.deposit_percent,
            deposit_amount=self.deposit_amount,
            hold_hours=self.hold_hours,
            late_minutes=self.late_minutes,
            no_show_minutes=self.no_show_minutes,
            words=self.words,
        )
