"""`manage.py send_due_letters`: let holds lapse and send what is due. To be run every few minutes; running it twice, or
twice at once, sends nothing twice."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext as _

from bookings.actions import holds, outbox, reminders
from bookings.models import Hold, Letter
from bookings.models.letters import REMINDERS
from studio import clock
from studio.languages import as_house
from studio.models import Profile


class Command(BaseCommand):
    help = "Let holds lapse that are over, write the reminders that are due and send every letter that waits."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--dry-run", action="store_true", help="say what would be done, and do nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        profile = Profile.get()
        with as_house(profile):
            if options["dry_run"]:
                self._foretell(profile)
            else:
                self._do(profile)

    def _foretell(self, profile: Profile) -> None:
        now = clock.now()
        for hold in Hold.objects.lapsed(now).select_related("sitting"):
            self.stdout.write(f"would let the hold of {hold.sitting.number} lapse")
        for sitting, one in reminders.due(now, profile) if reminders.is_daytime(now, profile) else ():
            self.stdout.write(f"would write: {one.kind} to {sitting.number}")
        for letter in Letter.objects.due(now).with_names():
            self.stdout.write(f"would send: {self._line(letter)}")

    def _do(self, profile: Profile) -> None:
        for number in holds.release_lapsed(clock.now()):
            self.stdout.write(f"the hold of {number} lapsed")
        now = clock.now()
        for letter in reminders.write_due(now, profile):
            self.stdout.write(f"wrote: {self._line(letter)}")
        if not outbox.may_send():
            waiting = Letter.objects.waiting().count()
            self.stdout.write(f"{waiting} letters wait: no mail server is set (EMAIL_URL), so print or copy them")
            return
        done = outbox.send_due(but=() if reminders.is_daytime(now, profile) else REMINDERS)
        for letter in done.sent:
            self.stdout.write(f"sent: {self._line(letter)}")
        for letter in done.failed:
            self.stderr.write(f"failed: {self._line(letter)}: {letter.get_state_display()}")
        if done.server_away:
            self.stderr.write(done.server_away)
        if done.failed or done.server_away:
            raise CommandError(_("Not everything could be sent; the page Letters says what and why."))

    @staticmethod
    def _line(letter: Letter) -> str:
        """By number alone: names and addresses do not belong in a machine's log."""
        of = f" of {letter.sitting.number}" if letter.sitting is not None else ""
        return f"letter {letter.pk}, {letter.get_kind_display()}{of}"
