"""What is used up. Belongs here: tape, gels, paper, batteries as a count with a mark below which more is bought. Not
here: pieces that come back (`kit`)."""

from __future__ import annotations

from typing import Self

from django.core.validators import MaxValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.kit import plain_label
from studio.models.staff import Member
from studio.models.versions import Versioned

MOST = 100_000


class ConsumableQuerySet(models.QuerySet["Consumable"]):
    def low(self) -> Self:
        """As few as the mark says, or fewer."""
        return self.filter(count__lte=models.F("low_mark"))


class Consumable(Versioned):
    """So many of something, counted in its own unit."""

    name = models.CharField(
        _("name"), max_length=120, unique=True, validators=[plain_label], help_text=_("Gaffer tape, black, 50 mm."),
        error_messages={"unique": _("That is counted already.")},
    )  # fmt: skip
    unit = models.CharField(
        _("counted in"), max_length=40, validators=[plain_label], help_text=_("Rolls, sheets, cells.")
    )
    count = models.PositiveIntegerField(_("how many are there"), default=0, validators=[MaxValueValidator(MOST)])
    low_mark = models.PositiveIntegerField(
        _("buy more at"), default=0, validators=[MaxValueValidator(MOST)],
        help_text=_("With so many or fewer it stands among what is to be seen to."),
    )  # fmt: skip
    case = models.CharField(_("case"), max_length=60, blank=True, validators=[plain_label])
    note = models.CharField(_("note"), max_length=400, blank=True)

    objects = ConsumableQuerySet.as_manager()

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        return self.name

    @property
    def is_low(self) -> bool:
        return self.count <= self.low_mark


class CountChange(models.Model):
    """Who counted something used up, when, from how many to how many; written once. It keeps the name it had, for what
    is counted no more."""

    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="counts_changed")
    consumable = models.ForeignKey(Consumable, on_delete=models.SET_NULL, null=True, related_name="changes")
    name = models.CharField(max_length=120)
    unit = models.CharField(max_length=40)
    before = models.PositiveIntegerField()
    after = models.PositiveIntegerField()

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("at",), name="count_change_by_time"),)

    def __str__(self) -> str:
        return f"{self.name}: {self.before} to {self.after}"
