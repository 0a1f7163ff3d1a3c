"""Kinds of sitting. Belongs here: the studio's own list with lengths, terms and the brief each begins with.
Not here: prices."""

from __future__ import annotations

from typing import Any

from django.core.validators import MaxValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.terms import Terms
from studio.models import KitItem
from studio.models.kit import plain_label
from studio.models.quantities import whole_number
from studio.models.versions import Versioned

PROMISED = ("included", "images", "retouching", "use", "who_sees", "arrive_minutes", "balance_days")
DELIVERY_DAYS = 20  # common practice, no source: four weeks of five days


class Intent(models.TextChoices):
    """What a picture is to say, as its sentence; the words of the brief."""

    SOFT = "soft", _("calm on lines")
    EVEN = "even", _("even and matching")
    NATURAL = "natural", _("gentle shape")
    BOLD = "bold", _("strong shape, deep shadow")
    CHARACTER = "character", _("every line shown")
    BRIGHT = "bright", _("light ground, low contrast")


class Framing(models.TextChoices):
    HEAD = "head", _("head")
    HEAD_AND_SHOULDERS = "head_and_shoulders", _("head and shoulders")
    HALF = "half", _("to the waist")
    THREE_QUARTER = "three_quarter", _("to the knees")
    FULL = "full", _("head to foot")
    GROUP = "group", _("a group")


class Tone(models.TextChoices):
    BLACK = "black", _("black")
    DARK = "dark", _("dark")
    MID = "mid", _("middle")
    LIGHT = "light", _("light")
    WHITE = "white", _("white")


class FaceView(models.TextChoices):
    FULL = "full", _("full face")
    SEVEN_EIGHTHS = "seven_eighths", _("seven eighths")
    THREE_QUARTER = "three_quarter", _("three quarters")
    PROFILE = "profile", _("profile")
    EITHER = "either", _("as the light likes it")


class Orientation(models.TextChoices):
    UPRIGHT = "upright", _("upright")
    HORIZONTAL = "horizontal", _("horizontal")
    EITHER = "either", _("either")


class AskBack(models.TextChoices):
    """Whether clients are asked back after a sitting of a kind."""

    OCCASION = "occasion", _("as the occasion comes round")
    YEARLY = "yearly", _("a year after the sitting")
    NEW_HIRES = "hires", _("every year, for those who are new in a company")
    NEVER = "never", _("never")


class Kind(Versioned):
    """One kind of sitting: how long it takes and how its brief begins."""

    name = models.CharField(_("name"), max_length=80, unique=True, validators=[plain_label])
    minutes = whole_number(_("the sitting, minutes"), low=5, high=1440)
    setup_minutes = whole_number(_("set-up before it, minutes"), low=0, high=600, default=30)
    strike_minutes = whole_number(_("strike after it, minutes"), low=0, high=600, default=15)
    intent = models.CharField(_("the picture says"), max_length=10, choices=Intent.choices, default=Intent.NATURAL)
    framing = models.CharField(_("framing"), max_length=20, choices=Framing.choices, default=Framing.HEAD_AND_SHOULDERS)
    background_tone = models.CharField(_("ground"), max_length=5, choices=Tone.choices, default=Tone.MID)
    view = models.CharField(_("view of the face"), max_length=15, choices=FaceView.choices, default=FaceView.EITHER)
    orientation = models.CharField(
        _("orientation"), max_length=10, choices=Orientation.choices, default=Orientation.EITHER
    )
    terms = models.ForeignKey(
        Terms, on_delete=models.PROTECT, related_name="kinds", null=True, blank=True, verbose_name=_("terms")
    )
    kit = models.ForeignKey(
        KitItem, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("always needs")
    )
    delivery_days = whole_number(
        _("delivered within, days of the studio"), low=1, high=250, default=DELIVERY_DAYS
    )
    ask_back = models.CharField(
        _("clients are asked back"), max_length=8, choices=AskBack.choices, default=AskBack.OCCASION
    )
    # What a confirmation promises, in the studio's own words; each sitting keeps its own copy.
    included = models.TextField(_("what is included"), max_length=1000, blank=True)
    images = models.PositiveSmallIntegerField(_("finished images"), null=True, blank=True)
    retouching = models.CharField(_("retouching"), max_length=200, blank=True)
    use = models.CharField(_("what the pictures may be used for"), max_length=400, blank=True)
    who_sees = models.CharField(_("who may see them"), max_length=400, blank=True)
    arrive_minutes = whole_number(_("arrive before it, minutes"), low=0, high=120, default=10)
    balance_days = models.PositiveSmallIntegerField(
        _("balance due, days before"), default=0, validators=[MaxValueValidator(365)]
    )
    remind_clothes = models.BooleanField(_("fourteen days before: clothes"), default=True)
    remind_coming = models.BooleanField(_("three days before: will you be there"), default=True)
    remind_tomorrow = models.BooleanField(_("the day before: the way, glasses, nap"), default=True)
    active = models.BooleanField(_("offered"), default=True)

    class Meta:
        ordering = ("name",)
        verbose_name = _("kind of sitting")

    def __str__(self) -> str:
        return self.name

    @property
    def promises(self) -> dict[str, Any]:
        """What a booking of today promises, to be copied into it."""
        return {name: getattr(self, name) for name in PROMISED}

    @property
    def reminders(self) -> set[str]:
        """The reminders that go before sittings of this kind, by the kind of letter."""
        return {kind for kind in ("clothes", "coming", "tomorrow") if getattr(self, f"remind_{kind}")}
