"""What went out, what came back and how. Belongs here: taps on a packing list, written once and never changed (the
newest counts, by when it was made), and what is to be seen to because of one. Not here: which things are on a list (the
plans say so), the state of a piece (`studio.models.kit`)."""

from __future__ import annotations

from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models import KitItem, Member

MOST_ITEM = 240


class PackingTap(models.Model):
    """One tap: of one day's list, about one thing. A new version of a plan leaves it standing where the thing is the
    same."""

    class What(models.TextChoices):
        OUT = "out", _("out")
        BACK = "back", _("back")
        UNDONE = "undone", _("not yet")
        PACKED = "packed", _("packed")

    class Condition(models.TextChoices):
        WHOLE = "whole", _("whole")
        CHARGE = "charge", _("needs charging")
        CLEAN = "clean", _("needs cleaning")
        REPAIR = "repair", _("needs repair")
        MISSING = "missing", _("missing")

    day = models.DateField(_("day"))
    where = models.CharField(_("list"), max_length=12, blank=True)  # a sitting's number away from the studio
    item = models.CharField(_("thing"), max_length=MOST_ITEM, blank=True)
    what = models.CharField(_("what"), max_length=6, choices=What.choices)
    condition = models.CharField(_("condition"), max_length=8, choices=Condition.choices, blank=True)
    instead = models.CharField(_("taken in its place"), max_length=60, blank=True)
    note = models.CharField(_("note"), max_length=200, blank=True)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("day", "where"), name="packing_by_day"),)

    def __str__(self) -> str:
        return f"{self.day}: {self.item or 'all'} {self.what}"


AWAY = (PackingTap.Condition.REPAIR, PackingTap.Condition.MISSING)


class ToSeeToQuerySet(models.QuerySet["ToSeeTo"]):
    def still_open(self) -> Self:
        """What nobody has seen to. A piece that was put right on its own page is seen to."""
        ready = models.Q(piece__state=KitItem.State.READY, condition__in=AWAY)
        return self.filter(done_at=None).exclude(ready)

    def beside_kit(self) -> Self:
        """Those that no piece in repair or lost says already, where the kit's own list has them."""
        return self.exclude(piece__isnull=False, condition__in=AWAY)


class ToSeeTo(models.Model):
    """What came back not whole, or not at all: the owner's to see to."""

    tap = models.OneToOneField(PackingTap, on_delete=models.PROTECT, related_name="to_see_to")
    item = models.CharField(_("thing"), max_length=MOST_ITEM)
    piece = models.ForeignKey(KitItem, on_delete=models.CASCADE, related_name="+", null=True)
    condition = models.CharField(_("condition"), max_length=8, choices=PackingTap.Condition.choices)
    done_at = models.DateTimeField(_("seen to at"), null=True)
    done_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True)

    objects = ToSeeToQuerySet.as_manager()

    class Meta:
        ordering = ("tap__at", "pk")

    def __str__(self) -> str:
        return f"{self.item}: {self.condition}"
