"""Kit that holds, weighs down, backs or seats. Belongs here: stands, weights, backgrounds, seats and risers
with the numbers a plan asks for, under the brief's own names. Not here: sums of loads."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.kit import KitItem
from studio.models.quantities import length, mass, share

OPEN: dict[str, Any] = {"null": True, "blank": True}  # may be left empty: not known


class Stand(KitItem):
    """A stand, or a boom with its column."""

    SECTION = KitItem.Section.STANDS
    PLANNED = ("mass_kg",)

    class Kind(models.TextChoices):
        STAND = "stand", _("stand")
        BOOM = "boom", _("boom with its column")

    kind = models.CharField(_("kind"), max_length=5, choices=Kind.choices, default=Kind.STAND)
    max_height_m = length(_("highest"), help_text=_("Floor to spigot."))
    min_height_m = length(_("lowest"), low=0, help_text=_("Floor to spigot."))
    max_load_kg = mass(_("carries up to"))
    reach_m = length(_("boom reaches"), low=0, help_text=_("Level, from the column."), **OPEN)
    footprint_m = length(_("legs across"), low=0, **OPEN)
    counterweight_kg = mass(_("counterweight"), **OPEN)
    arm_kg = mass(_("mass of a boom's arm alone"), **OPEN)

    def clean(self) -> None:
        super().clean()
        if None not in (self.min_height_m, self.max_height_m) and self.min_height_m > self.max_height_m:
            raise ValidationError({"min_height_m": _("The lowest height lies above the highest.")})


class Weight(KitItem):
    """A sandbag or the like."""

    SECTION = KitItem.Section.WEIGHTS
    PLANNED = ("mass_kg",)

    @property
    def kg(self) -> float | None:
        """Its mass, under the brief's own name."""
        return self.mass_kg

    @kg.setter
    def kg(self, value: float | None) -> None:
        self.mass_kg = value


class Background(KitItem):
    """What stands behind the sitter."""

    SECTION = KitItem.Section.BACKGROUNDS

    class Kind(models.TextChoices):
        PAPER = "paper", _("paper")
        CLOTH = "cloth", _("cloth")
        CANVAS = "canvas", _("canvas")
        WALL = "wall", _("wall")

    kind = models.CharField(_("kind"), max_length=6, choices=Kind.choices, blank=True)
    width_m = length(_("width"))
    height_m = length(_("height"), **OPEN)
    reflectance = share(_("reflects"), help_text=_("White paper about 0.85, mid grey 0.2, black cloth 0.03."))


class Rest(models.Model):
    """What a person sits or stands on; numbers that chairs and steps share."""

    height_m = length(_("height"), low=0, **OPEN)
    arms = models.BooleanField(_("arms to push up from"), **OPEN)
    back = models.BooleanField(_("back"), **OPEN)
    rating_kg = mass(_("carries up to"), **OPEN)

    class Meta:
        abstract = True


class Seat(Rest, KitItem):  # noqa: DJ008  (named like all kit)
    """A chair or stool."""

    SECTION = KitItem.Section.SEATS


class Riser(Rest, KitItem):  # noqa: DJ008  (named like all kit)
    """A step or box that lifts a row."""

    SECTION = KitItem.Section.RISERS
