"""CSV for other programs. Belongs here: one way to write rows so that no cell is taken for a formula, in the separator
and with the mark a spreadsheet wants. Pure: no framework."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal

BYTE_ORDER_MARK = "\ufeff"
SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r")


class _Echo:
    """Gives back what is written to it."""

    def write(self, text: str) -> str:
        return text


def cell(value: object) -> object:
    """A number as it is; a text that a spreadsheet would reckon with gets an apostrophe before it (OWASP's advice)."""
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, str) and value.startswith(_STARTS_A_FORMULA):
        return f"'{value}"
    return value


def lines(
    head: Sequence[str], rows: Iterable[Sequence[object]], separator: str = ",", *, mark: bool = False
) -> Iterator[str]:
    """The file line by line, its head first; `mark` puts a byte-order mark before it."""
    writer = csv.writer(_Echo(), delimiter=separator)
    first = writer.writerow(head)
    yield BYTE_ORDER_MARK + first if mark else first
    for row in rows:
        yield writer.writerow([cell(value) for value in row])
