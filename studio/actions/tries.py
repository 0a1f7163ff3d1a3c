"""Tries at the door that failed, and how long the next must wait. Belongs here: counting them, for the name and for the
code after it. Not here: what somebody is told (`forms.sign_in`).

What is counted is a name together with where it is tried from, so that somebody who tries a name from elsewhere keeps
nobody out: the device a member came in from before has a count of its own, also behind the same address. Written here
instead of taken from a library: those at hand keep the typed name and the address in tables and logs, and wait as long
after the fiftieth try as after the fifth.
"""

from __future__ import annotations

import logging
from datetime import datetime, timedelta

from django.db import transaction
from django.utils.crypto import salted_hmac

from studio import clock
from studio.models import SignInTries

log = logging.getLogger("studio.doors")
FREE = 5  # slips of the finger; common practice, no source
FIRST_WAIT, LONGEST_WAIT = timedelta(seconds=30), timedelta(hours=1)
FORGOTTEN = timedelta(days=1)


def key_of(*parts: object) -> str:
    """What is counted together; it cannot be read back without the house's secret key."""
    return salted_hmac("studio.tries", "\n".join(map(str, parts)), algorithm="sha256").hexdigest()


def wait_after(tries: int) -> timedelta:
    """Nothing after the first few, then 30 seconds, doubled with each try up to an hour."""
    if tries < FREE:
        return timedelta(0)
    return min(FIRST_WAIT * 2 ** min(tries - FREE, 20), LONGEST_WAIT)


@transaction.atomic
def counted(*, key: str) -> datetime | None:
    """Count a try before it is looked at, so that a hundred at once are a hundred; or, where it comes too early, from
    when the next will be looked at."""
    now = clock.now()
    row, is_new = SignInTries.objects.select_for_update().get_or_create(
        key=key, defaults={"last_at": now, "open_at": now}
    )
    if is_new:
        SignInTries.objects.filter(last_at__lt=now - FORGOTTEN).delete()
    elif row.open_at > now:
        log.warning("sign_in_too_early")
        return row.open_at
    elif row.last_at < now - FORGOTTEN:
        row.tries = 0
    row.tries, row.last_at = row.tries + 1, now
    row.open_at = now + wait_after(row.tries)
    row.save()
    return None


def note_failed() -> None:
    """For whoever looks after the machine: that it happened, neither who nor what nor from where."""
    log.warning("sign_in_failed")


def forget(*, key: str) -> None:
    """Whoever came in has nothing against them any more."""
    SignInTries.objects.filter(key=key).delete()
