"""Plans reckoned once a run: equal inputs give equal plans, and nothing in the suite costs as much as a plan.

Belongs here: keeping plans for this process, for the other processes of one run and for the commands tests start.
Not here: what is asked of a plan. A test of the planner itself calls `solve.plan`, never this.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

import pytest

from shotplans.planner import codec, solve
from shotplans.planner.request import Request

FOLDER = "TENTHSTOP_TEST_PLANS"  # of this run, for every process of it
_PLANNED: dict[str, bytes] = {}
_BEGUN_HERE: list[str] = []
_solve = solve.plan
Made = TypeVar("Made")


def plan(request: Request) -> dict[str, Any]:
    """The plan of an input, the caller's own to change."""
    return once("plan", codec.fingerprint(request), lambda: _solve(request))


def once(what: str, of: str, make: Callable[[], Made]) -> Made:
    """What is made of a text and of nothing else, made once a run; the caller's own to change."""
    key = f"{what}-{hashlib.sha256(of.encode()).hexdigest()}"
    if key not in _PLANNED:
        _PLANNED[key] = _kept(key) or _keep(key, pickle.dumps(make()))
    found: Made = pickle.loads(_PLANNED[key])
    return found


def _kept(key: str) -> bytes:
    path = _path(key)
    return path.read_bytes() if path and path.exists() else b""


def _keep(key: str, made: bytes) -> bytes:
    path = _path(key)
    if path:
        unfinished = path.with_suffix(f".{os.getpid()}")
        unfinished.write_bytes(made)
        unfinished.replace(path)
    return made


def _path(key: str) -> Path | None:
    return beside(f"{key}.plan")


def beside(name: str) -> Path | None:
    """A file of this run, for every process of it."""
    folder = os.environ.get(FOLDER)
    return Path(folder) / name if folder else None


@contextmanager
def reckoned_once() -> Iterator[None]:
    """Inside, equal inputs are planned once a run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(solve, "plan", plan)
        yield


def begin() -> None:
    """A folder for this run, unless this process is part of one that has it."""
    if not os.environ.get(FOLDER):
        os.environ[FOLDER] = tempfile.mkdtemp(prefix="tenthstop-plans-")
        _BEGUN_HERE.append(os.environ[FOLDER])


def end() -> None:
    """Takes the folder away again; a run inside this one (on PostgreSQL) leaves it to whoever made it."""
    while _BEGUN_HERE:
        shutil.rmtree(_BEGUN_HERE.pop(), ignore_errors=True)
        os.environ.pop(FOLDER, None)


if __name__ == "__main__":  # `python -m tests.planned_once demo ...`: manage.py with what was planned already
    from django.conf import settings

    import manage

    sys.argv[0] = "manage.py"
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # as in the suite
    with reckoned_once():
        manage.main()
