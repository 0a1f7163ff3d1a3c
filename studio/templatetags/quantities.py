"""Numbers in templates, each with its unit. Belongs here: how a number is written on a page."""

from __future__ import annotations

from django import template
from django.utils.translation import gettext as _

from studio import lengths
from studio.models.quantities import exactly, plain

register = template.Library()
register.filter(exactly)


@register.filter
def quantity(value: float | None, unit: str) -> str:
    """The shortest way to write the number, and its unit behind it; nothing for what is not known."""
    return "" if value is None else f"{plain(value)} {unit}"


@register.filter
def length_in(value: float | None, units: str) -> str:
    """A length as the house measures; nothing for what is not known."""
    if value is None or units != "imperial":
        return quantity(value, _("m"))
    return lengths.shown(value, units)
