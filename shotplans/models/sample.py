"""The sample of a new studio. Belongs here: which sitting and which kit are of it, so that all of it can go again and
nothing else of the house is planned with it. Not here: making it or taking it away (`actions.sample`)."""

from __future__ import annotations

from django.db import models
from django.db.models import Exists, Q
from django.utils.translation import gettext_lazy as _

from bookings.models import Sitting
from studio.models import KitItem, Member


class Sample(models.Model):
    """The one sample of the house: its row is always number 1. Client, kind and room are the sitting's."""

    sitting = models.OneToOneField(Sitting, on_delete=models.PROTECT, related_name="sample")
    kit = models.ManyToManyField(KitItem, related_name="samples")
    made_at = models.DateTimeField(_("made at"))
    made_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        return f"sample, {self.sitting_id}"

    @classmethod
    def get(cls) -> Sample | None:
        return cls.objects.select_related("sitting__client", "sitting__room").filter(pk=1).first()


def kit_for(sitting: Sitting) -> Q:
    """What of the kit a sitting may be planned with: the sample its own pieces, anybody else all others."""
    of_sample = Exists(Sample.objects.filter(sitting=sitting))
    return Q(samples__sitting=sitting) | (Q(samples=None) & ~Q(of_sample))
