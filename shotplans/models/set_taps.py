"""What is ticked on the set around a sitting. Belongs here: taps of the hazard walk and of the strike list, written
once and never changed (the newest counts, by when it was made); and buffers of a kind set by what those taps told. Not
here: what is ticked (`sheets.walk`, `sheets.strike`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models import Kind
from shotplans.models.plans import Plan
from studio.models import Member


class SetTap(models.Model):
    """One tap about one set-up of one plan: a new version of the plan is walked anew, since something may stand
    otherwise."""

    class On(models.TextChoices):
        WALK = "walk", _("hazard walk")
        STRIKE = "strike", _("strike")
        SHOTS = "shots", _("pictures taken")

    BEGUN, SITTERS_IN, STRUCK = "begun", "sitters-in", "struck"

    plan = models.ForeignKey(Plan, on_delete=models.PROTECT, related_name="set_taps")
    setup_name = models.CharField(_("set-up"), max_length=200)
    on = models.CharField(_("list"), max_length=6, choices=On.choices)
    code = models.CharField(_("what"), max_length=40)
    done = models.BooleanField(_("done"), default=True)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("at", "pk")
        indexes = (models.Index(fields=("plan", "on"), name="set_tap_by_plan"),)

    def __str__(self) -> str:
        return f"{self.setup_name}: {self.code}"


class BufferChange(models.Model):
    """A suggested set-up or strike time that was taken for a kind of sitting; written once."""

    kind = models.ForeignKey(Kind, on_delete=models.CASCADE, related_name="+")
    what = models.CharField(_("what"), max_length=16)  # the field of the kind
    before = models.PositiveSmallIntegerField(_("before"))
    after = models.PositiveSmallIntegerField(_("after"))
    sittings = models.PositiveSmallIntegerField(_("learned from sittings"))
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.kind}: {self.what} from {self.before} to {self.after}"
