"""`manage.py take_off_second_step NAME`: for an owner whose telephone and codes on paper are gone, where no other owner
can help. It stands in the audit trail."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext as _

from studio.actions import second
from studio.models import Member


class Command(BaseCommand):
    help = "Take a member's second step at sign-in off, by their sign-in name. It stands in the audit trail."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="the sign-in name")

    def handle(self, *args: Any, **options: Any) -> None:
        member = Member.objects.filter(user__username=options["name"]).first()
        if member is None:
            raise CommandError(_("nobody signs in by that name"))
        if not second.take_off(member=member, by=None):
            raise CommandError(_("%(name)s has no second step") % {"name": member.name})
        self.stdout.write(_("The second step of %(name)s is taken off.") % {"name": member.name})
