"""What lets the database find a part of a text without reading every row. Belongs here: an index of all runs of
three letters, by FTS5 on SQLite with triggers that keep it, by pg_trgm on PostgreSQL; and asking whether it is there.
Not here: what is looked for (`find`), how it is asked (`models.found_by`)."""

from __future__ import annotations

from typing import Any

from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper

TABLES = ("bookings_client", "bookings_sitting", "bookings_sitter")

# Without `fastupdate` a new row stands in the index at once; with it, every search reads through a list of what came
# since the last vacuum, which after a list of clients was brought in is most of the time of Find.
_INDEX = """CREATE INDEX IF NOT EXISTS {table}_found ON {table}
USING gin (found_by gin_trgm_ops) WITH (fastupdate = off)"""

_TABLE = """CREATE VIRTUAL TABLE IF NOT EXISTS {table}_found
USING fts5(found_by, content='{table}', content_rowid='id', tokenize='trigram case_sensitive 1')"""
_OUT = "INSERT INTO {table}_found({table}_found, rowid, found_by) VALUES ('delete', OLD.id, OLD.found_by);"
_IN = "INSERT INTO {table}_found(rowid, found_by) VALUES (NEW.id, NEW.found_by);"
_TRIGGERS = {
    "in": f"AFTER INSERT ON {{table}} BEGIN {_IN} END",
    "out": f"AFTER DELETE ON {{table}} BEGIN {_OUT} END",
    # An update that writes the same text, as most do, leaves the index alone.
    "anew": f"AFTER UPDATE OF found_by ON {{table}} WHEN OLD.found_by IS NOT NEW.found_by BEGIN {_OUT} {_IN} END",
}


def install(connection: BaseDatabaseWrapper, table: str) -> None:
    """Make the index of one table, and fill it with what is there."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            cursor.execute("CREATE EXTENSION IF NOT EXISTS pg_trgm")
            cursor.execute(_INDEX.format(table=table))
            return
        cursor.execute(_TABLE.format(table=table))
        for name, trigger in _TRIGGERS.items():
            cursor.execute(f"DROP TRIGGER IF EXISTS {table}_found_{name}")
            cursor.execute(f"CREATE TRIGGER {table}_found_{name} {trigger.format(table=table)}")
        cursor.execute(f"INSERT INTO {table}_found({table}_found) VALUES ('rebuild')")


def missing(connection: BaseDatabaseWrapper) -> list[str]:
    """The tables that are there without their index; SQLite loses triggers whenever Django remakes a table."""
    with connection.cursor() as cursor:
        there = set(connection.introspection.table_names(cursor))
        if connection.vendor == "postgresql":
            cursor.execute("SELECT indexname FROM pg_indexes WHERE schemaname = current_schema()")
            wanted = {table: {f"{table}_found"} for table in TABLES}
        else:
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
            wanted = {table: {f"{table}_found_{name}" for name in _TRIGGERS} for table in TABLES}
        known = {name for (name,) in cursor.fetchall()}
        return [
            table
            for table in TABLES
            if table in there and not wanted[table] <= known and _has_text(cursor, connection, table)
        ]


def _has_text(cursor: Any, connection: BaseDatabaseWrapper, table: str) -> bool:
    """Whether a migrate has come as far as the column."""
    return "found_by" in {column.name for column in connection.introspection.get_table_description(cursor, table)}


def after_migrate(using: str, **kwargs: Any) -> None:
    """Put back after every migrate what is missing."""
    for table in missing(connections[using]):
        install(connections[using], table)
