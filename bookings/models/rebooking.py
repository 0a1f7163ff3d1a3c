"""Asking clients back. Belongs here: whom the studio has asked back for which year. Not here: who is due
(`bookings.rebooking`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models.clients import Client
from studio.models import Member


class AskedBack(models.Model):
    """The one answer to a prompt for one client and year: invited, or left for that year."""

    class What(models.TextChoices):
        INVITED = "invited", _("invited")
        LEFT = "left", _("not this year")

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="asked_back")
    year = models.PositiveSmallIntegerField()
    what = models.CharField(max_length=8, choices=What.choices)
    at = models.DateTimeField()
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="asked_back")

    class Meta:
        ordering = ("year", "pk")
        constraints = (models.UniqueConstraint(fields=("client", "year"), name="asked_back_once_a_year"),)

    def __str__(self) -> str:
        return f"{self.year}: {self.what}"
