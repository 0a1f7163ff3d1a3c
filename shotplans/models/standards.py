"""Company standards. Belongs here: a client's locked look as the planner's `standard`, and its tolerance. Not here:
what a plan makes of it."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models import Client
from studio.models import Member
from studio.models.versions import Versioned


class CompanyStandard(Versioned):
    """The look all portraits of a company share. Values are by the planner's names; those under `locked` are kept by
    every plan, or a reason is given."""

    client = models.OneToOneField(Client, on_delete=models.CASCADE, related_name="standard")
    values = models.JSONField(_("values"), default=dict)
    locked = models.JSONField(_("locked"), default=list)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    def __str__(self) -> str:
        return f"standard of {self.client}"

    @property
    def tree(self) -> dict[str, Any]:
        """As it stands in a brief."""
        return self.values | {"locked": [name for name in self.locked if name in self.values]}

    @property
    def locked_values(self) -> dict[str, Any]:
        return {name: self.values[name] for name in self.locked if name in self.values}
