"""`manage.py makemessages -l de`: a catalogue for a translator, as Django makes it.

Belongs here: what Django's own does not look for, the `noop` that marks sentences of tables in packages without Django.
"""

from __future__ import annotations

from django.core.management.commands import makemessages


class Command(makemessages.Command):
    # A per cent sign in a table's sentence is one to read ("2 % of"): its blanks are in braces.
    xgettext_options = [*makemessages.Command.xgettext_options, "--keyword=noop", "--flag=noop:1:no-python-format"]  # noqa: RUF012
