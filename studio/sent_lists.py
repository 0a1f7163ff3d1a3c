"""Lists that were sent in as files, of whatever they are. Belongs here: keeping one until it is confirmed, reading it
as a file, telling its faults, and why one is not brought in. Not here: reading its rows (`csv_in`), what a row does
(each list's own actions)."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from studio import clock
from studio.csv_in import Row
from studio.models import Member

SHOWN = 50  # lines that are kept to be read out
KEPT_FOR = timedelta(days=1)  # a list nobody confirms; it may be full of names


class AlreadyBroughtIn(Exception):
    """A list is brought in once."""

    def __str__(self) -> str:
        return _("This list was brought in already: nothing was brought in a second time.")


class FaultsLeft(Exception):
    """Some lines are wrong, and nobody said to leave them out; `outcome` tells them."""

    def __init__(self, outcome: Any) -> None:
        self.outcome = outcome
        super().__init__(_("Some lines are wrong: mend them in the file, or say that the others are to be brought in."))


@dataclass
class Faults:
    """Rows read, and what is wrong with some of them."""

    rows: int = 0
    faulty: int = 0
    faults: list[str] = field(default_factory=list)

    def fault(self, line: int, sentence: str) -> None:
        self.faulty += 1
        tell(self.faults, line, sentence)

    def broken(self, row: Row) -> bool:
        """Whether a row has not as many columns as the headings; told if so."""
        if row.broken:
            words = {"has": row.broken[0], "wanted": row.broken[1]}
            self.fault(row.line, _("%(has)d columns, and the headings are %(wanted)d.") % words)
        return bool(row.broken)


def tell(lines: list[str], line: int, sentence: str) -> None:
    """One more line about a row, as long as they are read."""
    if len(lines) < SHOWN:
        lines.append(_("line %(line)d: %(sentence)s") % {"line": line, "sentence": sentence})


@transaction.atomic
def send_in(model: Any, *, by: Member, file_name: str, content: bytes) -> Any:
    """Keep a list until it is confirmed; nothing of it is written yet."""
    now = clock.now()
    model.objects.filter(brought_in_at=None, at__lt=now - KEPT_FOR).delete()
    return model.objects.create(by=by, at=now, file_name=file_name[-120:], content=content)


@contextmanager
def as_file(content: bytes) -> Iterator[Path]:
    """The list where it can be read more than once, line by line."""
    with tempfile.NamedTemporaryFile(suffix=".csv") as file:
        file.write(content)
        file.flush()
        yield Path(file.name)
