"""The database gone for a while under a house at work. Belongs here: browsers that write all the time, sending
PostgreSQL away and starting it again, and holding what is answered meanwhile. Not here: what is written (`writers`),
looking for what was lost (`kills`)."""

from __future__ import annotations

import subprocess
import sys
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from tests.hard import prepared
from tests.hard.kills import BROWSERS, Server, lost_or_half
from tests.hard.writers import Kept, Writers, in_new_house
from tests.postgres import Running

SAVED = 60  # before it goes, and once more after it is back
LONGEST_S = 15.0  # of an answer meanwhile: a new connection is waited for ten seconds (studio/settings.py)
BACK_WITHIN_S = 20.0
PATIENCE_S = 120


@dataclass
class Found:
    """What came of it."""

    saved: Counter[str] = field(default_factory=Counter)  # by what was written
    told: int = 0  # answers that said in words that it is gone
    refused: int = 0
    slowest_s: float = 0.0
    back_s: float = 0.0  # from its start to the first answer of `/ready/`
    faults: list[str] = field(default_factory=list)


class House:
    """A server, those who write, and whether the database is away."""

    def __init__(self, writers: Writers, found: Found) -> None:
        self.writers, self.found, self.kept = writers, found, list[Kept]()
        self.lock, self.over, self.may_fail = threading.Lock(), threading.Event(), threading.Event()
        self.numbers = count(1)
        self.server = Server()

    def browse(self, browser: int) -> None:
        while not self.over.is_set():
            with self.lock:
                number = next(self.numbers)
            might, began = self.may_fail.is_set(), time.monotonic()
            what = self.writers.kinds[number % len(self.writers.kinds)]
            status, written = self.writers.write(self.server, browser, what, number)
            might = might or self.may_fail.is_set()
            with self.lock:
                self._note(status, written, time.monotonic() - began, might=might)
            if status == 503:
                time.sleep(0.2)

    def _note(self, status: int, written: Kept, took_s: float, *, might: bool) -> None:
        self.found.slowest_s = max(self.found.slowest_s, took_s)
        if status == 302:
            self.kept.append(written)
            self.found.saved[written[0]] += 1
        elif status == 503 and might:
            self.found.told += 1
        elif status in (0, 403) or status >= 500:
            self.found.faults.append(f"{written[0]}: answered {status}, gone: {might}")
        else:
            self.found.refused += 1

    def wait_saved(self, more: int) -> None:
        enough, until = len(self.kept) + more, time.monotonic() + PATIENCE_S
        while len(self.kept) < enough and time.monotonic() < until:
            time.sleep(0.05)
        if len(self.kept) < enough:
            self.found.faults.append(f"{more} more were not saved within {PATIENCE_S} s")

    def look_at_it_away(self) -> None:
        """What a balancer, a person and cron are told."""
        desk = self.writers.cookie["front_desk"]
        for path, wanted, cookie in (("/live/", 200, ""), ("/ready/", 503, ""), ("/", 503, desk)):
            status, _to, said = self.server.ask("GET", path, cookie, {})
            if status != wanted or (path == "/" and "database does not answer" not in said):
                self.found.faults.append(f"{path}: answered {status} while it was gone")
        command = [sys.executable, "manage.py", "send_due_letters"]
        done = subprocess.run(command, cwd=Path(__file__).parents[2], capture_output=True, text=True, check=False)
        if not done.returncode or "Traceback" in done.stderr or "does not answer" not in done.stderr:
            self.found.faults.append(f"send_due_letters: {done.returncode}, {done.stderr[-300:]}")

    def wait_ready(self) -> float:
        began = time.monotonic()
        while self.server.ask("GET", "/ready/", "", {})[0] != 200:
            if time.monotonic() - began > PATIENCE_S:
                break
            time.sleep(0.05)
        return time.monotonic() - began


def run(there: Running, *, seconds: float) -> Found:
    """On that server, in the database of the settings, which must be new and migrated."""
    from django.db import connections

    found = Found()
    writers = in_new_house(BROWSERS)
    writers.begin()
    connections.close_all()
    house = House(writers, found)
    threads = [threading.Thread(target=house.browse, args=(n,)) for n in range(BROWSERS)]
    try:
        for thread in threads:
            thread.start()
        house.wait_saved(SAVED)
        house.may_fail.set()
        began = time.monotonic()
        there.stop()
        house.look_at_it_away()
        time.sleep(max(0.0, began + seconds - time.monotonic()))
        there.start()
        found.back_s = house.wait_ready()
        time.sleep(1)  # answers that were on their way
        house.may_fail.clear()
        house.wait_saved(SAVED)
    finally:
        house.over.set()
        for thread in threads:
            thread.join()
        house.server.kill()
    prepared.settle()
    if found.slowest_s > LONGEST_S:
        found.faults.append(f"an answer took {found.slowest_s:.1f} s")
    if found.back_s > BACK_WITHIN_S:
        found.faults.append(f"ready only {found.back_s:.1f} s after the database was")
    if not found.told:
        found.faults.append("nobody was told that it is gone")
    found.faults += lost_or_half(house.kept)
    return found
