"""The kit as a table. Belongs here: its columns, a piece as a row and a row as the values of a piece. Not here: reading
the file (`studio.csv_in`), bringing it in (`actions.kit_lists`)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext as _

from studio.forms.kit import KEEPING, own_fields
from studio.models import KIT, KitItem
from studio.models.quantities import plain

OF_ALL = ("label", "state", *KEEPING, "note")
YES, NO = ("yes", "y", "true", "1"), ("no", "n", "false", "0")
_GUARDED = ("'=", "'+", "'-", "'@")  # what `csv_out` writes so that a spreadsheet does not reckon


@cache
def columns() -> tuple[str, ...]:
    """Section and code first; what kinds share by name has one column."""
    own = (name for kind in KIT.values() for name in own_fields(kind))
    return tuple(dict.fromkeys(("section", "code", *OF_ALL, *own)))


@cache
def of_kind(section: str) -> dict[str, models.Field[Any, Any]]:
    """The columns a section fills in, each with its field."""
    names = dict.fromkeys((*OF_ALL, *own_fields(KIT[section])))
    return {name: KIT[section]._meta.get_field(name) for name in names}  # type: ignore[misc]


def known_headings() -> dict[str, str]:
    """Our own headings, with a few words that say the same."""
    said = {"name": "label", "serial number": "serial", "mass (kg)": "mass_kg", "kg": "mass_kg"}
    return {name: name for name in columns()} | said


def cells(row: KitItem) -> list[object]:
    """A piece in the order of the columns."""
    fields = of_kind(row.section)
    given: dict[str, object] = {"section": row.section, "code": row.code}
    given |= {name: _written(getattr(row, name)) for name in fields}
    return [given.get(name, "") for name in columns()]


def everything() -> Iterator[list[object]]:
    """Every piece, section by section."""
    for kind in KIT.values():
        for row in kind.objects.order_by("code").iterator(chunk_size=500):
            yield cells(row)


def values(section: str, given: Mapping[str, str]) -> dict[str, Any]:
    """The values of a row by field, of those columns the file has.

    Raises `ValidationError` with every fault by column, also where a cell says what this section has not.
    """
    fields, found, wrong = of_kind(section), {}, {}
    for name, text in given.items():
        if name in ("section", "code"):
            continue
        text = text[1:] if text.startswith(_GUARDED) else text
        try:
            if name in fields:
                found[name] = _read(fields[name], text)
            elif text:
                raise ValidationError(_("Nothing of this section has that: leave it empty."))
        except ValidationError as error:
            wrong[name] = error.messages
    if wrong:
        raise ValidationError(wrong)
    return found


def words(value: Any) -> str:
    """A value as a change is told."""
    return str(_written(value)) or "-"


def _written(value: Any) -> str:
    if isinstance(value, bool):
        return YES[0] if value else NO[0]
    if isinstance(value, float):
        return plain(value)
    return value.isoformat() if isinstance(value, date) else str("" if value is None else value)


def _read(field: models.Field[Any, Any], text: str) -> Any:
    if not text:
        return field.get_default() if not field.null else None
    if isinstance(field, models.BooleanField):
        if text.casefold() in YES + NO:
            return text.casefold() in YES
        raise ValidationError(_("Say yes or no."))
    if isinstance(field, models.FloatField):
        try:
            number = float(text.replace(",", "."))
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            raise ValidationError(_("“%(text)s” is no number.") % {"text": text[:40]})
        return number
    return field.to_python(text)
