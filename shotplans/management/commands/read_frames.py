"""`manage.py read_frames FOLDER --sitting REF`: frames from a folder, once each; with `--watch` as they come."""

from __future__ import annotations

import time
from argparse import ArgumentParser
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from bookings.models import Sitting
from shotplans.actions import frames
from shotplans.records.files import Kind, read_piece

EVERY_SECONDS, EVERY_FILES = 2.0, 50
QUIET_SECONDS = 2.0  # a file that changed just now may still be on its way from the camera


class Command(BaseCommand):
    help = (
        "Reads the camera's files of a folder and keeps a frame of each: settings, time, a small picture. Files stay "
        "where they are and are never changed. Safe to stop and to repeat: what is in already is passed over."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("folder", metavar="FOLDER", type=Path)
        parser.add_argument("--sitting", required=True, metavar="REF", help="the sitting's number, as L-0002")
        parser.add_argument("--watch", action="store_true", help="go on as files come in, until Ctrl-C")

    def handle(self, *args: Any, **options: Any) -> None:
        folder: Path = options["folder"]
        if not folder.is_dir():
            raise CommandError(f"{folder}: no such folder. Nothing was read.")
        sitting = Sitting.objects.filter(number=options["sitting"]).first()
        if sitting is None:
            raise CommandError(f"--sitting {options['sitting']}: no such sitting. Nothing was read.")
        try:
            self.read(folder, sitting, watching=options["watch"])
            while options["watch"]:
                time.sleep(EVERY_SECONDS)
                self.read(folder, sitting, watching=True)
        except KeyboardInterrupt:
            self.stdout.write("Stopped. What was read is kept; start it again to go on.")

    def read(self, folder: Path, sitting: Sitting, *, watching: bool) -> None:
        """Everything that is new in the folder, with a line for each file that was not read whole."""
        seen, new, odd, total = frames.known(sitting), 0, 0, 0
        for total, path in enumerate(files_in(folder), 1):  # noqa: B007
            try:
                outcome = self.one(path, sitting, seen, watching)
            except OSError as error:
                odd += 1
                self.stderr.write(f"{path.name}: cannot be read ({error.strerror})")
                continue
            if outcome is None:
                continue
            new += outcome.new
            if outcome.says:
                odd += outcome.frame is None
                self.stderr.write(f"{outcome.name}: {outcome.says}")
            if new and new % EVERY_FILES == 0:
                self.stdout.write(f"{new} frames read")
        if new or odd or not watching:
            self.stdout.write(f"{total} files, {new} new frames, {odd} not read")

    def one(
        self, path: Path, sitting: Sitting, seen: set[tuple[str, int, int]], watching: bool
    ) -> frames.Outcome | None:
        """One file; None where it is known already, or still being written while one watches."""
        found = path.stat()
        identity = (frames.files.plain_name(path.name), found.st_size, found.st_mtime_ns // 1_000_000)
        if identity in seen or (watching and time.time() - found.st_mtime < QUIET_SECONDS):
            return None
        with path.open("rb") as file:
            piece = read_piece(file)
            whole = file if piece.kind is Kind.JPEG else None
            incoming = frames.Incoming(name=path.name, piece=piece, whole=whole, file_time_ms=identity[2])
            return frames.take_in(by=None, sitting=sitting, file=incoming)


def files_in(folder: Path) -> Iterator[Path]:
    """The folder's own files and those of folders in it, by name; nothing hidden, nothing a link leads out to."""
    for path in sorted(folder.rglob("*")):
        hidden = any(part.startswith(".") for part in path.relative_to(folder).parts)
        if not hidden and not path.is_symlink() and path.is_file():
            yield path
