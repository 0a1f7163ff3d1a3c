"""The text a row is found by. Belongs here: the column, filled anew whenever its row is written, and the lookup that
asks which rows have all of some parts in it, by an index on both databases. Not here: how texts are folded
(`bookings.folding`), the index itself (`bookings.found_index`)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import models

# The last so many rows that fit are looked at: more letters say which. Without an end, a name that half a town bears
# would cost as much as reading the whole table.
CANDIDATES = 200


class FoundBy(models.TextField):  # type: ignore[type-arg]
    """What the row's own `searched()` says, worked out anew whenever the row is written."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **(kwargs | {"editable": False, "default": ""}))

    def deconstruct(self) -> tuple[str, str, list[Any], dict[str, Any]]:
        """Plain text to migrations: what is in it is no matter of the table."""
        name, _path, args, kwargs = super().deconstruct()
        return name, "django.db.models.TextField", list(args), kwargs

    def pre_save(self, model_instance: Any, add: bool) -> str:
        line: str = model_instance.searched() if hasattr(model_instance, "searched") else ""
        setattr(model_instance, self.attname, line)
        return line


@FoundBy.register_lookup
class Has(models.Lookup):  # type: ignore[type-arg]
    """`found_by__has=[...]`: the last rows that have every one of these parts, each of three letters or more."""

    lookup_name = "has"
    prepare_rhs = False

    def as_sql(self, compiler: Any, connection: Any) -> tuple[str, Sequence[Any]]:
        parts: Sequence[str] = self.rhs
        table = self.lhs.target.model._meta.db_table
        alias = compiler.quote_name_unless_alias(self.lhs.alias)
        if not parts or any(len(part) < 3 for part in parts):
            return "1 = 0", ()
        if connection.vendor == "sqlite":
            found = f'SELECT rowid FROM "{table}_found" WHERE "{table}_found" MATCH %s ORDER BY rowid DESC'
            values = [" AND ".join('"{}"'.format(part.replace('"', '""')) for part in parts)]
        else:
            fits = " AND ".join(["found_by LIKE %s"] * len(parts))
            found = f'SELECT id FROM "{table}" WHERE {fits} ORDER BY id DESC'
            values = [f"%{_as_it_stands(part)}%" for part in parts]
        return f'{alias}."id" IN ({found} LIMIT {CANDIDATES})', values


def _as_it_stands(part: str) -> str:
    return part.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_")
