"""Clients. Belongs here: who books and pays, and the text they are found by. Not here: finding them
(`bookings.find`), who sits (`sitters`)."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.folding import searched
from bookings.models.found_by import FoundBy
from studio.models.kit import plain_label
from studio.models.versions import Versioned


class Client(Versioned):
    """A person, a couple, a family or a company."""

    name = models.CharField(_("name"), max_length=120, validators=[plain_label])
    is_company = models.BooleanField(_("a company"), default=False)
    email = models.EmailField(_("e-mail"), blank=True)
    phone = models.CharField(_("telephone"), max_length=40, blank=True)
    tax_exempt = models.CharField(
        _("exemption from tax, number"), max_length=40, blank=True, validators=[plain_label]
    )
    note = models.TextField(_("note"), max_length=2000, blank=True, help_text=_("Nothing about health or looks here."))
    not_again = models.BooleanField(_("do not invite again"), default=False)
    found_by = FoundBy()

    class Meta:
        ordering = ("name", "pk")

    def __str__(self) -> str:
        return self.name

    @property
    def short_name(self) -> str:
        """As it is said in the house: a company in full, anybody else by the last word of the name that is a name."""
        if self.is_company:
            return self.name
        return next((word for word in reversed(self.name.split()) if word[0].isupper()), self.name)

    def searched(self) -> str:
        return searched(self.name, self.email, self.phone)
