"""Writing a backup while the house works. Belongs here: one moment of all tables and the files beside them, in one file
that appears when it is whole. Not here: what a row looks like (`tables`), the seal (`sealing`).

The file is a zip, which any program opens: a table each as `tables/NAME.jsonl`, one row a line in the order of the
columns that `manifest.json` names; the files; and as the zip's own remark the SHA-256 of every byte before it.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any, Protocol

from django.db import connections, transaction
from django.utils.translation import gettext as _

from studio import clock, release
from studio.backup import files, schema, tables
from studio.backup.faults import Fault, of_machine
from studio.backup.sealing import Sealer

FORM = 1
MANIFEST = "manifest.json"
REMARK = b"sha256:" + b"0" * 64
QUICK = 3  # of zlib's nine: a third larger than its best, in a quarter of its time
READ_ME = """A backup of a studio, made by `manage.py backup`. `manage.py restore FILE` puts it into an empty studio;
README of the program says how. Each line of tables/NAME.jsonl is one row; manifest.json names the columns.
Not in it: who is signed in, and what `migrate` makes by itself.
"""


class Sink(Protocol):
    def write(self, data: bytes) -> int: ...


@dataclass(frozen=True)
class Made:
    """A backup that is whole and in its place."""

    path: Path
    size: int
    sha256: str  # of the file as it lies there
    rows: int
    files: int
    sealed: bool


def write(path: Path, *, key: str = "", using: str = "default") -> Made:
    """Write a new file, readable by its owner alone, which appears when all of it is on the disk.

    Raises `Fault`; then there is no file.
    """
    if path.exists():
        raise Fault(_("%(file)s is there already: name another file. Nothing was written.") % {"file": path})
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with open(os.open(part, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as file:
            hashed = _Hashed(file)
            rows, count = _seal(hashed, key, using)
            file.flush()
            os.fsync(file.fileno())
        os.rename(part, path)
        _sync_folder(path.parent)
    except OSError as error:
        raise Fault(of_machine(error, path) + " " + _("No backup was made.")) from error
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
    return Made(path, path.stat().st_size, hashed.said, rows, count, bool(key))


def _seal(out: Sink, key: str, using: str) -> tuple[int, int]:
    if not key:
        return _pack(out, False, using)
    sealer = Sealer(out, key)  # type: ignore[arg-type]
    found = _pack(sealer, True, using)
    sealer.finish()
    return found


def _pack(out: Sink, sealed: bool, using: str) -> tuple[int, int]:
    """Give how many rows and files went in."""
    ending = _Ending(out)
    with zipfile.ZipFile(ending, "w", zipfile.ZIP_DEFLATED, compresslevel=QUICK) as archive:  # type: ignore[call-overload]
        archive.comment = REMARK
        archive.writestr("README.txt", READ_ME)
        with one_moment(using):
            state = schema.state_of(using)
            told = {t.name: _table(archive, t, using) for t in tables.travelling(schema.models_of(using, state))}
        kept = dict(_files(archive, sealed))
        manifest = {
            "form": FORM, "release": release.version(), "made_at": clock.now().isoformat(),
            "database": connections[using].vendor, "migrations": state, "tables": told, "files": kept,
            "left_out": tables.LEFT_OUT,
        }  # fmt: skip
        archive.writestr(MANIFEST, json.dumps(manifest, ensure_ascii=False, indent=1))
    ending.finish()
    return sum(table["rows"] for table in told.values()), len(kept)


@contextlib.contextmanager
def one_moment(using: str) -> Iterator[None]:
    """All that is read inside is of one moment, and nobody who writes waits for it."""
    connection: Any = connections[using]
    if connection.vendor == "postgresql":
        with transaction.atomic(using=using), connection.cursor() as cursor:
            if len(connection.savepoint_ids) == 0:
                cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
            yield
        return
    connection.ensure_connection()
    mode, connection.transaction_mode = connection.transaction_mode, "DEFERRED"  # a reader takes no writer's turn
    try:
        with transaction.atomic(using=using), connection.cursor() as cursor:
            cursor.execute("SELECT 1 FROM django_migrations LIMIT 1")  # from here on it is this moment
            yield
    finally:
        connection.transaction_mode = mode


def _table(archive: zipfile.ZipFile, table: tables.Table, using: str) -> dict[str, Any]:
    digest = tables.Digest(table.fields)
    with archive.open(member_of(table.name), "w", force_zip64=True) as out:
        lines: list[bytes] = []
        for row in table.rows(using):
            lines.append(digest.take(row))
            if len(lines) == tables.AT_ONCE:
                out.write(b"".join(lines))
                lines.clear()
        out.write(b"".join(lines))
    return {"columns": table.columns} | digest.said


def member_of(name: str) -> str:
    """The name of a table's part of the zip."""
    return f"tables/{name}.jsonl"


def _files(archive: zipfile.ZipFile, sealed: bool) -> Iterator[tuple[str, dict[str, Any]]]:
    for one in files.kept(sealed=sealed):
        found = hashlib.sha256()
        part = zipfile.ZipInfo(f"files/{one.name}")  # pictures are packed already: stored as they are
        try:
            source = one.path.open("rb")
        except FileNotFoundError:
            continue  # taken away since the folder was read
        with source, archive.open(part, "w", force_zip64=True) as out:
            while piece := source.read(256 * 1024):
                found.update(piece)
                out.write(piece)
            size = source.tell()
        yield one.name, {"bytes": size, "sha256": found.hexdigest()}


def _sync_folder(folder: Path) -> None:
    """The new name too is on the disk."""
    there = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(there)
    finally:
        os.close(there)


class _Hashed:
    """Digests what goes by."""

    def __init__(self, out: IO[bytes]) -> None:
        self._out, self._found = out, hashlib.sha256()

    def write(self, data: bytes) -> int:
        self._found.update(data)
        return self._out.write(data)

    @property
    def said(self) -> str:
        return self._found.hexdigest()


class _Ending:
    """Holds the last bytes back, the zip's remark, and puts the digest of all before into it. It cannot be asked where
    it stands, so that zipfile writes straight on."""

    def __init__(self, out: Sink) -> None:
        self._out, self._found, self._held = out, hashlib.sha256(), b""

    def write(self, data: bytes) -> int:
        whole = self._held + bytes(data)
        ready, self._held = whole[: -len(REMARK)], whole[-len(REMARK) :]
        self._found.update(ready)
        self._out.write(ready)
        return len(data)

    def flush(self) -> None:
        """What is held back stays so."""

    def finish(self) -> None:
        assert self._held == REMARK
        self._out.write(REMARK[:7] + self._found.hexdigest().encode())
