"""Money of a sitting. Belongs here: what it is charged and what was paid, as rows that are written once; a mistake is
met by a counter-entry. Not here: adding them up (`bookings.accounts`), taking money (`actions.money`)."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.items import Item, ItemKind, place_field
from bookings.models.numbers import RECEIPT, written
from bookings.models.sittings import Sitting
from bookings.models.terms import money
from studio.models import Member


class Entry(models.Model):
    """One line of an account."""

    at = models.DateTimeField()
    amount = money(_("amount"))
    note = models.CharField(_("note"), max_length=400, blank=True)

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        if not self._state.adding:
            raise TypeError("an entry is never changed: write a counter-entry")
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> Any:
        raise TypeError("an entry is never taken out: write a counter-entry")


class Charge(Entry):
    """What a sitting costs, tax and all as it was then; taken back by a row of the same amount below nothing."""

    class What(models.TextChoices):
        FEE = "fee", _("fee of the sitting")
        MOVING = "moving", _("moving")
        CANCELLING = "cancelling", _("cancelling")
        NO_SHOW = "no_show", _("no-show")
        ITEM = "item", _("item")

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="charges")
    what = models.CharField(max_length=12, choices=What.choices)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="charges")
    item = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="charges", null=True, blank=True)
    label = models.CharField(max_length=120, blank=True)
    count = models.PositiveSmallIntegerField(default=1)
    base = money(_("price before tax is looked at"), default=Decimal(0))
    place = place_field()
    tax = money(_("tax in it"), default=Decimal(0))
    tax_percent = models.DecimalField(max_digits=5, decimal_places=2, default=Decimal(0))
    tax_words = models.CharField(max_length=80, blank=True)
    corrects = models.OneToOneField(
        "self", on_delete=models.PROTECT, related_name="corrected_by", null=True, blank=True, editable=False
    )

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.what}: {self.amount}"

    @property
    def item_kind(self) -> str:
        """What rule of tax it falls under."""
        if self.item is not None:
            return self.item.kind
        return ItemKind.SITTING if self.what == self.What.FEE else ItemKind.CHANGE

    @property
    def words(self) -> str:
        """What it is for: an item by its name and number, anything else by its kind."""
        name = self.label or str(self.get_what_display())
        return f"{self.count} x {name}" if self.count > 1 else name


class Payment(Entry):
    """Money that changed hands, each with its receipt; below nothing where it was refunded."""

    class Kind(models.TextChoices):
        DEPOSIT = "deposit", _("deposit")
        BALANCE = "balance", _("balance")
        REFUND = "refund", _("refund")

    class Method(models.TextChoices):
        CASH = "cash", _("cash")
        CARD = "card", _("card")
        TRANSFER = "transfer", _("bank transfer")
        OTHER = "other", _("other")

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="payments")
    receipt = models.PositiveIntegerField(_("receipt"), unique=True)
    kind = models.CharField(_("for"), max_length=8, choices=Kind.choices)
    method = models.CharField(_("how"), max_length=8, choices=Method.choices)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="payments")
    corrects = models.OneToOneField(
        "self", on_delete=models.PROTECT, related_name="corrected_by", null=True, blank=True, editable=False
    )

    class Meta:
        ordering = ("receipt",)

    def __str__(self) -> str:
        return self.receipt_number

    @property
    def receipt_number(self) -> str:
        return written(RECEIPT, self.receipt)


class Trust(models.Model):
    """A sitting that was confirmed without its deposit: until a day, or for good where the owner waived it."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="trust")
    until = models.DateField(_("on trust until"), null=True, blank=True)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="trusts")
    note = models.CharField(_("note"), max_length=400, blank=True)

    class Meta:
        ordering = ("until", "pk")

    def __str__(self) -> str:
        return f"until {self.until:%Y-%m-%d}" if self.until else "waived"

    @property
    def waived(self) -> bool:
        return self.until is None
