"""What time it is. Belongs here: the one place that asks the machine's clock, so that a test can set it,
and the demo tell what was.
Times are kept in UTC; the studio's zone is only for showing and for asking what day it is."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import date, datetime

from django.utils import timezone

_stands: ContextVar[datetime | None] = ContextVar("stands", default=None)


def now() -> datetime:
    """This moment, aware, in UTC."""
    return stands() or timezone.now()


def stands() -> datetime | None:
    """The moment the clock was made to stand at, if it was."""
    return _stands.get()


@contextmanager
def standing(moment: datetime) -> Iterator[None]:
    """Inside, it is `moment`: for a story that has a past, and for an entry that was made before it came in."""
    token = _stands.set(moment)
    try:
        yield
    finally:
        _stands.reset(token)


def today() -> date:
    """The day it is in the zone in force, which inside a page is the studio's (`studio.access`)."""
    return timezone.localdate(now())
