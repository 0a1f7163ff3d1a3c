"""A house built once a run and put back as a file: what many files of tests begin with costs each of them a copy.

Belongs here: keeping a built house for every process of the run. Not here: building one. Only for SQLite, whose
database is one file; on PostgreSQL each file of tests builds its own and takes it back.
"""

from __future__ import annotations

import os
import pickle
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any, TypeVar

from django.db import connection, transaction

from tests import planned_once

Said = TypeVar("Said")


@contextmanager
def house(name: str, build: Callable[[], Said]) -> Iterator[Said]:
    """What `build` puts into the empty database, as long as it lasts; yields what building it said."""
    kept = planned_once.beside(f"{name}.sqlite3") if connection.vendor == "sqlite" else None
    if kept is None or connection.in_atomic_block:
        with transaction.atomic():
            yield build()
            transaction.set_rollback(True)
        return
    connection.ensure_connection()
    own = connection.connection
    with closing(sqlite3.connect(":memory:")) as empty:
        own.backup(empty)
        try:
            if not kept.exists():
                _keep(kept, build, own)
            else:
                with closing(sqlite3.connect(kept)) as built:
                    built.backup(own)
            yield pickle.loads(kept.with_suffix(".said").read_bytes())
        finally:
            empty.backup(own)


def _keep(kept: Path, build: Callable[[], Any], own: sqlite3.Connection) -> None:
    """Two processes may both be the first: each writes beside, and the last to end is kept."""
    with transaction.atomic():
        said = build()
        connection.run_on_commit.clear()  # as when all of it was taken back: nothing is sent of a house of tests
    _put(kept.with_suffix(".said"), lambda path: path.write_bytes(pickle.dumps(said)))
    _put(kept, lambda path: _copy(own, path))


def _put(path: Path, write: Callable[[Path], object]) -> None:
    unfinished = path.with_name(f"{path.name}.{os.getpid()}")
    write(unfinished)
    unfinished.replace(path)


def _copy(own: sqlite3.Connection, path: Path) -> None:
    with closing(sqlite3.connect(path)) as file:
        own.backup(file)
        file.execute("PRAGMA journal_mode=DELETE")  # one file, without a log beside it that stays behind
