"""Beams from a laboratory's files. Belongs here: which head with which modifier has one, from when to when. Not here:
reading the file (`records.lm63`), reckoning with it (`light.photometry`)."""

from __future__ import annotations

from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models import Member


class MeasuredBeamQuerySet(models.QuerySet["MeasuredBeam"]):
    def in_force(self) -> Self:
        """Those nobody took out of use and no later file took the place of."""
        return self.filter(ended_at=None)


class MeasuredBeam(models.Model):
    """A beam as measured, of a pair named by its codes; rows stay when they end, so that they are their own history."""

    head = models.CharField(_("head"), max_length=60)
    modifier = models.CharField(_("modifier"), max_length=60)
    file_name = models.CharField(max_length=120)
    shares = models.JSONField()  # of the intensity on the axis, at 0, 1, ... 90 degrees
    flux_lm = models.FloatField()
    width_deg = models.FloatField()
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True, editable=False)
    ended_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, editable=False)

    objects = MeasuredBeamQuerySet.as_manager()

    class Meta:
        ordering = ("-at", "-pk")
        constraints = (
            models.UniqueConstraint(
                fields=("head", "modifier"), condition=models.Q(ended_at=None), name="one_measured_beam_a_pair"
            ),
        )

    def __str__(self) -> str:
        return f"{self.head} {self.modifier}: {self.file_name}"
