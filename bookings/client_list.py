"""A list of clients as another program wrote it, as CSV. Belongs here: the columns it may have, and its rows as people.
Pure: no database, no framework. Not here: reading the file (`studio.csv_in`), what a client must be told, who is known
already (`actions.client_lists`)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from studio import csv_in
from studio.csv_in import SEPARATORS, Head, Row, Shape, Unreadable

FIELDS = ("name", "first_name", "last_name", "email", "phone", "note")
NAMES = {"name", "last_name"}  # without one of them nobody is named
HEADINGS: Mapping[str, tuple[str, ...]] = {
    "name": ("name", "client", "full name", "client name", "company", "company name"),
    "first_name": ("first name", "firstname", "given name", "forename"),
    "last_name": ("last name", "lastname", "surname", "family name"),
    "email": ("e-mail", "email", "mail", "e-mail address", "email address"),
    "phone": ("telephone", "phone", "tel", "mobile", "phone number", "telephone number"),
    "note": ("note", "notes", "remark", "remarks", "comment"),
}


def head(path: Path, mapping: Mapping[str, str] | None = None) -> Head:
    """How the file begins; `mapping` says of headings we do not know which field they are."""
    known = {way: field for field, ways in HEADINGS.items() for way in ways}
    return csv_in.head(path, known | {heading.casefold(): field for heading, field in (mapping or {}).items()})


def shape(path: Path, mapping: Mapping[str, str] | None = None) -> Shape:
    """What the file is, by its headings alone."""
    found = head(path, mapping)
    columns = csv_in.shape(found)
    if not columns.columns.keys() & NAMES:
        raise Unreadable(
            f"No column of the first line is a name: {', '.join(f'“{one}”' for one in found.headings[:12])}"
            f" (read with the {SEPARATORS[found.separator]} as separator). Say which it is: --column HEADING=name."
        )
    return columns


def rows(path: Path, shape: Shape) -> Iterator[Row]:
    """Every row after the headings, a name in one piece."""
    for row in csv_in.rows(path, shape):
        values = dict(row.values)
        whole = " ".join(part for part in (values.pop("first_name", ""), values.pop("last_name", "")) if part)
        values["name"] = values.get("name") or whole
        yield replace(row, values=values)
