"""Entries made on a device. Belongs here: what came in, from whom, by both clocks, and what became of it, so that the
same entry sent twice is one entry. Not here: what it wrote (that stands in its own row), taking it in
(`studio.entries`)."""

from __future__ import annotations

import uuid

from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.staff import Member


class Entry(models.Model):
    """One form sent from a device, which gave it its id; never changed after it was taken in."""

    class Outcome(models.TextChoices):
        KEPT = "kept", _("kept")
        REFUSED = "refused", _("refused")

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    member = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    path = models.CharField(max_length=200)
    base_version = models.PositiveBigIntegerField(null=True)  # what the page had seen, where it says so
    device_at = models.DateTimeField()  # made, by the device's clock
    device_sent_at = models.DateTimeField()  # sent, by the same clock
    received_at = models.DateTimeField(db_index=True)  # by the house's
    made_at = models.DateTimeField()  # made, by the house's clock
    outcome = models.CharField(max_length=7, choices=Outcome.choices)
    says = models.TextField(blank=True)
    answer = models.JSONField(null=True)

    class Meta:
        ordering = ("received_at",)

    def __str__(self) -> str:
        return f"{self.path}: {self.outcome}"
