"""The brief of a sitting: what the picture must say and do. Belongs here: the row; not here: its words or its notes on
people, which stay in the notes' own table until a plan is made."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models import Sitting
from studio.models import Member
from studio.models.versions import Versioned


class Brief(Versioned):
    """The brief as the photographer confirmed it: the `brief` object of the planner's input."""

    sitting = models.OneToOneField(Sitting, on_delete=models.CASCADE, related_name="brief")
    data = models.JSONField(_("brief"))
    confirmed_at = models.DateTimeField(_("confirmed at"))
    confirmed_by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")
    again_of = models.ForeignKey(
        "shotplans.Plan", on_delete=models.SET_NULL, related_name="+", null=True, editable=False
    )  # the plan of last time it asks for once more

    def __str__(self) -> str:
        return f"brief of {self.sitting.number}"
