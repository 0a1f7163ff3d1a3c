"""Clients. Belongs here: who books and pays, and the line they are found by. Not here: finding them
(`bookings.find`), who sits (`sitters`)."""

from __future__ import annotations

from typing import Any

from django.db import models
from django.utils.translation import gettext_lazy as _

from bookings.folding import searched
from studio.models.kit import plain_label
from studio.models.versions import Versioned


class FoundBy(models.TextField):  # type: ignore[type-arg]
    """Name, e-mail and telephone as they are looked for: worked out anew whenever the row is written."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **(kwargs | {"editable": False, "default": ""}))

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        """Plain text to migrations: what is in it is no matter of the table."""
        name, _path, args, kwargs = super().deconstruct()
        return name, "django.db.models.TextField", list(args), kwargs

    def pre_save(self, model_instance: Any, add: bool) -> str:
        line = searched(model_instance.name, model_instance.email, model_instance.phone)
        setattr(model_instance, self.attname, line)
        return line


class Client(Versioned):
    """A person, a couple, a family or a company."""

    name = models.CharField(_("name"), max_length=120, validators=[plain_label])
    is_company = models.BooleanField(_("a company"), default=False)
    email = models.EmailField(_("e-mail"), blank=True)
    phone = models.CharField(_("telephone"), max_length=40, blank=True)
    note = models.TextField(_("note"), max_length=2000, blank=True, help_text=_("Nothing about health or looks here."))
    not_again = models.BooleanField(_("do not invite again"), default=False)
    # No index: a part of a word is looked for, which none of the databases' usual ones helps with, and fifty thousand
    # lines are read through in a few hundredths of a second.
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
