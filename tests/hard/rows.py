"""Rows of the table that take no folder of drawn input: many people at once, one hour for many, and size. Belongs here:
calling what measures them, each with its bar. On PostgreSQL where the environment says so (`--postgres`)."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).parents[2]


@contextmanager
def new_house() -> Iterator[Path]:
    """A folder and, where the environment says, a database of its own, new and migrated, for what runs a real server;
    plans that are asked for twice are made once meanwhile."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"TENTHSTOP_DATA": folder, "DJANGO_SETTINGS_MODULE": "studio.settings"}
        import django

        django.setup()
        from django.core.management import call_command
        from django.db import connections

        from tests import planned_once
        from tests.hard import prepared

        planned_once.begin()
        try:
            prepared.create()
            call_command("migrate", verbosity=0)
            yield Path(folder)
        finally:
            planned_once.end()
            connections.close_all()


def load(long: bool) -> list[str]:
    """Fifty people for ten minutes, or for one (`LOAD_SECONDS`: as many). In a house of its own."""
    with new_house() as folder:
        from tests.hard import load as loading

        (folder / "static").mkdir()
        subprocess.run([sys.executable, "manage.py", "collectstatic", "--noinput", "-v0"], cwd=ROOT, check=True)
        found = loading.run(seconds=float(os.environ.get("LOAD_SECONDS", 600 if long else 60)))
    print(*loading.told(found), sep="\n")
    above = f"p95 is {found.times:.1f} times the median"
    return found.faults + ([above] if found.times > loading.MOST_TIMES else [])


def gone(long: bool) -> list[str]:
    """The database away for thirty seconds, or for three; always PostgreSQL, which can be sent away."""
    from tests import postgres

    seconds = 30.0 if long else 3.0
    with postgres.server() as there:
        os.environ.update(there)
        with new_house():
            from tests.hard import gone as going

            found = going.run(there, seconds=seconds)
    lost = sum("lost" in said for said in found.faults)
    told = f"told of it {found.told}, refused {found.refused}, ready {found.back_s:.1f} s after it was back"
    saved = sum(found.saved.values())
    print(f"database gone | {seconds:.0f} s | saved {saved}, {told}, slowest {found.slowest_s:.1f} s | lost: {lost}")
    return found.faults


def race(long: bool) -> list[str]:
    """A hundred rounds of 64 clients for one hour, or three (`RACE_ROUNDS`: as many)."""
    kept = _bench(_here("race"), RACE_ROUNDS="100" if long else "3")
    print(f"same slot race | bar: 1 of 64 each round | {'kept' if kept else 'BROKEN'}")
    return [] if kept else ["not one and only one got the hour each time"]


def size(long: bool) -> list[str]:
    """100,000 sittings beside 1,000, or 5,000 (`SITTINGS`: as many): the day's page; then a backup and its way back,
    which one bench measures into both databases and does not twice."""
    sittings = {"SITTINGS": "100000" if long else "5000"}
    faults = [] if _bench(_here("desk"), **sittings) else ["a page of the desk grows beyond its limit"]
    if not _here("") and not _bench("backup", **sittings):
        faults.append("backup or restore is not linear, or takes too much memory")
    print(f"size | bars: the day's page 1.3 times, backup and restore linear | {'BROKEN' if faults else 'kept'}")
    return faults


def _here(name: str) -> str:
    """The bench of that name for the database that was asked for."""
    return f"{name}-postgresql" if os.environ.get("DATABASE_URL", "").startswith("postgres") else name


def _bench(name: str, **more: str) -> bool:
    """In a process of its own, for each bench makes a house of its own; what the environment says goes before."""
    said = {key: value for key, value in os.environ.items() if key != "DATABASE_URL"}
    return subprocess.run([sys.executable, "-m", "tests.bench", name], cwd=ROOT, env=more | said).returncode == 0
