"""`manage.py backup FILE`: everything the studio has in one file, while the house works."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import Error

from studio import clock
from studio.actions import backups
from studio.backup import nights, packing
from studio.backup.faults import Fault

SHORTEST = 12  # letters of a passphrase


class Command(BaseCommand):
    help = (
        "Write everything the studio has - rows, pictures, notes - into one new file while the house works. It is "
        "sealed where BACKUP_KEY holds a passphrase."
    )

    requires_system_checks: list[str] = []  # noqa: RUF012  (a house with a fault in its settings has rows all the same)

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", help="a new file (%%Y, %%m, %%d, %%H stand for the moment, UTC), or a folder")
        parser.add_argument("--keep", type=int, metavar="N", help="in a folder: delete ours of more than N nights ago")

    def handle(self, *args: Any, **options: Any) -> None:
        keep: int | None = options["keep"]
        began = clock.now()
        try:
            path = nights.place(options["file"], sealed=bool(settings.BACKUP_KEY))
            if 0 < len(settings.BACKUP_KEY) < SHORTEST:
                raise Fault(f"BACKUP_KEY is shorter than {SHORTEST} letters: it can be guessed. Nothing was written.")
            if keep is not None and (keep < 1 or not Path(options["file"]).is_dir()):
                raise Fault("--keep wants a number from 1, and a folder to keep them in. Nothing was written.")
            made = packing.write(path, key=settings.BACKUP_KEY)
            gone = nights.thin(path.parent, keep) if keep else []
        except Fault as fault:
            raise CommandError(str(fault)) from fault
        except Error as error:
            raise CommandError(f"The database cannot be read: {error}. No backup was made.") from error
        self._note(made, began, keep, gone)
        seconds = (clock.now() - began).total_seconds()
        sealed = "sealed" if made.sealed else "plain: whoever has the file can read it, notes too"
        self.stdout.write(f"{made.path}: {made.rows} rows, {made.files} files, {nights.sized(made.size)}, {sealed}")
        self.stdout.write(f"SHA-256 {made.sha256}, {seconds:.1f} s")
        for old in gone:
            self.stdout.write(f"Deleted, older than {keep} nights: {old.name}")

    def _note(self, made: packing.Made, began: datetime, keep: int | None, gone: Sequence[Path]) -> None:
        """The page Status shows it. A backup is whole even where that cannot be noted: before `migrate` of a new
        release, or while the database can only be read."""
        try:
            backups.note(made=made, began=began, keep_nights=keep, deleted=gone)
        except Error as error:
            self.stderr.write(f"The backup is whole, but Status will not show it: {error}")
