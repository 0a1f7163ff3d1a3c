"""An empty database with every migration in it, kept between runs: migrating takes as long as two hundred tests.

Belongs here: keeping the file and telling whether it still is what the migrations make. Only for SQLite; a PostgreSQL
server of the tests lives for one run.
"""

from __future__ import annotations

import fcntl
import hashlib
import shutil
from pathlib import Path
from typing import IO

import django
from django.db.backends.base.base import BaseDatabaseWrapper

ROOT = Path(__file__).parents[1]
APPS = ("studio", "bookings", "shotplans")
_MADE_HERE: list[tuple[Path, IO[str]]] = []


def made_of() -> str:
    """A digest of what the file is made from: the migrations, and the modules they and `post_migrate` use."""
    found = hashlib.sha256(django.__version__.encode())
    paths = [path for app in APPS for path in (ROOT / app / "migrations").glob("*.py")]
    paths += [ROOT / "bookings" / f"{name}.py" for name in ("folding", "found_index", "overlap")]
    paths.append(ROOT / "studio" / "migrating.py")
    for path in sorted(paths):
        found.update(path.name.encode() + path.read_bytes())
    return found.hexdigest()[:16]


def fetch(folder: Path, to: Path) -> bool:
    """Whether the database of an earlier run could be put there. Whoever has to migrate keeps the others waiting until
    `keep`, for two that migrate at once take twice as long."""
    lock = (folder / "lock").open("w")
    fcntl.flock(lock, fcntl.LOCK_EX)
    kept = folder / f"{made_of()}.sqlite3"
    if kept.exists():
        shutil.copyfile(kept, to)
        lock.close()
        return True
    _MADE_HERE.append((kept, lock))
    return False


def keep(connection: BaseDatabaseWrapper) -> None:
    """What was migrated here takes the place of what earlier migrations made."""
    while _MADE_HERE:
        kept, lock = _MADE_HERE.pop()
        for old in kept.parent.glob("*.sqlite3"):
            old.unlink()
        with connection.cursor() as cursor:
            cursor.execute("VACUUM INTO %s", [str(kept.with_suffix(".unfinished"))])
        kept.with_suffix(".unfinished").replace(kept)
        lock.close()
