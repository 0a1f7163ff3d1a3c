"""What a client's own calendar and answers know of a sitting. Belongs here: the invitation as it was last sent, answers
to reminders, and the secret addresses of calendars. Not here: their text (`bookings.invitations`, `bookings.feed`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sittings import Sitting
from studio.models import Member


class Invitation(models.Model):
    """One invitation for each sitting: the same `uid` for good, a higher `sequence` whenever it says something else."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="invitation")
    uid = models.CharField(max_length=100, unique=True)
    sequence = models.PositiveIntegerField(default=0)
    said = models.CharField(max_length=64)  # a digest of what it says
    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.uid}, {self.sequence}"


class Answer(models.Model):
    """What a client answered to "will you be there": by the link in a letter, or noted by the desk."""

    class What(models.TextChoices):
        COMING = "coming", _("will be there")
        NOT_THEN = "not_then", _("cannot come then")

    sitting = models.ForeignKey(Sitting, on_delete=models.CASCADE, related_name="answers")
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="answers", null=True, blank=True)
    what = models.CharField(_("answer"), max_length=8, choices=What.choices)
    note = models.CharField(_("in their words"), max_length=400, blank=True)

    class Meta:
        ordering = ("at", "pk")

    def __str__(self) -> str:
        return f"{self.what}"


class CalendarAddress(models.Model):
    """The secret address of somebody's calendar; only its digest is kept, so it is shown once."""

    member = models.OneToOneField(Member, on_delete=models.CASCADE, related_name="calendar_address")
    digest = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"made {self.made_at:%Y-%m-%d}"
