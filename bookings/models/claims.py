"""Claims: what a sitting holds, and when. Belongs here: one row for each thing held. The database refuses a second
claim on the same thing at the same time (`bookings.overlap`)."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings import slots
from bookings.models.sittings import Sitting
from bookings.overlap import LONGEST_DAYS


class ResourceKind(models.TextChoices):
    ROOM = "room", _("room")
    MEMBER = "member", _("person")
    KIT = "kit", _("piece of kit")


class ClaimQuerySet(models.QuerySet["Claim"]):
    def on(self, kind: str, ids: Iterable[int]) -> Self:
        return self.filter(resource_kind=kind, resource_id__in=list(ids))

    def during(self, starts_at: datetime, ends_at: datetime) -> Self:
        """Claims that share any time with that span."""
        earliest = starts_at - timedelta(days=LONGEST_DAYS)  # else the index is read from its beginning
        return self.filter(starts_at__lt=ends_at, ends_at__gt=starts_at, starts_at__gte=earliest)


class Claim(models.Model):
    """One thing held by one sitting for one span. `resource_id` is the key of a room, a member or a piece of kit."""

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="claims")
    resource_kind = models.CharField(max_length=6, choices=ResourceKind.choices)
    resource_id = models.BigIntegerField()
    starts_at = models.DateTimeField()
    ends_at = models.DateTimeField()

    objects = ClaimQuerySet.as_manager()

    class Meta:
        ordering = ("starts_at", "pk")
        indexes = (
            models.Index(fields=("resource_kind", "resource_id", "starts_at"), name="claim_by_resource"),
            models.Index(fields=("starts_at", "ends_at"), name="claim_by_time"),
        )
        constraints = (
            models.CheckConstraint(
                condition=models.Q(ends_at__gt=models.F("starts_at")), name="claim_ends_after_start"
            ),
        )

    def __str__(self) -> str:
        return f"{self.resource_kind} {self.resource_id}, {self.starts_at:%Y-%m-%d %H:%M} to {self.ends_at:%H:%M}"

    @property
    def span(self) -> slots.Span:
        return slots.Span(self.starts_at, self.ends_at)
