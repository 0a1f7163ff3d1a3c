"""Rows as they travel between two databases. Belongs here: which tables do, a row as plain JSON and back, and the
digest by which a table is the same here and there. Not here: the file they lie in.

A number is written as it is, a decimal as its digits, a day, time or moment in ISO 8601 (moments in UTC), bytes in
base64: nothing is rounded. What the two databases keep differently on purpose - the order of keys inside a JSON
value - is put in order before the digest is taken.
"""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from django.apps.registry import Apps
from django.db import connections
from django.db.models import Field, Model
from django.db.models.functions import Collate
from django.utils.duration import duration_iso_string

# Everything else travels, tables of later apps too.
LEFT_OUT = {
    "sessions.Session": "who is signed in signs in again",
    "contenttypes.ContentType": "made by `migrate`",
    "auth.Permission": "made by `migrate`",
    "auth.Group": "roles are members' own; nobody has groups",
    "auth.Group_permissions": "as groups",
    "auth.User_groups": "as groups",
    "auth.User_user_permissions": "as groups",
}
AT_ONCE = 400  # rows in memory; the largest rows are plans, of about 60 kB
Row = list[Any]


@dataclass(frozen=True)
class Table:
    """One table of one state of the schema. Its columns are in the order that was asked for, else in that of the
    alphabet: models of an earlier state name them in another order than today's."""

    model: type[Model]
    order: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """As it is called in a backup: the app and the model, in small letters."""
        return self.model._meta.label_lower

    @property
    def fields(self) -> list[Field[Any, Any]]:
        found = {f.attname: f for f in self.model._meta.local_concrete_fields if not getattr(f, "generated", False)}
        return [found[name] for name in self.order or sorted(found)]

    def in_order_of(self, columns: Sequence[str]) -> Table:
        """The same table as a backup has it. Raises KeyError where that has other columns."""
        if {*columns} != {*self.columns} or len(columns) != len(self.columns):
            raise KeyError(self.name)
        return Table(self.model, tuple(columns))

    @property
    def columns(self) -> list[str]:
        return [field.attname for field in self.fields]

    def rows(self, using: str) -> Iterator[Row]:
        """Every row, a few in memory at a time."""
        writers = [(n, write) for n, field in enumerate(self.fields) if (write := _writer(field))]
        for found in self._ordered(using).values_list(*self.columns).iterator(chunk_size=AT_ONCE):
            row = list(found)
            for n, write in writers:
                if row[n] is not None:
                    row[n] = write(row[n])
            yield row

    def _ordered(self, using: str) -> Any:
        """By key; a key of letters by their numbers, for each database has an order of its own."""
        key = self.model._meta.pk
        rows = self.model._base_manager.using(using)
        if key.get_internal_type() not in ("CharField", "SlugField"):
            return rows.order_by("pk")
        return rows.order_by(Collate("pk", "C" if connections[using].vendor == "postgresql" else "BINARY"))

    def values_of(self, using: str) -> Callable[[Row], Row]:
        """What turns a row back into the values this database is given."""
        connection = connections[using]
        readers = [(n, _reader(field, connection)) for n, field in enumerate(self.fields) if _writer(field)]

        def turned(row: Row) -> Row:
            for n, read in readers:
                if row[n] is not None:
                    row[n] = read(row[n])
            return row

        return turned


def travelling(apps: Apps) -> list[Table]:
    """Every table that goes into a backup. Ties between rows are looked at when all are there, so that their order is
    no matter: app by app, as they are written down."""
    models = apps.get_models(include_auto_created=True)
    return [Table(m) for m in models if m._meta.managed and not m._meta.proxy and m._meta.label not in LEFT_OUT]


def _writer(field: Field[Any, Any]) -> Callable[[Any], Any] | None:
    """What makes a value of a field plain; None where it is plain."""
    return {
        "DateTimeField": lambda value: value.astimezone(UTC).isoformat(),
        "DateField": lambda value: value.isoformat(),
        "TimeField": lambda value: value.isoformat(),
        "DurationField": duration_iso_string,
        "DecimalField": str,
        "UUIDField": str,
        "BinaryField": lambda value: base64.b64encode(bytes(value)).decode(),
        "JSONField": lambda value: value,
    }.get(_kind(field))


def _reader(field: Field[Any, Any], connection: Any) -> Callable[[Any], Any]:
    kind = _kind(field)
    if kind == "DateTimeField":  # as Django reads it, in a fraction of the time
        return lambda value: field.get_db_prep_save(datetime.fromisoformat(value), connection)
    return lambda value: field.get_db_prep_save(field.to_python(value), connection)


def _kind(field: Field[Any, Any]) -> str:
    """The kind of what stands in the column: a tie holds the key of the other row."""
    while field.remote_field:
        field = field.target_field
    return str(field.get_internal_type())


class Digest:
    """Counts rows and digests them."""

    def __init__(self, fields: Sequence[Field[Any, Any]]) -> None:
        self._sorted = any(_kind(field) == "JSONField" for field in fields)
        self._found = hashlib.sha256()
        self.rows = 0

    def take(self, row: Row) -> bytes:
        """Take one row in; gives the line it is written as."""
        line = _line(row)
        self._found.update(_evened(row) if self._sorted else line)
        self.rows += 1
        return line

    @property
    def said(self) -> dict[str, Any]:
        return {"rows": self.rows, "sha256": self._found.hexdigest()}


_NO_SIGN = re.compile(rb"(?<=[\[,:])-0\.0(?=[,\]}])")


def _evened(row: Row) -> bytes:
    """A row with JSON in it, written alike whichever database it comes from: PostgreSQL keeps keys in an order of its
    own, has no zero below zero, and writes a huge number out."""
    line = _line(row, sort_keys=True)
    if b"e+" in line:
        line = _line(_written_out(row), sort_keys=True)
    return _NO_SIGN.sub(b"0.0", line)


def _written_out(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _written_out(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_written_out(one) for one in value]
    return int(value) if isinstance(value, float) and abs(value) >= 1e16 and value.is_integer() else value


def _line(row: Row, **how: Any) -> bytes:
    return json.dumps(row, ensure_ascii=False, separators=(",", ":"), **how).encode() + b"\n"


def told(apps: Apps, using: str) -> dict[str, dict[str, Any]]:
    """How many rows each table has and their digest: two studios that say the same here hold the same."""
    return {table.name: said_of(table, using) for table in travelling(apps)}


def said_of(table: Table, using: str) -> dict[str, Any]:
    digest = Digest(table.fields)
    for row in table.rows(using):
        digest.take(row)
    return digest.said
