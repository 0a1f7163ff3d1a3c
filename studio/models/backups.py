"""Backups that were made. Belongs here: one row for each, written by the command once the file is whole. Not here: what
is in it (`studio.backup`)."""

from __future__ import annotations

from datetime import datetime
from typing import Self

from django.db import models


class BackupQuerySet(models.QuerySet["Backup"]):
    def kept(self) -> Self:
        """Those we did not delete ourselves; somebody may have moved them."""
        return self.filter(deleted_at__isnull=True)

    def with_days_before(self, moment: datetime) -> Self:
        """Those kept that hold what was known before that moment, the oldest first."""
        return self.kept().filter(at__lt=moment).order_by("at")


class Backup(models.Model):
    """One file as it was when it was whole. `at` is when it was begun: it holds nothing later."""

    at = models.DateTimeField(db_index=True)
    seconds = models.FloatField()
    path = models.TextField()
    size = models.PositiveBigIntegerField()
    sha256 = models.CharField(max_length=64)
    rows = models.PositiveBigIntegerField()
    files = models.PositiveIntegerField()
    sealed = models.BooleanField()
    keep_nights = models.PositiveIntegerField(null=True, blank=True)
    deleted_at = models.DateTimeField(null=True, blank=True)

    objects = BackupQuerySet.as_manager()

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return self.path
