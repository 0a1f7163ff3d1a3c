"""That PostgreSQL carries the house: it migrates, a studio moves there whole, books, and is refused an overlap.
`.ci/run` runs every test that keeps rows there (`python -m tests.postgres --rows`)."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest import mock

import pytest
from django.db import DatabaseError, connections

from studio import outages
from studio.backup import packing
from studio.outages import Outage
from studio.settings import database
from tests import homes, postgres

HERE = Path(__file__)
BOOKED_THERE = ("booking", "overlap")
# A studio of SQLite that moves there, whole.
MOVING = HERE.parents[1] / "studio" / "moving_to_postgresql.py"


def test_a_studio_moves_to_postgresql_and_books_there(
    request: pytest.FixtureRequest, tmp_path: Path, django_db_setup: None, django_db_blocker: Any
) -> None:
    with django_db_blocker.unblock(), homes.home("old", homes.first_release(request.config, tmp_path)) as studio:
        moves = {"STUDIO_TO_MOVE": str(packing.write(tmp_path / "moves.zip", using=studio).path)}
    files = [str(MOVING), *(str(HERE.with_name(f"test_{name}.py")) for name in BOOKED_THERE)]
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *files]
    try:
        with postgres.server() as address:
            there = os.environ | address | moves
            done = subprocess.run(
                command, cwd=HERE.parents[2], env=there, capture_output=True, text=True, timeout=400
            )
    except postgres.Unavailable as reason:
        pytest.skip(str(reason))
    assert done.returncode == 0, done.stdout[-8000:] + done.stderr[-2000:]


def test_postgresql_sent_away_is_an_outage_and_the_next_request_works(django_db_blocker: Any) -> None:
    try:
        with django_db_blocker.unblock(), postgres.server() as there, _asked_on(there) as asked:
            assert asked() is None
            there.stop()
            assert [asked(), asked()] == [Outage.GONE, Outage.GONE]  # the connection it had, and a new one
            there.start()
            assert asked() is None
    except postgres.Unavailable as reason:
        pytest.skip(str(reason))


@contextmanager
def _asked_on(there: dict[str, str]) -> Iterator[Callable[[], Outage | None]]:
    """Ask that server as a request does, by the settings of the house: what outage it says."""
    options = {"host": there["PGHOST"], "user": there["PGUSER"]}
    with mock.patch.dict("os.environ", {"DATABASE_URL": "postgres:///postgres"}):
        house = database(Path())
    known = connections.databases["default"] | house | {"OPTIONS": {**house["OPTIONS"], **options}}
    connections.databases["away"] = known

    def asked() -> Outage | None:
        away = connections["away"]
        away.close_if_unusable_or_obsolete()  # as at the beginning and end of every request
        try:
            with away.cursor() as cursor:
                cursor.execute("SELECT 1")
        except DatabaseError as error:
            return outages.outage_of(error)
        finally:
            away.close_if_unusable_or_obsolete()
        return None

    try:
        yield asked
    finally:
        connections["away"].close()
        del connections["away"], connections.databases["away"]
