"""When the machine cannot keep anything just now. Belongs here: telling a full disk, a database that only reads, one
that is busy and one that is gone from a fault of ours, by what the database or the system itself calls them. Not here:
the page that says it (`views/faults`), what a device does with entries meanwhile (`static/studio/queue.js` keeps them
and tries again at every answer of 500 and more)."""

from __future__ import annotations

import errno
from enum import StrEnum

from django.db import Error
from django.utils.translation import gettext_lazy as _

AGAIN_S = 30  # a server that is started again is there by then


class Outage(StrEnum):
    """What is the matter with the machine."""

    FULL = "full"
    READ_ONLY = "read-only"
    BUSY = "busy"
    GONE = "gone"


# For who reads a terminal or a cron's letter; a page says more (`templates/503.html`).
SAID = {
    Outage.FULL: _("there is no room left on the disk."),
    Outage.READ_ONLY: _("the database, or the folder of the data, lets nothing be written."),
    Outage.BUSY: _("the database was busy with other work for too long; run it again."),
    Outage.GONE: _("the database does not answer; run it again when it does."),
}

# By the names of SQLite's results, which a longer name only makes narrower (SQLITE_IOERR_WRITE).
_OF_SQLITE = {
    "SQLITE_FULL": Outage.FULL, "SQLITE_READONLY": Outage.READ_ONLY, "SQLITE_BUSY": Outage.BUSY,
    "SQLITE_LOCKED": Outage.BUSY, "SQLITE_CANTOPEN": Outage.GONE, "SQLITE_IOERR": Outage.GONE,
}  # fmt: skip
# By PostgreSQL's five letters, or the class of them: no connection; out of room; shut down; a lock or a turn not had;
# no answer in time (`statement_timeout`).
_OF_POSTGRESQL = {
    "08": Outage.GONE, "53100": Outage.FULL, "53": Outage.BUSY, "57P": Outage.GONE, "25006": Outage.READ_ONLY,
    "55P03": Outage.BUSY, "57014": Outage.BUSY, "40": Outage.BUSY,
}  # fmt: skip
_OF_SYSTEM = {
    errno.ENOSPC: Outage.FULL, errno.EDQUOT: Outage.FULL, errno.EFBIG: Outage.FULL, errno.EROFS: Outage.READ_ONLY,
    errno.EACCES: Outage.READ_ONLY, errno.EIO: Outage.GONE,
}  # fmt: skip


def outage_of(error: BaseException | None) -> Outage | None:
    """What is the matter; None where it is a fault of ours, as a table that is missing is."""
    if isinstance(error, Error):
        return _of_database(error.__cause__ or error)
    if isinstance(error, OSError) and error.errno is not None:
        return _OF_SYSTEM.get(error.errno)
    return None


def _of_database(cause: BaseException) -> Outage | None:
    if name := getattr(cause, "sqlite_errorname", ""):
        return next((what for start, what in _OF_SQLITE.items() if name.startswith(start)), None)
    if state := getattr(cause, "sqlstate", None):
        return next((what for start, what in _OF_POSTGRESQL.items() if state.startswith(start)), None)
    # A PostgreSQL that cannot be asked says no letters; neither does a connection that was shut under us.
    said = type(cause)
    is_gone = said.__module__.startswith("psycopg") and said.__name__ in ("OperationalError", "InterfaceError")
    return Outage.GONE if is_gone or said.__name__ == "ConnectionTimeout" else None
