"""One backup each night. Belongs here: what it is called, where it goes, and which old ones are deleted. Not here: what
is in it."""

from __future__ import annotations

import re
import time
from datetime import datetime, timedelta
from pathlib import Path

from django.utils.translation import gettext as _

from studio import clock
from studio.backup.faults import Fault, of_machine

_OURS = re.compile(r"tenthstop-(\d{4}-\d\d-\d\d-\d{6})\.(zip|sealed)")
_MOMENT = "%Y-%m-%d-%H%M%S"


def place(asked: str, *, sealed: bool) -> Path:
    """The file that was asked for: a folder gets a name with the moment (UTC) in it, a name may hold parts of it.

    Raises `Fault` where the folder is missing.
    """
    path = Path(asked)
    if path.is_dir():
        path = path / f"tenthstop-{_MOMENT}.{'sealed' if sealed else 'zip'}"
    elif not (wanted := path if asked.endswith("/") else path.parent).is_dir():
        raise Fault(_("The folder %(folder)s is not there. No backup was made.") % {"folder": wanted})
    return path.with_name(clock.now().strftime(path.name)) if "%" in path.name else path


def thin(folder: Path, nights: int) -> list[Path]:
    """Delete backups of ours in a folder that are older than so many nights, by the moment in their name; and halves of
    yesterday or before, which a machine that stopped left behind."""
    halves = (path for path in folder.glob(".tenthstop-*.part") if path.stat().st_mtime < time.time() - 86_400)
    for path in halves:
        path.unlink(missing_ok=True)
    before = clock.now().replace(tzinfo=None) - timedelta(days=nights)
    old = [path for path in sorted(folder.iterdir()) if (made := _moment(path.name)) and made < before]
    for path in old:
        try:
            path.unlink()
        except OSError as error:
            raise Fault(of_machine(error, path) + " " + _("The new backup is whole; this old one stays.")) from error
    return old


def _moment(name: str) -> datetime | None:
    found = _OURS.fullmatch(name)
    if not found:
        return None
    try:
        return datetime.strptime(found[1], _MOMENT)
    except ValueError:
        return None


def sized(size: int) -> str:
    """A size as it is read: 3.4 MB."""
    if size >= 1e9:
        return f"{size / 1e9:.1f} GB"
    return f"{size / 1e6:.1f} MB" if size >= 1e5 else f"{size / 1e3:.1f} kB"
