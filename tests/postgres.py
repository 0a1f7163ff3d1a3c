"""A PostgreSQL server for tests. Belongs here: finding Debian's server, starting it in a folder of its own as a user
of its own, and stopping it; `python -m tests.postgres [ARGUMENTS OF PYTEST]` runs all tests on it. Not here: what is
tested on it."""

from __future__ import annotations

import os
import pwd
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any


class Unavailable(Exception):
    """No server can be started here; `str()` says why."""


def programs() -> Path:
    """The folder of `initdb` and `pg_ctl`: `PG_BIN`, else the newest of Debian's (`apt-get install postgresql`)."""
    if named := os.environ.get("PG_BIN"):
        return Path(named)
    found = list(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    if not found:
        raise Unavailable("no PostgreSQL server found: apt-get install postgresql, or set PG_BIN")
    return max(found, key=lambda path: int(re.sub(r"\D.*", "", path.parts[-3]))).parent


class Running(dict[str, str]):
    """What the environment must say to use a server that is there; it may be sent away for a while."""

    def __init__(self, said: dict[str, str], start: Callable[[], None], stop: Callable[[], None]) -> None:
        super().__init__(said)
        self.start, self.stop = start, stop


@contextmanager
def server() -> Iterator[Running]:
    """A server that listens on a socket in its own folder; yields what the environment must say to use it."""
    bin_folder = programs()
    folder = Path(tempfile.mkdtemp(prefix="pg"))
    whose = _other_user(folder) if os.geteuid() == 0 else {}

    def run(program: str, *arguments: str) -> None:
        done = subprocess.run(
            [str(bin_folder / program), *arguments], cwd=folder, capture_output=True, text=True, timeout=60, **whose
        )
        if done.returncode:
            raise Unavailable(f"{program} failed: {done.stdout}{done.stderr}")

    data, log = str(folder / "data"), str(folder / "log")
    options = f"-c listen_addresses= -c unix_socket_directories={folder} -c fsync=off -c full_page_writes=off"

    def start() -> None:
        run("pg_ctl", "start", "--wait", "--pgdata", data, "--log", log, "--options", options)

    def stop() -> None:
        run("pg_ctl", "stop", "--mode=immediate", "--pgdata", data)

    try:
        run("initdb", "--no-sync", "--auth=trust", "--encoding=UTF8", "--username=tenthstop", "--pgdata", data)
        start()
        try:
            said = {"DATABASE_URL": "postgres:///tenthstop", "PGHOST": str(folder), "PGUSER": "tenthstop"}
            yield Running(said, start, stop)
        finally:
            stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _other_user(folder: Path) -> dict[str, Any]:
    """The server refuses to run as root: it runs as somebody else, who owns the folder."""
    known = {entry.pw_name: entry for entry in pwd.getpwall()}
    entry = known.get("postgres") or known["nobody"]
    os.chown(folder, entry.pw_uid, entry.pw_gid)
    return {"user": entry.pw_uid, "group": entry.pw_gid, "extra_groups": []}


if __name__ == "__main__":
    with server() as there:
        raise SystemExit(subprocess.call([sys.executable, "-m", "pytest", *sys.argv[1:]], env=os.environ | there))
