"""What was really done: readings beside their targets, what was changed, all of it against one frozen plan."""

from __future__ import annotations

from decimal import Decimal

from django.db import models
from django.utils.translation import gettext_lazy as _

from shotplans.models.plans import Plan
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
    """One step of a meter round as read; typing it again replaces nothing, the newest counts."""

    record = models.ForeignKey(Record, on_delete=models.CASCADE, related_name="readings")
    setup_name = models.CharField(_("set-up"), max_length=200)
    step = models.PositiveSmallIntegerField(_("step"))
    stops = models.DecimalField(_("reading, stops from f/1"), max_digits=4, decimal_places=1)
    as_typed = models.CharField(_("as typed"), max_length=40)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("record", "setup_name", "step", "-pk")

    def __str__(self) -> str:
        return f"{self.setup_name}, step {self.step}: {self.as_typed}"

    @property
    def amount(self) -> Decimal:
        return Decimal(self.stops).quantize(Decimal("0.1"))


class Change(models.Model):
    """One thing built or set otherwise than planned."""

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
