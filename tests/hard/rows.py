"""Rows of the table that take no folder of drawn input: many people at once, one hour for many, and size. Belongs here:
calling what measures them, each with its bar. On PostgreSQL where the environment says so (`--postgres`)."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]


def load(long: bool) -> list[str]:
    """Fifty people for ten minutes, or for one (`LOAD_SECONDS`: as many). In a house of its own."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"TENTHSTOP_DATA": folder, "DJANGO_SETTINGS_MODULE": "studio.settings"}
        import django

        django.setup()
        from django.core.management import call_command
        from django.db import connections

        from tests import planned_once
        from tests.hard import load as loading
        from tests.hard import prepared

        planned_once.begin()
        try:
            prepared.create()
            call_command("migrate", verbosity=0)
            (Path(folder) / "static").mkdir()
            subprocess.run([sys.executable, "manage.py", "collectstatic", "--noinput", "-v0"], cwd=ROOT, check=True)
            found = loading.run(seconds=float(os.environ.get("LOAD_SECONDS", 600 if long else 60)))
        finally:
            planned_once.end()
            connections.close_all()
    print(*loading.told(found), sep="\n")
    above = f"p95 is {found.times:.1f} times the median"
    return found.faults + ([above] if found.times > loading.MOST_TIMES else [])


def race(long: bool) -> list[str]:
    """A hundred rounds of 64 clients for one hour, or three."""
    os.environ.setdefault("RACE_ROUNDS", "100" if long else "3")
    from tests.bench import races

    kept = races.report(vendor())
    print(f"same slot race | bar: 1 of 64 each round | {'kept' if kept else 'BROKEN'}")
    return [] if kept else ["more or fewer than one got the hour"]


def size(long: bool) -> list[str]:
    """100,000 sittings beside 1,000, or 5,000 (`SITTINGS`): the day's page, then a backup and its way back, which is
    measured into both databases and from SQLite alone."""
    many = int(os.environ.get("SITTINGS", 100_000 if long else 5_000))
    from tests.bench import backups, desk

    desk.MANY = many
    backups.SIZES = tuple(sorted({many // 100, many // 10, many})) if many >= 100_000 else (many // 5, many)
    faults = [] if desk.report(vendor()) else [f"a page of the desk grows beyond its limit at {many} sittings"]
    linear: Any = "from SQLite alone" if vendor() == "postgresql" else backups.report()
    if linear is False:
        faults.append("backup or restore is not linear")
    print(f"size | {many} sittings | bars: day's page 1.3 times, backup linear | {'BROKEN' if faults else 'kept'}")
    return faults


def vendor() -> str:
    return "postgresql" if os.environ.get("DATABASE_URL", "").startswith("postgres") else "sqlite"
