"""Numbers in templates, each with its unit. Belongs here: how a number is written on a page."""

from __future__ import annotations

from django import template
from django.utils.translation import gettext as _

from studio.models.quantities import plain

register = template.Library()


@register.filter
def quantity(value: float | None, unit: str) -> str:
    """The shortest way to write the number, and its unit behind it; nothing for what is not known."""
    return "" if value is None else f"{plain(value)} {unit}"


@register.filter
def metres(value: float | None) -> str:
    return quantity(value, _("m"))
