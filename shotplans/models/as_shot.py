"""The set as it was really built, and pictures of it. Belongs here: the copy of the plan with what was done otherwise,
and which picture files are kept. Not here: the pictures themselves, which lie in the data folder."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from shotplans.models.records import Record
from studio.models import Member
from studio.models.versions import Versioned


class Built(Versioned):
    """One set-up as shot: copied from the plan with one press, then changed where it differs. A set-up that failed is
    kept, with why."""

    record = models.ForeignKey(Record, on_delete=models.CASCADE, related_name="built")
    setup_name = models.CharField(_("set-up"), max_length=200)
    data = models.JSONField(_("as shot"))
    failed = models.BooleanField(_("did not work"), default=False)
    why_failed = models.CharField(_("why it did not work"), max_length=300, blank=True)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("record", "setup_name")
        constraints = (models.UniqueConstraint(fields=("record", "setup_name"), name="a_set_up_is_built_once"),)

    def __str__(self) -> str:
        return f"{self.setup_name}, as shot"


class SetPhoto(models.Model):
    """One picture of the set, made anew from what the phone sent: nothing of the file but the picture is kept."""

    record = models.ForeignKey(Record, on_delete=models.CASCADE, related_name="photos")
    setup_name = models.CharField(_("set-up"), max_length=200)
    file_name = models.CharField(max_length=40, unique=True)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("record", "setup_name", "pk")

    def __str__(self) -> str:
        return f"{self.setup_name}: {self.file_name}"
