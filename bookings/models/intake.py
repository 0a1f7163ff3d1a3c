"""Intake. Belongs here: the questions that were sent to a client with a sitting, the answers in the client's own words,
and the wording of the release. Answers are comfort notes: no history, no draft and no line in any log. Not here: which
questions there are (`bookings.intake_questions`), what the plan reads (`comfort`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.sitters import Sitter
from bookings.models.sittings import Sitting
from studio.models import Member

FIRST_WORDING = _(
    "I allow the studio to photograph me, or the child I answer for, and to make, keep and deliver the pictures that "
    "were agreed for this sitting. The studio shows them to nobody else unless I said yes to that in a question of its "
    "own. Any of my answers can be taken back at any time; what was printed or delivered before stays as it is."
)


class Intake(models.Model):
    """What was asked for one sitting. A new secret makes every earlier link a dead one."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="intake")
    secret = models.CharField(max_length=32)
    questions_version = models.PositiveSmallIntegerField()
    questions = models.JSONField(default=dict)  # code: as it was asked
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    opened_at = models.DateTimeField(null=True, blank=True)
    answered_at = models.DateTimeField(null=True, blank=True)
    entered_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, blank=True)
    entered_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return "intake"


class IntakeAnswer(models.Model):
    """What one sitter said to one question; no sitter where it is about the sitting. `apart` where the studio had noted
    something else, which then stands."""

    intake = models.ForeignKey(Intake, on_delete=models.CASCADE, related_name="answers")
    sitter = models.ForeignKey(Sitter, on_delete=models.CASCADE, related_name="answers", null=True, blank=True)
    question = models.CharField(max_length=30)
    value = models.CharField(max_length=20, blank=True)
    words = models.CharField(max_length=400, blank=True)
    at = models.DateTimeField()
    apart = models.BooleanField(default=False)

    class Meta:
        ordering = ("pk",)
        constraints = (
            models.UniqueConstraint(fields=("intake", "sitter", "question"), name="answer_once_a_sitter"),
            models.UniqueConstraint(
                fields=("intake", "question"), condition=models.Q(sitter=None), name="answer_once_a_sitting"
            ),
        )

    def __str__(self) -> str:
        return "answer"  # never what it says


class ReleaseWording(models.Model):
    """The words of the release from a moment on; a later version never changes what was signed."""

    version = models.PositiveIntegerField(unique=True)
    words = models.TextField(_("words of the release"), max_length=4000)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("-version",)

    def __str__(self) -> str:
        return f"version {self.version}"


def wording_in_force() -> tuple[int, str]:
    """The version and its words; 0 is the house's first wording, which nobody has changed yet."""
    row = ReleaseWording.objects.first()
    return (row.version, row.words) if row else (0, str(FIRST_WORDING))
