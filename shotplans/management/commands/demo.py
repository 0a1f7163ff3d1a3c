"""`manage.py demo`: the example sittings, planned afresh. Belongs here: its folder, its order of steps,
what it prints. It plans the briefs in `fixtures/briefs` and touches nothing outside the `demo` folder of
the data folder."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

BRIEFS = settings.BASE_DIR / "fixtures" / "briefs"


class Command(BaseCommand):
    help = (
        "Plans the example briefs into the data folder's demo folder, as JSON and as text to read, "
        "and prints where they are. Starts fresh each time. Refuses when DATABASE_URL is set."
    )
    requires_system_checks = ()

    def handle(self, *args: Any, **options: Any) -> None:
        if os.environ.get("DATABASE_URL"):
            raise CommandError(
                "DATABASE_URL is set: the demo never runs beside a studio's own data. Unset it first."
            )
        folder = self.fresh_folder()
        for brief in sorted(BRIEFS.glob("*.json")):
            self.plan(brief, folder)
        self.stdout.write(f"Plans are in {folder}: .txt to read, .json for programs.")

    def fresh_folder(self) -> Path:
        folder: Path = settings.DATA_DIR / "demo"
        try:
            if folder.exists():
                shutil.rmtree(folder)
            folder.mkdir(parents=True)
        except OSError as error:
            raise CommandError(f"{folder}: cannot be made afresh ({error.strerror})") from None
        return folder

    def plan(self, brief: Path, folder: Path) -> None:
        """One sitting: the plan as JSON and as text, named after its brief."""
        from shotplans.planner import codec, describe, solve

        try:
            request = codec.read_request(brief.read_bytes())
        except codec.Unreadable as error:
            raise CommandError("\n".join([f"{brief.name} cannot be used:", *error.faults])) from None
        document = solve.plan(request)
        (folder / f"{brief.stem}.json").write_text(codec.dump(document), encoding="utf-8")
        (folder / f"{brief.stem}.txt").write_text(describe.text(document), encoding="utf-8")
        setups, problems = len(document["setups"]), len(document["problems"])
        self.stdout.write(f"{brief.stem}: set-ups {setups}, problems {problems}")
