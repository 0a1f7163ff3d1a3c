"""`manage.py recommend`: one brief in, one plan out, no database. Belongs here: files, streams and the
exit status. Reading is `planner.codec`, planning `planner.solve`, the readable form `planner.describe`."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

UNUSABLE = 2


class Command(BaseCommand):
    help = (
        "Reads a brief (brief, sitters, room and kit in one JSON file) and prints the plan as JSON. "
        "Exit status 0 when a plan is printed, even one with problems; 2 when the input cannot be used: "
        "then stderr has one line for each fault."
    )
    requires_system_checks = ()  # no database, no pages: nothing of what they check is used

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("brief", metavar="BRIEF.json", nargs="?", help="the file to read; - reads stdin")
        parser.add_argument(
            "--schema", action="store_true", help="print the JSON Schema of the input and stop"
        )
        parser.add_argument("--text", action="store_true", help="print the plan as text to read, not as JSON")

    def handle(self, *args: Any, **options: Any) -> None:
        # Imported here so that --help and the other commands do not wait for the physics.
        from shotplans.planner import codec

        if options["schema"]:
            self.stdout.write(json.dumps(codec.schema(), indent=1, ensure_ascii=False))
            return
        if options["brief"] is None:
            self.refuse(["BRIEF.json: missing, expected a file to read, or - for stdin"])
        try:
            request = codec.read_request(self.read(options["brief"]))
        except codec.Unreadable as error:
            self.refuse(error.faults)

        from shotplans.planner import solve

        document = solve.plan(request)
        if options["text"]:
            from shotplans.planner import describe

            units = request.preferences.units if request.preferences else None
            self.stdout.write(describe.text(document, units or "metric"))
        else:
            self.stdout.write(codec.dump(document))

    def read(self, name: str) -> bytes:
        """No more of the file than it takes to know that it is too large."""
        from shotplans.planner.json_text import LARGEST_BYTES

        try:
            if name == "-":
                return sys.stdin.buffer.read(LARGEST_BYTES + 1)
            with Path(name).open("rb") as file:
                return file.read(LARGEST_BYTES + 1)
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or str(error)
            self.refuse([f"{name}: cannot be read ({reason}), expected a readable file"])

    def refuse(self, lines: list[str]) -> NoReturn:
        """CommandError would put its own name before the first path, so the lines are written plainly."""
        for line in lines:
            self.stderr.write(line)
        raise SystemExit(UNUSABLE)
