"""The bookings on PostgreSQL: what the database itself decides, once more on the other database. `python -m
tests.postgres` runs everything there."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from studio.backup import packing
from tests import homes, postgres

HERE = Path(__file__)
# Locks, constraints, numbers without gaps, ways of finding, texts in any script. What is said on a page and reckoned
# from rows is the same wherever they lie.
DECIDED_BELOW = (
    "bill_numbers", "booking", "find_anything", "find_client", "hold_races", "holds", "outbox", "overlap", "races",
    "slots", "sums",
)  # fmt: skip


# A studio of SQLite that moves there, whole.
MOVING = HERE.parents[1] / "studio" / "moving_to_postgresql.py"


def test_the_bookings_hold_on_postgresql_too(
    request: pytest.FixtureRequest, tmp_path: Path, django_db_setup: None, django_db_blocker: Any
) -> None:
    with django_db_blocker.unblock(), homes.home("old", homes.first_release(request.config, tmp_path)) as studio:
        moves = {"STUDIO_TO_MOVE": str(packing.write(tmp_path / "moves.zip", using=studio).path)}
    files = [str(MOVING), *(str(HERE.with_name(f"test_{name}.py")) for name in DECIDED_BELOW)]
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
