"""`manage.py sheets`: every paper of a day as PDF files."""

from __future__ import annotations

from argparse import ArgumentParser
from datetime import date
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from shotplans import day_papers, paper
from studio.languages import as_house
from studio.models import Profile
from studio.paper import fonts
from studio.paper.page import PAPERS, write, write_all


class Command(BaseCommand):
    help = (
        "Writes the papers of one day: the day sheet, each sitting's setup sheets and meter cards, and the packing "
        "list, on the studio's paper and in its units. With --one, a single file with a bookmark for each."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--date", required=True, metavar="YYYY-MM-DD", help="the day, in the studio's time zone")
        parser.add_argument("--out", required=True, metavar="DIR", type=Path, help="the folder, made where missing")
        parser.add_argument("--one", action="store_true", help="one file for the whole day")
        parser.add_argument("--paper", choices=sorted(PAPERS), help="another paper than the studio's own")
        parser.add_argument("--units", choices=["metric", "imperial"], help="other units than the studio's own")

    def handle(self, *args: Any, **options: Any) -> None:
        day, folder = _day(options["date"]), options["out"]
        profile = Profile.get()
        profile.paper = options["paper"] or profile.paper
        profile.units = options["units"] or profile.units
        with as_house(profile):
            found = day_papers.papers(day, profile)
            size = paper.size_of(profile)
            try:
                folder.mkdir(parents=True, exist_ok=True)
                if options["one"]:
                    title = f"All papers of {day:%Y-%m-%d}"
                    gone = set[str]()
                    documents = [p.document for p in found]
                    whole = write_all(documents, size, title=title, author=profile.studio_name, missing=gone)
                    self._write(folder / f"papers-{day:%Y-%m-%d}.pdf", whole, gone)
                    return
                for one in found:
                    gone = set[str]()
                    self._write(folder / one.file, write(one.document, size, gone), gone)
            except OSError as error:
                raise CommandError(f"{folder}: cannot be written ({error.strerror})") from None

    def _write(self, path: Path, body: bytes, gone: set[str]) -> None:
        path.write_bytes(body)
        self.stdout.write(str(path))
        if gone:
            said = ", ".join(f"{c} (U+{ord(c):04X})" for c in sorted(gone))
            self.stderr.write(f"{path.name}: the font has no {said}; {fonts.MISSING} stands for it")


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CommandError(f"--date {text}: no day, expected YYYY-MM-DD") from None
