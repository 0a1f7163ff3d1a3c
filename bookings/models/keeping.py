"""What is kept of people, and for how long. Belongs here: who read comfort notes or tried to, whose were blanked and
why, and which clients were erased. A row here never says what was read."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sitters import Sitter
from bookings.models.sittings import Sitting
from studio.models import Member


class NoteReading(models.Model):
    """Somebody read the comfort notes of a sitting, or was refused."""

    class Where(models.TextChoices):
        NOTES = "notes", _("the notes themselves")
        PLAN = "plan", _("the plan's reasons")
        BRIEF = "brief", _("the brief")
        INTAKE = "intake", _("the answers before the sitting")
        EXPORT = "export", _("the client's data in one file")

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="note_readings")
    sitter = models.ForeignKey(Sitter, on_delete=models.SET_NULL, related_name="note_readings", null=True, blank=True)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="note_readings")
    at = models.DateTimeField(db_index=True)
    where = models.CharField(max_length=6, choices=Where.choices)
    refused = models.BooleanField(default=False)

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return "refused" if self.refused else "read"


class NotesPurged(models.Model):
    """The comfort notes of one sitter are gone, in plans too; `by` is nobody where it was the day for it."""

    class Why(models.TextChoices):
        DAY = "day", _("their day had come")
        NOT_WANTED = "no", _("they are not to be kept")
        ERASED = "erased", _("the client was erased")

    sitting = models.ForeignKey(Sitting, on_delete=models.PROTECT, related_name="purges")
    sitter = models.ForeignKey(Sitter, on_delete=models.SET_NULL, related_name="purges", null=True, blank=True)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)
    why = models.CharField(max_length=6, choices=Why.choices)

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return f"purged: {self.why}"


class Erasure(models.Model):
    """A client erased on request: how much, never what. The accounts stay, under the number."""

    client = models.OneToOneField("bookings.Client", on_delete=models.PROTECT, related_name="erasure")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    asked_by = models.CharField(_("who asked for it, and how"), max_length=200)
    counts = models.JSONField(default=dict)

    class Meta:
        ordering = ("-at",)

    def __str__(self) -> str:
        return f"erasure of {erased_name(self.client_id)}"


def client_number(key: int) -> str:
    """What a client is called where no name may stand."""
    return f"K-{key}"


def erased_name(key: int) -> str:
    """What stands where a name was."""
    return f"erased {client_number(key)}"
