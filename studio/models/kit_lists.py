"""Lists of kit that were sent in. Belongs here: a list until it is confirmed, and what came of it. Not here: reading
it (`studio.csv_in`), bringing it in (`actions.kit_lists`)."""

from __future__ import annotations

from django.db import models

from studio.models.staff import Member


class KitList(models.Model):
    """A list as it came. Who brought it in and when stays; what it says goes as soon as it was brought in, and with
    the whole row where nobody confirms it within a day."""

    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="kit_lists")
    at = models.DateTimeField()
    file_name = models.CharField(max_length=120)
    content = models.BinaryField(blank=True)
    brought_in_at = models.DateTimeField(null=True, blank=True)
    added = models.PositiveIntegerField(default=0)
    changed = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return self.file_name
