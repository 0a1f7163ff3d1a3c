"""Rows as words to read. Belongs here: a row's fields as label and value with its unit. Not here: pages."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from django.db import models
from django.utils.formats import date_format
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from studio.forms.kit import kept_fields, own_fields
from studio.models import KitItem
from studio.models.quantities import Quantity


class Fact(NamedTuple):
    label: str
    value: str  # empty: not known


def facts(piece: KitItem, units: str) -> list[Fact]:
    """What a plan asks of one piece, in the order of its model."""
    return _read(piece, own_fields(type(piece)), units)


def kept(piece: KitItem, units: str) -> list[Fact]:
    """What else is kept of it."""
    return _read(piece, kept_fields(type(piece)), units)


def _read(piece: KitItem, names: list[str], units: str) -> list[Fact]:
    found = []
    for name in names:
        field = piece._meta.get_field(name)
        assert isinstance(field, models.Field)
        found.append(Fact(capfirst(str(field.verbose_name)), _words(piece, field, units)))
    return found


def _words(row: models.Model, field: models.Field, units: str) -> str:  # type: ignore[type-arg]
    value = getattr(row, field.name)
    if isinstance(field, Quantity):
        return field.words(value, units)
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, date):
        return date_format(value, "j F Y")
    if field.choices:
        return str(dict(field.flatchoices).get(value, value) or "")
    return str(value or "")
