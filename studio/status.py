"""How the house's machine is. Belongs here: the last backup and whether it is too old, the release, the database, the
disk, and what upper apps add by name (`STATUS_FACTS`). Not here: the page; what the operator must put right in settings
(`studio.self_check`)."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import connection
from django.utils.module_loading import import_string
from django.utils.translation import gettext as _

from studio import clock, release
from studio.backup.nights import sized
from studio.models import Backup

TWO_NIGHTS = timedelta(hours=48)
LITTLE = 2_000_000_000  # bytes; and never less than three backups


@dataclass(frozen=True)
class Fact:
    """A line of the page; `broken` where somebody must see to it, and then `cure` says how."""

    label: str
    value: str
    broken: bool = False
    cure: str = ""


@dataclass(frozen=True)
class LastBackup:
    """The newest that was made, if there is one, and what is wrong with it."""

    row: Backup | None
    wrong: str  # empty: nothing


def last_backup() -> LastBackup:
    """The newest backup that is not known to be gone."""
    row = Backup.objects.kept().first()
    if row is None:
        return LastBackup(None, _("No backup was made yet."))
    if clock.now() - row.at > TWO_NIGHTS:
        return LastBackup(row, _("The last backup is more than two nights old."))
    return LastBackup(row, "")


def facts() -> list[Fact]:
    """Everything there is to say, the house's own first."""
    found = [
        Fact(_("Release"), release.version()),
        Fact(_("Database"), _database()),
        _disk(),
    ]
    for path in settings.STATUS_FACTS:
        found += import_string(path)()
    return found


def _database() -> str:
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("SELECT current_setting('server_version'), pg_database_size(current_database())")
            version, size = cursor.fetchone()
            return f"PostgreSQL {str(version).split()[0]}, {sized(size)}"
        cursor.execute("SELECT sqlite_version()")
        (version,) = cursor.fetchone()
        cursor.execute("SELECT page_count * page_size FROM pragma_page_count, pragma_page_size")
        (size,) = cursor.fetchone()
    return f"SQLite {version}, {sized(size)}"


def _disk() -> Fact:
    """Room on the disk of the data folder, which is the database's too with SQLite."""
    folder = Path(settings.DATA_DIR)
    try:
        free = shutil.disk_usage(folder).free
    except OSError:
        return Fact(_("Room on the disk"), _("not known: the data folder is not there"), True, _("See TENTHSTOP_DATA."))
    row = Backup.objects.kept().first()
    little = free < max(LITTLE, 3 * (row.size if row else 0))
    return Fact(_("Room on the disk"), sized(free), little, _("Make room before it is full.") if little else "")


def backups() -> list[dict[str, Any]]:
    """The last thirty, with what became of each as far as it can be seen from here."""
    return [{"row": row, "size": sized(row.size), "there": _there(row)} for row in Backup.objects.all()[:30]]


def _there(row: Backup) -> bool:
    """Whether the file can be seen where it was made; on another machine it may be there all the same."""
    try:
        return row.deleted_at is None and Path(row.path).is_file()
    except OSError:
        return False
