"""What a studio sells beside the sitting itself, and how it is taxed. Belongs here: the items with their dated prices,
and the studio's own rules of tax. Not here: what a sitting was charged (`money`)."""

from __future__ import annotations

from decimal import Decimal

from django.core.validators import MinValueValidator, RegexValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings import prices, taxes
from bookings.models.terms import money, percent
from studio.models.kit import plain_label
from studio.models.versions import Versioned

place_code = RegexValidator(r"^[A-Z0-9][A-Z0-9-]{0,11}\Z", _("Capital letters, digits and hyphens: GB, US-OH, NORTH."))


class ItemKind(models.TextChoices):
    """What tells items apart for tax."""

    SITTING = "sitting", _("the sitting itself")
    CHANGE = "change", _("moving, cancelling, no-show")
    PRINT = "print", _("prints and albums")
    FILE = "file", _("files")
    FRAME = "frame", _("frames and goods")
    SERVICE = "service", _("retouching, travel and other work")


def place_field(**kwargs: object) -> models.CharField[str, str]:
    """A place in the studio's own code: a country, a state, a district; empty is anywhere."""
    return models.CharField(_("place"), max_length=12, blank=True, validators=[place_code], **kwargs)  # type: ignore[arg-type]


class Item(Versioned):
    """One thing with a price of its own."""

    name = models.CharField(_("name"), max_length=80, unique=True, validators=[plain_label])
    kind = models.CharField(
        _("kind of item"), max_length=8,
        choices=[choice for choice in ItemKind.choices if choice[0] not in (ItemKind.SITTING, ItemKind.CHANGE)],
    )  # fmt: skip
    active = models.BooleanField(_("offered"), default=True)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name

    def price_on(self, day: object) -> Decimal | None:
        """What one costs on that day; None where no price was given yet."""
        dated = (prices.Dated(row.from_day, row.amount) for row in self.prices.all())
        return prices.price_on(dated, day)  # type: ignore[arg-type]


class ItemPrice(models.Model):
    """The price of an item from one day on; a season is two of them."""

    item = models.ForeignKey(Item, on_delete=models.CASCADE, related_name="prices")
    from_day = models.DateField(_("from"))
    amount = money(_("price"), validators=[MinValueValidator(0)])

    class Meta:
        ordering = ("from_day",)
        constraints = (models.UniqueConstraint(fields=("item", "from_day"), name="item_price_once_a_day"),)

    def __str__(self) -> str:
        return f"{self.item}, from {self.from_day:%Y-%m-%d}: {self.amount}"


class TaxRule(models.Model):
    """What a kind of item is taxed at in a place from one day on. The studio's own entry; the law comes first."""

    item_kind = models.CharField(_("what for"), max_length=8, choices=ItemKind.choices)
    place = place_field()
    from_day = models.DateField(_("from"))
    percent = percent(_("percent"))
    included = models.BooleanField(_("the price includes it"), default=True)
    words = models.CharField(_("name of the tax"), max_length=40, validators=[plain_label])

    class Meta:
        ordering = ("item_kind", "place", "from_day")
        constraints = (models.UniqueConstraint(fields=("item_kind", "place", "from_day"), name="tax_once_a_day"),)

    def __str__(self) -> str:
        return f"{self.item_kind} {self.place or 'anywhere'}, from {self.from_day:%Y-%m-%d}: {self.percent}"

    def as_rule(self) -> taxes.Rule:
        return taxes.Rule(self.item_kind, self.place, self.from_day, self.percent, self.included, self.words)
