"""What time it is. Belongs here: the one place that asks the machine's clock, so that a test can set it.
Times are kept in UTC; the studio's zone is only for showing and for asking what day it is."""

from __future__ import annotations

from datetime import date, datetime

from django.utils import timezone


def now() -> datetime:
    """This moment, aware, in UTC."""
    return timezone.now()


def today() -> date:
    """The day it is in the zone in force, which inside a page is the studio's (`studio.access`)."""
    return timezone.localdate(now())
