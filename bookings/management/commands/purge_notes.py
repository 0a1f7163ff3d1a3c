"""`manage.py purge_notes`: comfort notes whose day has come go."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from bookings import keeping
from bookings.actions.keeping import purge
from studio import clock
from studio.actions import entries
from studio.models import Profile


class Command(BaseCommand):
    help = (
        "Takes out the comfort notes whose day has come: those of sitters who do not want them kept as soon as the "
        "sitting is over, the others the studio's number of days after delivery, unless somebody said they may stay. "
        "Run it every night; running it twice, or after it was stopped, does no harm. The log stays."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--dry-run", action="store_true", help="say how many would go, and change nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        profile = Profile.get()
        with timezone.override(profile.zone):
            found = keeping.due(clock.now(), profile)
            if options["dry_run"]:
                self.stdout.write(f"{len(found)} would be purged.")
                return
            done = sum(purge(one.sitter, one.why) for one in found)
        entries.forget_old()
        self.stdout.write(f"{done} purged.")
