"""History of what a person may dispute. Belongs here: rows that are written once and never changed."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sittings import Sitting, Stage
from studio.models import Member


class StageChange(models.Model):
    """Who moved a sitting from which stage to which, and when. `stage_from` is empty for the booking itself."""

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="stage_changes")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="stage_changes")
    stage_from = models.CharField(max_length=12, choices=Stage.choices, blank=True)
    stage_to = models.CharField(max_length=12, choices=Stage.choices)
    note = models.CharField(_("note"), max_length=400, blank=True)

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.stage_from or '-'} to {self.stage_to}"
