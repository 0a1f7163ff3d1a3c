"""What makes the database itself refuse two claims on one thing at one time. Belongs here: the constraint of
PostgreSQL, the triggers of SQLite, and asking whether they are there. Not here: the words of a refusal."""

from __future__ import annotations

from typing import Any

from django.db import connections
from django.db.backends.base.base import BaseDatabaseWrapper

TABLE = "bookings_claim"
NAME = "claim_no_overlap"
LONGEST_DAYS = 31  # bounds the search of the triggers: an older claim cannot reach into this one

_CONSTRAINTS = f"""
CREATE EXTENSION IF NOT EXISTS btree_gist;
ALTER TABLE {TABLE} DROP CONSTRAINT IF EXISTS {NAME}, DROP CONSTRAINT IF EXISTS claim_short_enough;
ALTER TABLE {TABLE} ADD CONSTRAINT {NAME}
  EXCLUDE USING gist (resource_kind WITH =, resource_id WITH =, tstzrange(starts_at, ends_at) WITH &&);
ALTER TABLE {TABLE} ADD CONSTRAINT claim_short_enough
  CHECK (ends_at <= starts_at + interval '{LONGEST_DAYS} days');
"""

# Django writes times as 'YYYY-MM-DD HH:MM:SS' with the fraction only where there is one: text order is time order.
_TRIGGER = """
CREATE TRIGGER {name}_on_{when} BEFORE {event} ON {table}
BEGIN
  SELECT RAISE(ABORT, 'claim_short_enough') WHERE NEW.ends_at > datetime(NEW.starts_at, '+{days} days');
  SELECT RAISE(ABORT, '{name}') WHERE EXISTS (
    SELECT 1 FROM {table} other
    WHERE other.resource_kind = NEW.resource_kind AND other.resource_id = NEW.resource_id
      AND other.starts_at < NEW.ends_at AND other.ends_at > NEW.starts_at
      AND other.starts_at >= datetime(NEW.starts_at, '-{days} days', '-1 second'){but_itself}
  );
END
"""
_EVENTS = {
    "insert": ("INSERT", ""),
    "update": ("UPDATE OF resource_kind, resource_id, starts_at, ends_at", " AND other.id <> OLD.id"),
}
TRIGGERS = tuple(f"{NAME}_on_{when}" for when in _EVENTS)


def install(connection: BaseDatabaseWrapper) -> None:
    """Make the database refuse, on SQLite anew each time: it loses triggers whenever Django remakes the table."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            if missing(connection):
                cursor.execute(_CONSTRAINTS)
            return
        for when, (event, but_itself) in _EVENTS.items():
            cursor.execute(f"DROP TRIGGER IF EXISTS {NAME}_on_{when}")
            cursor.execute(
                _TRIGGER.format(
                    name=NAME, when=when, event=event, table=TABLE, days=LONGEST_DAYS, but_itself=but_itself
                )
            )


def missing(connection: BaseDatabaseWrapper) -> bool:
    """Whether the table is there without its guard."""
    with connection.cursor() as cursor:
        if TABLE not in connection.introspection.table_names(cursor):
            return False
        if connection.vendor == "postgresql":
            cursor.execute("SELECT count(*) FROM pg_constraint WHERE conname = %s AND contype = 'x'", [NAME])
            return cursor.fetchone()[0] == 0
        cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = %s", [TABLE])
        return not set(TRIGGERS) <= {name for (name,) in cursor.fetchall()}


def after_migrate(using: str, **kwargs: Any) -> None:
    """Put the guard back after every migrate, if there is a table to guard."""
    connection = connections[using]
    if missing(connection) or connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            there = TABLE in connection.introspection.table_names(cursor)
        if there:
            install(connection)
