"""That PostgreSQL carries the house: it migrates, a studio moves there whole, books, and is refused an overlap.
`.ci/run` runs every test that keeps rows there (`python -m tests.postgres --rows`)."""

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
