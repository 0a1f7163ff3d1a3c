"""`manage.py import_clients FILE.csv`: say what a list of clients would do; with `--confirm`, do it, all or nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from bookings import client_list
from bookings.actions import client_lists
from bookings.actions.client_lists import ADD, MERGE, SKIP, Outcome
from studio.csv_in import SEPARATORS, Shape, Unreadable
from studio.sent_lists import FaultsLeft


class Command(BaseCommand):
    help = "Read clients from a CSV file: say what would be done, and do it with --confirm. Safe to repeat."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument("--confirm", action="store_true", help="write; without it nothing is written")
        parser.add_argument(
            "--alike", choices=(SKIP, ADD, MERGE), default=SKIP,
            help="what to do with somebody who may be known: leave out (usual), add all the same, or fill in what the "
            "known client is missing",
        )  # fmt: skip
        parser.add_argument(
            "--leave-out-faults", action="store_true", help="write the right lines though some are wrong"
        )
        parser.add_argument(
            "--column", action="append", default=[], metavar="HEADING=FIELD",
            help=f"which field a heading is: {', '.join(client_list.FIELDS)}",
        )  # fmt: skip

    def handle(self, *args: Any, **options: Any) -> None:
        path: Path = options["file"]
        try:
            shape = client_list.shape(path, self._mapping(options["column"]))
            self._tell_shape(shape)
            if not options["confirm"]:
                self._tell(client_lists.foretell(path, shape, alike=options["alike"]), "would be")
                self.stdout.write("Nothing was written. Say --confirm to write it.")
                return
            done = client_lists.bring_in(
                path, shape, alike=options["alike"], leave_out_faults=options["leave_out_faults"]
            )
        except OSError as error:
            raise CommandError(f"{path}: {error.strerror}") from error
        except (Unreadable, UnicodeError) as error:
            raise CommandError(f"{path}: {error}. Nothing was written.") from error
        except FaultsLeft as error:
            self._tell(client_lists.foretell(path, shape, alike=options["alike"]), "would be")
            raise CommandError("Nothing was written: mend those lines, or say --leave-out-faults.") from error
        self._tell(done, "were")

    @staticmethod
    def _mapping(columns: list[str]) -> dict[str, str]:
        found = {}
        for one in columns:
            heading, _equals, field = one.rpartition("=")
            if not heading or field not in client_list.FIELDS:
                raise CommandError(
                    f"--column {one}: expected HEADING=FIELD, FIELD one of {', '.join(client_list.FIELDS)}"
                )
            found[heading.strip()] = field
        return found

    def _tell_shape(self, shape: Shape) -> None:
        columns = ", ".join(shape.columns)
        self.stdout.write(f"Read as {shape.letters}, parted by the {SEPARATORS[shape.separator]}: {columns}.")
        if shape.left_out:
            self.stdout.write(f"Left out, for no field is known for them: {', '.join(shape.left_out)}.")

    def _tell(self, done: Outcome, verb: str) -> None:
        for sentence in done.faults:
            self.stderr.write(f"wrong, {sentence}")
        for sentence in done.known:
            self.stdout.write(f"known, {sentence}")
        self.stdout.write(
            f"{done.rows} rows: {done.added} {verb} added, {done.merged} {verb} filled in, {done.skipped} {verb} left "
            f"out as known, {done.faulty} are wrong."
        )
