"""Holds. Belongs here: until when a time is kept for a sitting that is not confirmed, and its place in the queue. Not
here: what is held (`claims`), and what happens when a hold lapses (`actions.holds`)."""

from __future__ import annotations

from datetime import datetime

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sittings import Sitting
from studio.models import Member


class HoldQuerySet(models.QuerySet["Hold"]):
    def lapsed(self, now: datetime) -> HoldQuerySet:
        return self.filter(expires_at__lte=now)

    def in_order(self) -> HoldQuerySet:
        return self.order_by("place", "placed_at", "pk")


class Hold(models.Model):
    """The hold of a sitting in the stage held, and of no other. Place 1 has claims; a later place waits `behind`
    another sitting and has none."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="hold")
    place = models.PositiveSmallIntegerField(_("place"), default=1)
    behind = models.ForeignKey(
        Sitting, on_delete=models.PROTECT, related_name="holds_behind", null=True, blank=True, verbose_name=_("behind")
    )
    expires_at = models.DateTimeField(_("lapses"))
    placed_at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="holds")
    note = models.CharField(_("note"), max_length=400, blank=True)
    to_offer = models.BooleanField(default=False)  # moved up on its own: the client is still to be told

    objects = HoldQuerySet.as_manager()

    class Meta:
        ordering = ("expires_at", "pk")
        indexes = (models.Index(fields=("expires_at",), name="hold_by_expiry"),)
        constraints = (
            models.CheckConstraint(
                condition=models.Q(place=1, behind__isnull=True) | models.Q(place__gt=1, behind__isnull=False),
                name="hold_waits_behind_somebody",
            ),
        )

    def __str__(self) -> str:
        return f"place {self.place} until {self.expires_at:%Y-%m-%d %H:%M}"

    @property
    def waits(self) -> bool:
        return self.place > 1
