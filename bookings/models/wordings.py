"""Wordings of letters. Belongs here: what the owner made of a letter's first wording, every version of it kept. Not
here: the first wordings (`bookings.first_wordings`), filling their blanks (`bookings.blanks`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.letters import LetterKind
from studio.models import Member


class Wording(models.Model):
    """One version of the wording of a kind of letter; written once, the highest number is in force."""

    kind = models.CharField(max_length=16, choices=LetterKind.choices)
    number = models.PositiveIntegerField()
    subject = models.CharField(_("subject"), max_length=200)
    body = models.TextField(_("letter"), max_length=10_000)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="wordings")

    class Meta:
        ordering = ("kind", "-number")
        constraints = (models.UniqueConstraint(fields=("kind", "number"), name="wording_version_once"),)

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, version {self.number}"
