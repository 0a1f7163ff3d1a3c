"""Whether a backup is whole. Belongs here: opening one, sealed or plain, and holding every byte, row and file of it
against what it says of itself, before anything is written anywhere. Not here: putting it in place."""

from __future__ import annotations

import contextlib
import hashlib
import io
import json
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from django.apps.registry import Apps
from django.utils.translation import gettext as _

from studio.backup import files, schema, tables
from studio.backup.faults import Fault, Unusable, of_machine
from studio.backup.packing import FORM, MANIFEST, REMARK, member_of
from studio.backup.sealing import MARK, Opened, WrongKey

BROKEN = (
    zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, KeyError, ValueError, TypeError,
)  # fmt: skip
MOST_MANIFEST = 256_000_000


@dataclass(frozen=True)
class Archive:
    """A backup that was opened; what it says of itself is checked by `check`."""

    zip: zipfile.ZipFile
    told: dict[str, Any]

    @property
    def state(self) -> schema.State:
        return [[str(app), str(name)] for app, name in self.told["migrations"]]

    def rows(self, name: str) -> Iterator[tables.Row]:
        """The rows of one table, one after the other."""
        with self.zip.open(member_of(name)) as part:
            for line in part:
                yield json.loads(line.decode())


@contextlib.contextmanager
def opened(path: Path, *, key: str = "") -> Iterator[Archive]:
    """Open a backup whose bytes are those that were written.

    Raises `Unusable`, `Fault` where the machine cannot read it.
    """
    try:
        file = path.open("rb")
    except OSError as error:
        raise Fault(of_machine(error, path)) from error
    with file, _faults(path):
        plain = _unsealed(path, file, key)
        _hold_against_remark(path, plain)
        with zipfile.ZipFile(plain) as archive:
            if archive.getinfo(MANIFEST).file_size > MOST_MANIFEST:
                raise Unusable(_damaged(path))
            told = json.loads(archive.read(MANIFEST))
            if told["form"] != FORM:
                raise Unusable(_("A newer release made this backup, in a form that is not known here."))
            yield Archive(archive, told)


@contextlib.contextmanager
def _faults(path: Path) -> Iterator[None]:
    """Whatever breaks while a backup is read means that it is damaged."""
    try:
        yield
    except WrongKey:
        raise Unusable(
            _("%(file)s does not open: BACKUP_KEY is another one, or the file is damaged. Nothing was written.")
            % {"file": path}
        ) from None
    except BROKEN as error:
        raise Unusable(_damaged(path)) from error


def check(archive: Archive, *, using: str = "default") -> Apps:
    """Hold every row and every file against what the backup says; gives the models of its state.

    Raises `Unusable`.
    """
    apps = schema.models_of(using, archive.state)
    here = {table.name: table for table in tables.travelling(apps)}
    told = archive.told["tables"]
    parts = {"README.txt", MANIFEST, *map(member_of, told), *(f"files/{name}" for name in archive.told["files"])}
    if {*here} != {*told} or parts != {*archive.zip.namelist()} or len(parts) != len(archive.zip.namelist()):
        raise Unusable(_("The backup does not hold the tables of its own release. Nothing was written."))
    for name, table in here.items():
        _check_table(archive, table.in_order_of(told[name]["columns"]), told[name])
    for name, said in archive.told["files"].items():
        _check_file(archive, name, said)
    return apps


def _check_table(archive: Archive, table: tables.Table, told: dict[str, Any]) -> None:
    digest = tables.Digest(table.fields)
    for row in archive.rows(table.name):
        digest.take(row)
    if digest.said != {"rows": told["rows"], "sha256": told["sha256"]}:
        raise Unusable(
            _("The table %(name)s is not as it was written. Nothing was written.") % {"name": table.name}
        )


def _check_file(archive: Archive, name: str, told: dict[str, Any]) -> None:
    found, size = hashlib.sha256(), 0
    with archive.zip.open(f"files/{name}") as part:
        while piece := part.read(256 * 1024):
            found.update(piece)
            size += len(piece)
    if not files.fits(name) or told != {"bytes": size, "sha256": found.hexdigest()}:
        raise Unusable(_("The file %(name)s is not as it was written. Nothing was written.") % {"name": name})


def _unsealed(path: Path, file: IO[bytes], key: str) -> IO[bytes]:
    sealed = file.read(len(MARK)) == MARK
    file.seek(0)
    if not sealed:
        return file
    if not key:
        raise Unusable(_("%(file)s is sealed: set BACKUP_KEY to the passphrase it was made with.") % {"file": path})
    return io.BufferedReader(Opened(file, key), 64 * 1024)


def _hold_against_remark(path: Path, file: IO[bytes]) -> None:
    """The digest at the end is that of every byte before it."""
    left = file.seek(0, io.SEEK_END) - len(REMARK)
    file.seek(0)
    found = hashlib.sha256()
    while left > 0 and (piece := file.read(min(left, 1024 * 1024))):
        found.update(piece)
        left -= len(piece)
    if left < 0 or file.read() != REMARK[:7] + found.hexdigest().encode():
        raise Unusable(_damaged(path))
    file.seek(0)


def _damaged(path: Path) -> str:
    return _("%(file)s is no backup, or not whole: it is not what was written. Nothing was written.") % {"file": path}
