"""Letters that wait, as a fact of the machine. Belongs here: how many, and whether they should be gone by now. Not
here: sending them (`actions.outbox`)."""

from __future__ import annotations

from datetime import timedelta

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bookings.models import Letter
from studio import clock
from studio.status import Fact

# `send_due_letters` runs every five minutes: what has been due for an hour is held up.
HELD_UP = timedelta(hours=1)


def facts() -> list[Fact]:
    """Letters to be sent by mail now, and those given up."""
    now = clock.now()
    due = Letter.objects.due(now)
    count, late = due.count(), due.filter(due_at__lte=now - HELD_UP).exists()
    said = ngettext("%(n)d is due to be sent", "%(n)d are due to be sent", count) % {"n": count}
    cure = _("They should be gone by now: see that send_due_letters runs every five minutes, and EMAIL_URL.")
    return [Fact(_("Letters waiting"), said, late, cure if late else "")]
