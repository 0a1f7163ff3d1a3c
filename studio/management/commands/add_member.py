"""`manage.py add_member`: the first owner of a new house, who then enters everybody else on the pages."""

from __future__ import annotations

import getpass
import sys
from argparse import ArgumentParser
from typing import Any

from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from studio.forms.members import MemberForm
from studio.models import Member, Role


class Command(BaseCommand):
    help = "Enter somebody who works here. Needed once, for the first owner: everybody else is entered on the pages."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("sign_in_name", help="the name to sign in by, one word")
        parser.add_argument("--name", required=True, help="the person's name")
        parser.add_argument("--short", required=True, help="initials, as written on sheets")
        parser.add_argument(
            "--role", action="append", choices=Role.values,
            help="may be given again; if left out, all of them for the first of the house, then owner",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        form = MemberForm(
            {
                "name": options["name"],
                "short": options["short"],
                "active": True,
                "roles": options["role"] or ([Role.OWNER] if Member.objects.exists() else list(Role)),
                "sign_in_name": options["sign_in_name"],
                "password": self._password(),
            },
            instance=Member(),
        )
        if not form.is_valid() or not form.keep():
            raise CommandError("\n".join(self._faults(form)))
        self.stdout.write(_("%(name)s can sign in as %(sign_in)s.") % {
            "name": form.instance.name, "sign_in": options["sign_in_name"],
        })  # fmt: skip

    def _password(self) -> str:
        """Asked for, so that it stands in no shell's memory; a line of standard input for scripts."""
        return getpass.getpass(_("Password: ")) if sys.stdin.isatty() else sys.stdin.readline().rstrip("\n")

    @staticmethod
    def _faults(form: MemberForm) -> list[str]:
        faults: list[str] = []
        for name, errors in form.errors.as_data().items():
            label = capfirst(str(form.fields[name].label)) if name in form.fields else ""
            faults += [f"{label}: {sentence}" for error in errors for sentence in ValidationError(error).messages]
        return faults
