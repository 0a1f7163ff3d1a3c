"""A database made ready once and put back before each round. Belongs here: keeping it as it is, bringing it back, and
killing a process of PostgreSQL. Not here: what is written to it (`writers`) and what must be in it (`kills`)."""

from __future__ import annotations

import os
import shutil
import signal
import time
from contextlib import suppress
from pathlib import Path
from typing import Any

from django.db import OperationalError, connection, connections

PATIENCE_S = 60
WHO = "SELECT pid FROM pg_stat_activity WHERE datname = %s AND pid <> pg_backend_pid()"


def create() -> None:
    """The database of the settings; SQLite makes its file itself."""
    if connection.vendor == "postgresql":
        _beside(f'CREATE DATABASE "{_name()}"')


def keep() -> None:
    """Keep it as it is now."""
    if connection.vendor == "postgresql":
        connections.close_all()
        _beside(f'CREATE DATABASE "{_name()}_kept" TEMPLATE "{_name()}"')
        return
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    connections.close_all()
    shutil.copyfile(_name(), f"{_name()}.kept")


def bring_back() -> None:
    """As it was kept; whatever a server that was killed left is gone."""
    connections.close_all()
    if connection.vendor == "postgresql":
        _beside(f'DROP DATABASE IF EXISTS "{_name()}" WITH (FORCE)')
        _beside(f'CREATE DATABASE "{_name()}" TEMPLATE "{_name()}_kept"')
        return
    for end in ("-wal", "-shm"):
        Path(f"{_name()}{end}").unlink(missing_ok=True)
    shutil.copyfile(f"{_name()}.kept", _name())


def kill_one() -> None:
    """One process of PostgreSQL that serves the house, at once: it then ends the others and mends itself from its
    log."""
    for (pid,) in _beside(WHO)[:1]:
        with suppress(ProcessLookupError):
            os.kill(pid, signal.SIGKILL)


def settle() -> None:
    """Wait until it answers and nobody else is in it: what a killed server had begun is done or undone by then."""
    if connection.vendor != "postgresql":
        return
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        with suppress(OperationalError):
            if not _beside(WHO):
                return
        time.sleep(0.05)
    raise TimeoutError("the database did not come to rest")


def _name() -> str:
    return str(connections.settings["default"]["NAME"])


def _beside(*statements: str) -> list[Any]:
    """From the database that PostgreSQL always has; what the last one found."""
    found: list[Any] = []
    with connection._nodb_cursor() as cursor:  # type: ignore[attr-defined]
        for one in statements:
            cursor.execute(one, [_name()] if "%s" in one else None)
            found = cursor.fetchall() if cursor.description else []
    return found
