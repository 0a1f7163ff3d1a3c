"""A backup of a house of 1,000, 10,000 and 100,000 sittings and its way back, into SQLite and into PostgreSQL: seconds
of a processor (the server's own too), megabytes, and what it takes of memory. Linear: ten times the rows take at most
1.5 times as long for each. Belongs here: measuring. Not here: filling a house (`tests.bench.desk`)."""

from __future__ import annotations

import os
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tests import postgres
from tests.bench import desk

SIZES = tuple(sorted({1_000, max(desk.MANY // 10, 1_000), desk.MANY}))
LINEAR, MOST_MB = 1.5, 64
HEAD = ("sittings", "rows", "MB", "backup s", "check s", "SQLite s", "PostgreSQL s", "memory MB")


def report() -> bool:
    """Print the table; true when it is linear, and memory stays where it was."""
    with desk.house_of("sqlite"), tempfile.TemporaryDirectory() as folder, _homes(Path(folder)) as homes:
        desk.open_house()
        rows = []
        print(*(f"{name:>13}" for name in HEAD))
        for size in SIZES:
            desk.fill(size)
            rows.append(_measured(size, Path(folder), homes))
            print(*(f"{v:>13,.1f}" if isinstance(v, float) else f"{v:>13,}" for v in rows[-1]), flush=True)
    before, after = rows[-2:]
    kept = all(_each(after, n) <= LINEAR * _each(before, n) for n in (3, 4, 5, 6)) and after[-1] <= MOST_MB
    print(f"limits: linear within {LINEAR} from {before[0]:,} on, memory {MOST_MB} MB: {'kept' if kept else 'BROKEN'}")
    return kept


def _each(row: tuple[Any, ...], n: int) -> float:
    return float(row[n]) / float(row[1])


@contextmanager
def _homes(folder: Path) -> Iterator[dict[str, Callable[[], None]]]:
    """Two databases beside the house, migrated, by what empties them."""
    from django.apps import apps
    from django.core.management import call_command
    from django.db import connections

    from studio.backup import tables
    from tests import homes

    def emptied(alias: str) -> Callable[[], None]:
        def empty() -> None:
            names = [f'"{table.model._meta.db_table}"' for table in tables.travelling(apps)]
            with connections[alias].cursor() as cursor:
                if connections[alias].vendor == "postgresql":
                    cursor.execute(f"TRUNCATE {', '.join(names)} CASCADE")
                    return
                cursor.execute("PRAGMA foreign_keys = OFF")
                for name in names:
                    cursor.execute(f"DELETE FROM {name}")
                cursor.execute("PRAGMA foreign_keys = ON")

        return empty

    with postgres.server() as at, homes.home("lite", folder / "lite.sqlite3"):
        os.environ.update({key: at[key] for key in ("PGHOST", "PGUSER")})
        connections.databases["moved"] = connections.databases["default"] | {
            "ENGINE": "django.db.backends.postgresql", "NAME": "postgres", "OPTIONS": {}, "CONN_MAX_AGE": 0,
        }  # fmt: skip
        for alias in ("lite", "moved"):
            call_command("migrate", database=alias, verbosity=0, skip_checks=True)
        yield {alias: emptied(alias) for alias in ("lite", "moved")}
        connections["moved"].close()


def _measured(size: int, folder: Path, empty: dict[str, Callable[[], None]]) -> tuple[Any, ...]:
    from studio.backup import checking, packing
    from tests import homes

    path = folder / f"{size}.zip"
    with homes.peak_of_memory() as more:
        began = _spent("lite")
        made = packing.write(path)
        spent = [_spent("lite") - began]
        began = _spent("lite")
        with checking.opened(path) as archive:
            checking.check(archive)
        spent.append(_spent("lite") - began)
        for alias, clear in empty.items():
            clear()
            began = _spent(alias)
            homes.put(path, alias)
            spent.append(_spent(alias) - began)
    return size, made.rows, made.size / 1e6, *spent, more.bytes / 1e6


def _spent(alias: str) -> float:
    """Seconds of a processor until now: ours, and those of the server that works for this connection."""
    from django.db import connections

    own = time.process_time()
    if connections[alias].vendor != "postgresql":
        return own
    with connections[alias].cursor() as cursor:
        cursor.execute("SELECT pg_backend_pid()")
        fields = Path(f"/proc/{cursor.fetchone()[0]}/stat").read_text().rpartition(") ")[2].split()
    return own + (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")
