"""What was really done: readings beside their targets, what was changed, all of it against one frozen plan."""

from __future__ import annotations

from decimal import Decimal

from django.db import models
from django.utils.translation import gettext_lazy as _

from shotplans.models.plans import Plan
from shotplans.records.as_shot import said
from studio.models import Member
from studio.models.versions import Versioned


class Record(Versioned):
    """The record of one plan, open from the first reading until it is signed."""

    plan = models.OneToOneField(Plan, on_delete=models.PROTECT, related_name="record")
    opened_at = models.DateTimeField(_("opened at"))
    closed_at = models.DateTimeField(_("signed at"), null=True, blank=True)
    closed_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)

    def __str__(self) -> str:
        return f"record of {self.plan}"


class Reading(models.Model):
    """One step of a meter round as read; typing it again replaces nothing, the newest counts: by when it was
    made, since one may come in late."""

    class Cause(models.TextChoices):
        """What was found amiss on the set and put right: such a reading says nothing of the lamp."""

        CLOTH = "cloth", _("a cloth or grid")
        DISTANCE = "distance", _("the distance")
        DIAL = "dial", _("the dial or the channel")
        OTHERS = "others", _("another light or a panel")
        METER = "meter", _("the meter: its place, dome or settings")

    record = models.ForeignKey(Record, on_delete=models.CASCADE, related_name="readings")
    setup_name = models.CharField(_("set-up"), max_length=200)
    step = models.PositiveSmallIntegerField(_("step"))
    stops = models.DecimalField(_("reading, stops from f/1"), max_digits=4, decimal_places=1)
    as_typed = models.CharField(_("as typed"), max_length=40)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    # Of one light read alone: the pair as the kit calls it, its target to a hundredth, the correction in that target.
    head = models.CharField(_("head"), max_length=60, blank=True, db_index=True)
    modifier = models.CharField(_("modifier"), max_length=60, blank=True)
    expected = models.DecimalField(_("target, stops from f/1"), max_digits=5, decimal_places=2, null=True)
    corrected = models.DecimalField(_("correction in the target"), max_digits=4, decimal_places=2, default=0)
    cause = models.CharField(_("what was amiss"), max_length=20, choices=Cause.choices, blank=True)
    cause_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True)
    # The newest reading of its step that its page showed, 0 for none; and when it came in if it waited for the network.
    seen = models.PositiveBigIntegerField(null=True, editable=False)
    came_in_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ("record", "setup_name", "step", "-at", "-pk")

    def __str__(self) -> str:
        return f"{self.setup_name}, step {self.step}: {self.as_typed}"

    @property
    def amount(self) -> Decimal:
        return Decimal(self.stops).quantize(Decimal("0.1"))


class CameraSet(models.Model):
    """What the camera was set to for a set-up; the newest counts."""

    record = models.ForeignKey(Record, on_delete=models.CASCADE, related_name="camera_sets")
    setup_name = models.CharField(_("set-up"), max_length=200)
    f_number = models.FloatField(_("aperture"))
    shutter_s = models.FloatField(_("shutter"))
    iso = models.PositiveIntegerField(_("ISO"))
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("record", "setup_name", "-pk")

    def __str__(self) -> str:
        return f"{self.setup_name}: f/{self.f_number:g}, ISO {self.iso}"


class Change(models.Model):
    """One thing built or set otherwise than planned."""

    MOVES = ("power", "distance", "height", "bearing", "modifier")  # of a light: its targets no longer hold

    record = models.ForeignKey(Record, on_delete=models.CASCADE, related_name="changes")
    setup_name = models.CharField(_("set-up"), max_length=200)
    about = models.CharField(_("light"), max_length=20)
    what = models.CharField(_("what"), max_length=40)
    planned = models.CharField(_("planned"), max_length=80)
    actual = models.CharField(_("done"), max_length=80)
    why = models.CharField(_("why"), max_length=200, blank=True)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("record", "setup_name", "about", "pk")

    def __str__(self) -> str:
        return f"{self.setup_name}, {self.about}: {self.what}"

    @property
    def words(self) -> str:
        """Of what, and what."""
        return f"{said(self.about)}, {said(self.what)}"
