"""Studios beside the one of the run: SQLite files under names of their own, for what is carried from one database to
another. Belongs here: making them. Not here: what is carried."""

from __future__ import annotations

import fcntl
import hashlib
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from django.apps import apps
from django.conf import settings
from django.contrib.contenttypes.models import ContentType
from django.db import connections

from studio.backup import checking, loading, tables
from tests import migrated_once

ROOT = Path(__file__).parents[1]
FIRST = ROOT / "fixtures" / "releases" / "0.1.0.zip"


@contextmanager
def home(name: str, path: Path) -> Iterator[str]:
    """A database in that file under an alias, in place of another of that name while it lasts."""
    options = {"transaction_mode": "IMMEDIATE", "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=OFF"}
    before = (connections[name], connections.databases[name]) if name in connections.databases else None
    connections.databases[name] = connections.databases["default"] | {
        "ENGINE": "django.db.backends.sqlite3", "NAME": str(path), "OPTIONS": options,
    }  # fmt: skip
    if before:
        del connections[name]
    try:
        yield name
    finally:
        connections[name].close()
        del connections[name], connections.databases[name]
        if before:
            connections[name], connections.databases[name] = before
        ContentType.objects.clear_cache()


def first_release(config: pytest.Config, folder: Path) -> Path:
    """The studio of the first release, restored from its backup and migrated to today, in that folder. It takes some
    seconds, so it is kept between runs for as long as the migrations, the backup's code and the file are the same."""
    to = folder / "old.sqlite3"
    cache = getattr(config, "cache", None)  # not under `-p no:cacheprovider`
    if cache is None:
        return _upgraded(to)
    digest = hashlib.sha256(migrated_once.made_of().encode() + FIRST.read_bytes())
    for path in sorted((ROOT / "studio" / "backup").glob("*.py")):
        digest.update(path.read_bytes())
    keep = cache.mkdir("first_release")
    kept = keep / f"{digest.hexdigest()[:16]}.sqlite3"
    with (keep / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            for old in keep.glob("*.sqlite3"):
                old.unlink()
            shutil.copyfile(_upgraded(to), keep / "unfinished")
            (keep / "unfinished").replace(kept)
            return to
    return copied(kept, to)


def _upgraded(to: Path) -> Path:
    with pytest.MonkeyPatch.context() as patch, home("default", to) as alias:
        patch.setattr(settings, "DATA_DIR", to.parent)
        put(FIRST, alias)
    return to


def put(path: Path, using: str, *, key: str = "") -> None:
    """What `manage.py restore` does."""
    with checking.opened(path, key=key) as archive:
        loading.restore(archive, checking.check(archive, using=using), using=using)


def emptied(full: Path, path: Path) -> Path:
    """A copy of a studio without any row: as migrated, in a hundredth of the time."""
    with sqlite3.connect(full) as source, sqlite3.connect(path) as rows:
        source.backup(rows)
        for table in tables.travelling(apps):
            rows.execute(f'DELETE FROM "{table.model._meta.db_table}"')
    source.close()
    rows.close()
    return path


@dataclass
class Peak:
    """How much more memory this process took at its highest than at the beginning; known at the end."""

    bytes: int = 0


@contextmanager
def peak_of_memory() -> Iterator[Peak]:
    """The kernel's own count: tracing every allocation makes the work ten times slower."""
    found = Peak()
    Path("/proc/self/clear_refs").write_text("5")  # the highest mark begins anew
    begin = _kilobytes("VmRSS")
    yield found
    found.bytes = 1024 * (_kilobytes("VmHWM") - begin)


def _kilobytes(name: str) -> int:
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith(f"{name}:"))


def copied(empty: Path, path: Path) -> Path:
    shutil.copyfile(empty, path)
    return path
