"""Putting a backup into an empty studio. Belongs here: what must not be there yet, all rows in one transaction that is
held against the backup once more before it counts, the files last. Not here: whether the backup is whole
(`checking`)."""

from __future__ import annotations

import itertools
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from django.apps import apps as apps_of_today
from django.apps.registry import Apps
from django.core.management import call_command
from django.core.management.color import no_style
from django.db import DatabaseError, connections, transaction
from django.utils.translation import gettext as _

from studio.backup import checking, files, schema, tables
from studio.backup.faults import Fault, NotEmpty, Unusable, of_machine

Say = Callable[[str], None]


def restore(archive: checking.Archive, apps: Apps, *, using: str = "default", say: Say = lambda line: None) -> None:
    """Put a backup that was checked into this empty studio, and bring its tables to today's state.

    Raises `NotEmpty`, `Unusable`, `Fault`.
    """
    _refuse_what_is_there(using)
    data = files.data()
    try:
        data.mkdir(parents=True, exist_ok=True)
        staged = Path(tempfile.mkdtemp(prefix=".restore-", dir=data))
    except OSError as error:
        raise Fault(of_machine(error, data) + " " + _("Nothing was written.")) from error
    try:
        _unpack(archive, staged)
        made = schema.bring_to(using, archive.state)
        with transaction.atomic(using=using):
            _load(archive, apps, using, say)
        files.put_in_place(staged)
    except OSError as error:
        raise Fault(of_machine(error, data)) from error
    finally:
        shutil.rmtree(staged, ignore_errors=True)
    if made or apps is not apps_of_today:
        _bring_to_today(using)


def _bring_to_today(using: str) -> None:
    try:
        call_command("migrate", database=using, verbosity=0, interactive=False)
    except Exception as error:  # whatever a step of it met: what was loaded counts already, and has to be said
        raise Fault(
            _("All of the backup is here, each row compared, but its tables could not be brought to this release: "
              "%(error)s. See to that, then run manage.py migrate; do not restore again.")
            % {"error": str(error).strip().rstrip(".") or type(error).__name__}
        ) from error


def what_is_there(using: str) -> list[str]:
    """Tables that hold rows and folders that hold files, as words."""
    connection = connections[using]
    state = schema.state_of(using)
    models = schema.models_of(using, state) if state else None
    found = []
    with connection.cursor() as cursor:
        there = set(connection.introspection.table_names(cursor))
        for table in tables.travelling(models) if models else ():
            if table.model._meta.db_table in there:
                cursor.execute(f"SELECT count(*) FROM {connection.ops.quote_name(table.model._meta.db_table)}")
                if count := cursor.fetchone()[0]:
                    found.append(f"{table.name} ({count})")
    return found + [f"{name}/" for name in files.in_the_way()]


def _refuse_what_is_there(using: str) -> None:
    there = what_is_there(using)
    if there:
        raise NotEmpty(
            _("There is a studio here already: %(what)s. A backup goes into an empty one. Nothing was written.")
            % {"what": ", ".join(there[:6]) + (" …" if len(there) > 6 else "")}
        )


def _unpack(archive: checking.Archive, staged: Path) -> None:
    """The files beside their place: a disk too small for them is found before a row is written."""
    for name in archive.told["files"]:
        to = staged / name
        to.parent.mkdir(parents=True, exist_ok=True)
        with archive.zip.open(f"files/{name}") as part, to.open("wb") as out:
            shutil.copyfileobj(part, out, 256 * 1024)


def _load(archive: checking.Archive, apps: Apps, using: str, say: Say) -> None:
    """Every row, then every tie between rows, then every table read back and held against the backup."""
    columns = {name: told["columns"] for name, told in archive.told["tables"].items()}
    found = [table.in_order_of(columns[table.name]) for table in tables.travelling(apps)]
    connection = connections[using]
    at = ""
    try:
        for table in found:
            at = table.name
            _fill(table, archive.rows(at), using)
        at = _("a tie between rows")
        connection.check_constraints()
        _count_on(found, connection)
    except (DatabaseError, ValueError, OverflowError) as error:
        said = str(error).strip().splitlines()[0].rstrip(".")
        raise Unusable(
            _("%(what)s does not fit into this database: %(error)s. No row was written.") % {"what": at, "error": said}
        ) from error
    for table in found:
        told = archive.told["tables"][table.name]
        if tables.said_of(table, using) != {"rows": told["rows"], "sha256": told["sha256"]}:
            raise Unusable(
                _("%(table)s is not in this database as it is in the backup. No row was kept.")
                % {"table": table.name}
            )
        if told["rows"]:
            say(f"{table.name}: {told['rows']}")


def _fill(table: tables.Table, rows: Iterator[tables.Row], using: str) -> None:
    connection = connections[using]
    quoted = connection.ops.quote_name
    columns = [field.column for field in table.fields]
    into = f"{quoted(table.model._meta.db_table)} ({', '.join(map(quoted, columns))})"
    turned = table.values_of(using)
    with transaction.atomic(using=using), connection.cursor() as cursor:
        if connection.vendor == "postgresql":  # one stream instead of as many statements as rows
            with connection.wrap_database_errors, cursor.cursor.copy(f"COPY {into} FROM STDIN") as copy:
                for row in rows:
                    copy.write_row(turned(row))
            return
        sql = f"INSERT INTO {into} VALUES ({', '.join(['%s'] * len(columns))})"
        while some := [turned(row) for row in itertools.islice(rows, tables.AT_ONCE)]:
            cursor.executemany(sql, some)


def _count_on(found: list[tables.Table], connection: Any) -> None:
    """Keys that are given out next begin after those that came."""
    statements = connection.ops.sequence_reset_sql(no_style(), [table.model for table in found])
    with connection.cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)
