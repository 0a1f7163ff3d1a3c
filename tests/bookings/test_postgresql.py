"""The bookings on PostgreSQL: every other test of this folder again, on the other database."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests import postgres

HERE = Path(__file__)


def test_the_bookings_hold_on_postgresql_too() -> None:
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", str(HERE.parent), f"--ignore={HERE}"]
    try:
        with postgres.server() as address:
            done = subprocess.run(
                command, cwd=HERE.parents[2], env=os.environ | address, capture_output=True, text=True, timeout=400
            )
    except postgres.Unavailable as reason:
        pytest.skip(str(reason))
    assert done.returncode == 0, done.stdout[-8000:] + done.stderr[-2000:]
