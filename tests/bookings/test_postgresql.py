"""The bookings on PostgreSQL: what the database itself decides, once more on the other database. `python -m
tests.postgres` runs everything there."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests import postgres

HERE = Path(__file__)
# Locks, constraints, numbers without gaps, ways of finding, texts in any script. What is said on a page and reckoned
# from rows is the same wherever they lie.
DECIDED_BELOW = (
    "bill_numbers", "booking", "find_anything", "find_client", "hold_races", "holds", "outbox", "overlap", "races",
    "slots", "sums",
)  # fmt: skip


def test_the_bookings_hold_on_postgresql_too() -> None:
    files = [str(HERE.with_name(f"test_{name}.py")) for name in DECIDED_BELOW]
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *files]
    try:
        with postgres.server() as address:
            done = subprocess.run(
                command, cwd=HERE.parents[2], env=os.environ | address, capture_output=True, text=True, timeout=400
            )
    except postgres.Unavailable as reason:
        pytest.skip(str(reason))
    assert done.returncode == 0, done.stdout[-8000:] + done.stderr[-2000:]
