"""The guard in the database: missed when it is gone, put back by a migrate."""

from __future__ import annotations

import pytest
from django.core.management import call_command
from django.db import connection

from bookings import overlap
from bookings.checks import the_database_refuses_overlaps
from bookings.models import Claim


def take_the_guard_away() -> None:
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute(f"ALTER TABLE {overlap.TABLE} DROP CONSTRAINT {overlap.NAME}")
        return
    with connection.schema_editor() as editor:
        editor._remake_table(Claim)  # what any change of a column does on SQLite


@pytest.mark.django_db(transaction=True)
def test_a_guard_that_is_gone_is_an_error_and_a_migrate_puts_it_back() -> None:
    assert the_database_refuses_overlaps(None, databases=["default"]) == []
    take_the_guard_away()
    assert overlap.missing(connection)
    [error] = the_database_refuses_overlaps(None, databases=["default"])
    assert "does not refuse overlapping claims" in error.msg
    assert "migrate --skip-checks" in error.hint
    call_command("migrate", skip_checks=True, verbosity=0)
    assert the_database_refuses_overlaps(None, databases=["default"]) == []


@pytest.mark.django_db
def test_a_database_without_the_table_has_nothing_to_guard_yet(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(overlap, "TABLE", "bookings_not_made_yet")
    assert not overlap.missing(connection)
    overlap.after_migrate(using="default")
