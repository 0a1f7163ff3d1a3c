"""Sitters. Belongs here: who is in front of the camera and how they belong together. Not here: what is known of
their looks and health (`comfort`)."""

from __future__ import annotations

from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.folding import words_line
from bookings.models.found_by import FoundBy
from bookings.models.sittings import Sitting
from studio.models.kit import plain_label
from studio.models.quantities import Quantity

MOST_IN_A_SITTING = 60  # what one plan can place


class Posture(models.TextChoices):
    STANDING = "standing", _("standing")
    SEATED = "seated", _("seated")
    WHEELCHAIR = "wheelchair", _("in a wheelchair")
    FLOOR = "floor", _("on the floor")
    LAP = "lap", _("on a lap")


class SitterQuerySet(models.QuerySet["Sitter"]):
    def with_what_is_known(self) -> Self:
        """Whether there are comfort notes or wishes, as `has_notes`; never what they say."""
        known = [
            models.Exists(self.model._meta.get_field(name).related_model.objects.filter(sitter=models.OuterRef("pk")))
            for name in ("notes", "wishes")
        ]
        return self.annotate(has_notes=known[0] | known[1])


class Sitter(models.Model):
    """One person in front of the camera."""

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="sitters")
    position = models.PositiveSmallIntegerField(default=0)
    label = models.CharField(
        _("short name"), max_length=60, validators=[plain_label], help_text=_("As said on set; once in a sitting.")
    )
    age_years = Quantity(_("age"), unit=_("years"), low=0, high=130, null=True, blank=True)
    height_cm = Quantity(_("height"), unit=_("cm"), low=20, high=300, null=True, blank=True)
    posture = models.CharField(_("posture"), max_length=10, choices=Posture.choices, blank=True)
    household = models.CharField(
        _("household"), max_length=60, blank=True, help_text=_("One word for all who belong together.")
    )
    relation = models.CharField(_("relation"), max_length=60, blank=True, help_text=_("Grandmother, son, director."))
    central = models.BooleanField(_("belongs in the middle"), default=False)
    keep_with = models.CharField(
        _("keep beside"), max_length=60, blank=True, help_text=_("The short name of somebody in this sitting.")
    )

    found_by = FoundBy()

    objects = SitterQuerySet.as_manager()

    class Meta:
        ordering = ("position", "pk")
        constraints = (models.UniqueConstraint(fields=("sitting", "label"), name="sitter_label_once_in_a_sitting"),)

    def __str__(self) -> str:
        return self.label

    def searched(self) -> str:
        return words_line(self.label)
