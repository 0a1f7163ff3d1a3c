"""A table as another program wrote it, as CSV. Belongs here: which letters, separator and columns it has, and its rows
one after the other, however many. Pure: no database, no framework. Not here: which columns are wanted and what a row
means (each list's own)."""

from __future__ import annotations

import codecs
import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from studio.tongue import gettext as _
from studio.tongue import noop

SEPARATORS = {",": noop("comma"), ";": noop("semicolon"), "\t": noop("tab"), "|": noop("upright line")}
_MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))
_AT_ONCE = 1 << 16
_LONGEST_FIELD = 20_000  # a quote that is never closed would swallow the rest of the file


class Unreadable(Exception):
    """Not a list of what was asked for; `str()` says why."""


@dataclass(frozen=True)
class Shape:
    """How a file is written: its letters, what parts its columns, and which column is which field (by number)."""

    letters: str
    separator: str
    columns: Mapping[str, int]
    left_out: tuple[str, ...]


@dataclass(frozen=True)
class Row:
    """One row as written, trimmed; `line` is the line of the file it ends on. `broken` where it has fewer or more
    columns than the headings."""

    line: int
    values: Mapping[str, str]
    broken: tuple[int, int] | None = None


@dataclass(frozen=True)
class Head:
    """How a file begins: its letters, what parts its columns, its headings, an example of each where its first row
    has one, and which field each is by our guess (by number)."""

    letters: str
    separator: str
    headings: tuple[str, ...]
    examples: tuple[str, ...]
    guess: Mapping[int, str]

    def shape(self, fields: Mapping[int, str]) -> Shape:
        """As it is to be read when each column is that field."""
        left_out = tuple(one for number, one in enumerate(self.headings) if not fields.get(number))
        return Shape(self.letters, self.separator, {field: n for n, field in fields.items() if field}, left_out)


def head(path: Path, known: Mapping[str, str]) -> Head:
    """How the file begins; `known` says which headings, in lower case, are which field."""
    letters = _letters(path)
    with path.open(encoding=letters, newline="") as file:
        first, second = file.readline(_LONGEST_FIELD), file.readline(_LONGEST_FIELD)
    if not first.strip():
        raise Unreadable(_("The file is empty: its first line should name its columns."))
    separator = max(SEPARATORS, key=first.count)
    headings, examples = (
        tuple(cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])) for line in (first, second)
    )
    guess = {n: known[heading.casefold()] for n, heading in enumerate(headings) if heading.casefold() in known}
    return Head(letters, separator, headings, examples, guess)


def shape(found: Head) -> Shape:
    """What the file is, by its headings alone."""
    columns: dict[str, int] = {}
    for number, field in found.guess.items():
        if field in columns:
            first, second = found.headings[columns[field]], found.headings[number]
            said = _("Two columns are “{field}”: “{first}” and “{second}”. Name one of them.")
            raise Unreadable(said.format(field=field, first=first, second=second))
        columns[field] = number
    return found.shape(found.guess)


def rows(path: Path, shape: Shape) -> Iterator[Row]:
    """Every row after the headings, read as it is asked for; empty lines are passed over."""
    before = csv.field_size_limit(_LONGEST_FIELD)
    try:
        with path.open(encoding=shape.letters, newline="") as file:
            reader = csv.reader(file, delimiter=shape.separator)
            wanted = len(next(reader))
            for cells in reader:
                if any(cell.strip() for cell in cells):
                    yield _row(reader.line_num, cells, wanted, shape)
    except csv.Error as error:
        raise Unreadable(
            _("Line {line}: a quote is opened and never closed, or a field is too long.").format(line=reader.line_num)
        ) from error
    finally:
        csv.field_size_limit(before)


def _row(line: int, cells: list[str], wanted: int, shape: Shape) -> Row:
    values = {field: cells[number].strip() for field, number in shape.columns.items() if number < len(cells)}
    return Row(line, values, None if len(cells) == wanted else (len(cells), wanted))


def _letters(path: Path) -> str:
    """By its mark, else UTF-8 where all of it is, else the letters of Western desks. Unreadable where the rest is not
    in the letters that its beginning says."""
    with path.open("rb") as file:
        head = file.read(4)
        said = next((name for mark, name in _MARKS if head.startswith(mark)), "")
        if not said and b"\x00" in head:
            said = "utf-16-le" if head[1:2] == b"\x00" else "utf-16-be"
        if said and not _is_all(file, said):
            raise Unreadable(_("The file is damaged: some of its letters cannot be read. Save it afresh as CSV."))
        if said:
            return said
        return next((name for name in ("utf-8", "cp1252") if _is_all(file, name)), "latin-1")


def _is_all(file: object, name: str) -> bool:
    file.seek(0)  # type: ignore[attr-defined]
    decoder = codecs.getincrementaldecoder(name)()
    try:
        while part := file.read(_AT_ONCE):  # type: ignore[attr-defined]
            decoder.decode(part)
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        return False
    return True
