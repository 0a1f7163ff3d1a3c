"""`manage.py restore FILE`: a backup put into an empty studio."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import Error, connections

from studio.backup import checking, files, loading
from studio.backup.faults import Fault


class Command(BaseCommand):
    help = (
        "Put a backup into an empty studio, on SQLite or PostgreSQL as DATABASE_URL says. Every byte, row and file is "
        "checked before anything is written. A sealed one needs its passphrase in BACKUP_KEY."
    )
    requires_migrations_checks = False
    requires_system_checks: list[str] = []  # noqa: RUF012  (Django's own shape; there may be no tables yet)

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--verify-only", action="store_true", help="check the file and write nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        began = time.monotonic()
        try:
            with checking.opened(options["file"], key=settings.BACKUP_KEY) as archive:
                apps = checking.check(archive)
                told = archive.told
                rows = sum(table["rows"] for table in told["tables"].values())
                what = f"{rows} rows, {len(told['files'])} files, made {told['made_at'][:16]} UTC by {told['release']}"
                if options["verify_only"]:
                    self.stdout.write(f"{options['file']} is whole: {what}. Nothing was written.")
                    return
                loading.restore(archive, apps, say=self.stdout.write)
        except Fault as fault:
            raise CommandError(str(fault)) from fault
        except Error as error:
            raise CommandError(f"The database cannot be used: {error}. Nothing was written.") from error
        vendor = connections["default"].display_name
        self.stdout.write(f"Restored into {vendor}: {what}, each compared, in {time.monotonic() - began:.1f} s.")
        self.stdout.write(f"Whoever was erased after {told['made_at'][:10]} has to be erased again; see the receipts.")
        if files.SECRET not in told["files"]:
            self.stdout.write(
                "Links in letters sent before open again once secret_key of the old data folder (or the old "
                "SECRET_KEY) is here too; a sealed backup brings it along."
            )
