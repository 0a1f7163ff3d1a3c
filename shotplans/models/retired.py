"""Corrections that somebody took out of use. Belongs here: from when on a pair's, or a head's, earlier readings say
nothing any more. Not here: the corrections themselves, which are fitted from readings each time they are asked for."""

from __future__ import annotations

from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from studio.models import Member


class RetiredQuerySet(models.QuerySet["Retired"]):
    def in_force(self) -> Self:
        """Those nobody took back."""
        return self.filter(taken_back_at=None)


class Retired(models.Model):
    """One retirement: readings of the pair up to then do not count; without a modifier, all of the head's. Rows stay,
    taken back or not, so that they are their own history."""

    head = models.CharField(_("head"), max_length=60, db_index=True)
    modifier = models.CharField(_("modifier"), max_length=60, blank=True)
    why = models.CharField(_("why"), max_length=200)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    taken_back_at = models.DateTimeField(_("taken back at"), null=True, editable=False)
    taken_back_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+", null=True, editable=False)

    objects = RetiredQuerySet.as_manager()

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return f"{self.head} {self.modifier}".strip()
