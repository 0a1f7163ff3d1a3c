"""`manage.py demo`: the invented studio, built afresh and served. Belongs here: its folder and database, its order of
steps, what it prints. The scenario itself is `shotplans.scenario`."""

from __future__ import annotations

import os
import shutil
import socket
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import connection, connections
from django.utils import timezone

from studio import clock

HOST, PORT = "127.0.0.1", 8000


class Command(BaseCommand):
    help = (
        "Builds the studio of the demo in .data/demo.sqlite3 and .data/demo, plans its sittings, writes its setup "
        "sheets and the day's packing list as PDFs, and serves it. Starts fresh each time. Refuses when DATABASE_URL "
        "is set."
    )
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--no-serve", action="store_true", help="stop when the files are written")
        parser.add_argument("--port", type=int, default=PORT, help="the port to serve at (8000)")

    def handle(self, *args: Any, **options: Any) -> None:
        if os.environ.get("DATABASE_URL"):
            raise CommandError("DATABASE_URL is set: the demo never runs beside a studio's own data. Unset it first.")
        serve, port = not options["no_serve"], options["port"]
        if serve and not free(port):
            raise CommandError(f"Port {port} is taken by another program. Stop it, or choose one with --port.")
        folder = self.fresh()
        if "TENTHSTOP_URL" not in os.environ:  # so that its links and codes lead to the port it serves at
            settings.TENTHSTOP_URL = f"http://127.0.0.1:{port}"
        call_command("migrate", verbosity=0)
        self.fill()
        self.write_sheets(folder)
        self.tell(folder, port if serve else None)
        if serve:
            call_command("runserver", f"{HOST}:{port}", use_reloader=False, skip_checks=True, verbosity=0)

    def fresh(self) -> Path:
        """An empty demo folder and an empty demo database, and this process turned to them."""
        folder: Path = settings.DATA_DIR / "demo"
        database: Path = settings.DATA_DIR / "demo.sqlite3"
        connection.close()
        try:
            if folder.exists():
                shutil.rmtree(folder)
            folder.mkdir(parents=True)
            for leftover in database.parent.glob(f"{database.name}*"):
                leftover.unlink()
        except OSError as error:
            raise CommandError(f"{folder}: cannot be made afresh ({error.strerror})") from None
        # Threads of the server open their own connections from the same table of settings.
        connections.settings["default"]["NAME"] = str(database)
        connection.settings_dict["NAME"] = str(database)
        return folder

    def fill(self) -> None:
        from shotplans import (
            scenario,
            scenario_clocks,
            scenario_desk,
            scenario_intake,
            scenario_kit,
            scenario_letters,
            scenario_money,
            scenario_rota,
        )

        day = clock.today()
        for line in scenario.build(settings.BASE_DIR / "fixtures" / "briefs", day, agreed=True, past=True):
            self.stdout.write(line)
        with timezone.override(scenario.ZONE):
            self.stdout.write(scenario_money.want_twice(day))
            self.stdout.write(scenario_rota.give_places())
            self.stdout.write(scenario_letters.count())
            self.stdout.write(scenario_clocks.tell(day))
            self.stdout.write(scenario_intake.ask())
            self.stdout.write(scenario_desk.fill(day))
            self.stdout.write(scenario_kit.keep(day))

    def write_sheets(self, folder: Path) -> None:
        """The setup sheets of all sittings and the packing list of the demo's day."""
        from bookings.models import Stage
        from shotplans import paper
        from shotplans.models import Plan
        from studio.languages import as_house
        from studio.models import Profile

        profile = Profile.get()
        with as_house(profile):
            current = Plan.objects.current().exclude(sitting__stage=Stage.CLOSED)  # the year before was struck long ago
            plans = list(current.select_related("sitting__client", "sitting__room").order_by("sitting__starts_at"))
            for plan in plans:
                for number, pdf in enumerate(paper.setup_pdfs(plan, profile), 1):
                    name = f"{plan.sitting.number}-{plan.sitting.client.short_name}-setup-{number}.pdf"
                    (folder / name.replace(" ", "-").lower()).write_bytes(pdf)
            day = timezone.localdate(plans[0].sitting.starts_at)
            today = [p for p in plans if timezone.localdate(p.sitting.starts_at) == day]
            (folder / "packing-list.pdf").write_bytes(paper.packing_pdf(today, profile))

    def tell(self, folder: Path, port: int | None) -> None:
        from shotplans.scenario import CAST, PASSWORD

        self.stdout.write(f"\nSetup sheets and the packing list: {folder}")
        self.stdout.write(f"Sign in with the password “{PASSWORD}” as")
        for sign_in, name, _short, roles in CAST:
            self.stdout.write(f"  {sign_in:<9} {name}, {', '.join(r.replace('_', ' ') for r in roles)}")
        if port is not None:
            self.stdout.write(f"\nOpen http://127.0.0.1:{port}/ and stop with Ctrl-C.")


def free(port: int) -> bool:
    """Whether nobody listens on a port of this machine."""
    with socket.socket() as probe:
        return probe.connect_ex((HOST, port)) != 0
