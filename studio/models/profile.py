"""The studio itself. Belongs here: what is true of the whole house and set once. Not here: settings of one
machine."""

from __future__ import annotations

import zoneinfo

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models.kit import plain_label
from studio.models.quantities import Units
from studio.models.versions import Versioned


def known_zone(name: str) -> None:
    try:
        zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        raise ValidationError(_("%(name)s is no known time zone."), params={"name": name}) from None


class Profile(Versioned):
    """The one row about the house."""

    class Paper(models.TextChoices):
        A4 = "a4", _("A4")
        LETTER = "letter", _("Letter")

    class RatioConvention(models.TextChoices):
        TOTAL = "total", _("on the face: key and fill together against fill alone")
        SOURCE = "source", _("at the lights: key alone against fill alone")

    studio_name = models.CharField(_("name of the studio"), max_length=120, default="Tenthstop")
    # On letters and bills: how the house is reached, and the number it is taxed under where there is one.
    address = models.TextField(_("address"), max_length=400, blank=True)
    way_in = models.TextField(_("the way in"), max_length=400, blank=True)
    telephone = models.CharField(_("telephone"), max_length=40, blank=True, validators=[plain_label])
    email = models.EmailField(_("e-mail"), blank=True)
    tax_number = models.CharField(_("tax number"), max_length=40, blank=True, validators=[plain_label])
    time_zone = models.CharField(_("time zone"), max_length=64, default="UTC", validators=[known_zone])
    # As `studio.languages` knows it; empty: the one sentences are written in.
    language = models.CharField(_("language"), max_length=16, blank=True)
    units = models.CharField(_("units"), max_length=8, choices=Units.choices, default=Units.METRIC)
    paper = models.CharField(_("paper"), max_length=6, choices=Paper.choices, default=Paper.A4)
    currency = models.CharField(_("currency"), max_length=3, default="GBP")
    keep_notes_days = models.PositiveSmallIntegerField(
        _("comfort notes are kept, days after delivery"), default=90, validators=[MaxValueValidator(3650)]
    )  # proposed; common practice, no source
    keep_small_pictures = models.BooleanField(_("keep a small picture of each frame"), default=True)
    owners_second_step = models.BooleanField(
        _("owners need a second step to sign in"),
        default=False,
        help_text=_("A code from their telephone after the password. Set up your own first, under your name."),
    )
    ratio_convention = models.CharField(
        _("ratios are given"), max_length=6, choices=RatioConvention.choices, default=RatioConvention.TOTAL
    )

    class Meta:
        verbose_name = _("studio")

    def __str__(self) -> str:
        return self.studio_name

    @classmethod
    def get(cls) -> Profile:
        """The row as it is kept; the defaults, not yet kept, on a new machine. Reading never writes."""
        return cls.objects.filter(pk=1).first() or cls(pk=1)

    @property
    def zone(self) -> zoneinfo.ZoneInfo:
        return zoneinfo.ZoneInfo(self.time_zone)
