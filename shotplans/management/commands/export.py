"""`manage.py export FILE.zip`: everything the studio owns in one file."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from shotplans import everything


class Command(BaseCommand):
    help = "Write everything the studio owns into a new zip: CSV tables and plans, without notes and secrets."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)

    def handle(self, *args: Any, **options: Any) -> None:
        path: Path = options["file"]
        part = path.with_name(path.name + ".part")
        if path.exists():
            raise CommandError(f"{path} is there already: name another file. Nothing was written.")
        try:
            with open(os.open(part, os.O_CREAT | os.O_TRUNC | os.O_RDWR, 0o600), "w+b") as file:
                for name, count in everything.write(file):
                    self.stdout.write(f"{name}: {count} rows")
            part.rename(path)
        except OSError as error:
            raise CommandError(f"{path}: {error.strerror}. Nothing was written.") from error
        finally:
            part.unlink(missing_ok=True)
        self.stdout.write(f"Written: {path}. README.txt in it says what is left out and why.")
