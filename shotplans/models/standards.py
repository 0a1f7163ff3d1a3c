"""Company standards. Belongs here: a client's locked look as the planner's `standard`, its tolerance, and the history
of both. Not here: what a plan makes of it."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.models import Client
from studio.models import Member
from studio.models.versions import Versioned

# What a standard says, by the planner's names, in the order of its page.
STANDARD_WORDS = {
    "key_modifier": _("Key modifier"), "lens_mm": _("Focal length, mm"), "camera_m": _("Camera distance, m"),
    "camera_above_eyes_m": _("Camera above eyes, m"), "head_share": _("Head in the frame's height, share"),
    "key_m": _("Key distance, m"), "key_bearing_deg": _("Key bearing, degrees"),
    "key_height_deg": _("Key height angle, degrees"), "fill_below_key_stops": _("Fill below key, stops"),
    "background_lightness": _("Ground, L*"), "kelvin": _("Colour temperature, K"),
    "tolerance_stops": _("Tolerance of key and setting reading, stops"),
}  # fmt: skip


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


class StandardEdit(models.Model):
    """Who set which value of a company's standard from what to what, or locked or opened it, and why. An empty value
    is an open one."""

    client = models.ForeignKey(Client, on_delete=models.PROTECT, related_name="standard_edits")
    name = models.CharField(_("what"), max_length=30)
    value_from = models.CharField(_("from"), max_length=80, blank=True)
    value_to = models.CharField(_("to"), max_length=80, blank=True)
    locked_from = models.BooleanField(_("was locked"), default=False)
    locked_to = models.BooleanField(_("is locked"), default=False)
    why = models.CharField(_("why"), max_length=200, blank=True)
    at = models.DateTimeField(_("at"))
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("-at", "-pk")

    def __str__(self) -> str:
        return f"{self.words}: {self.before} to {self.after}"

    @property
    def words(self) -> str:
        return str(STANDARD_WORDS.get(self.name, self.name))

    @property
    def before(self) -> str:
        return standard_said(self.value_from, locked=self.locked_from)

    @property
    def after(self) -> str:
        return standard_said(self.value_to, locked=self.locked_to)


def standard_said(value: str, *, locked: bool) -> str:
    """A value of a standard as its history reads."""
    if not value:
        return str(_("open"))
    return f"{value}, {_('locked')}" if locked else value
