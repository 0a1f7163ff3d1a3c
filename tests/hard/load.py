"""Fifty people at once. Belongs here: the real server as the README serves it, a thread for each of the people of
`crowd`, and the figures. Not here: what they do.

Between two turns each pauses three to ten seconds, as somebody does who reads a page or speaks with a client; a turn is
one page, or what a page needs (the form before a booking, seven posts while a light is dragged). Styles and scripts are
not asked for: a browser has kept them. That makes seven to nine requests a second of fifty people. People arrive
within the first ten seconds; counted is what is asked after fifteen, when each web process has shown a page once.
"""

from __future__ import annotations

import gzip
import os
import threading
import time
from collections import Counter, defaultdict
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from statistics import median
from typing import Any
from urllib.parse import urlencode

from tests.hard.crowd import Answer, Crowd, Person
from tests.hard.kills import TOKEN, Server

PAUSE_S = (3.0, 10.0)
ARRIVE_S, COUNTED_FROM_S = 10.0, 15.0
MOST_TIMES = 10.0  # issue 10: p95 beside the median
WORST = 8
LONG_S = 300  # by then somebody has done each thing there is to do


@dataclass
class Found:
    """What came of it."""

    people: int = 0
    seconds: float = 0.0
    took: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))  # seconds, by what was asked
    saved: Counter[str] = field(default_factory=Counter)
    cpu_s: float = 0.0  # of all the server's processes
    memory_mb: list[float] = field(default_factory=list)  # of each, what it shares counted in part
    faults: list[str] = field(default_factory=list)

    @property
    def all(self) -> list[float]:
        return sorted(one for some in self.took.values() for one in some)

    @property
    def p95(self) -> float:
        return _p95(self.all)

    @property
    def times(self) -> float:
        return self.p95 / median(self.all)


class Load:
    """A server and the people who ask it."""

    def __init__(self, server: Server, crowd: Crowd, found: Found) -> None:
        self.server, self.crowd, self.found = server, crowd, found
        self.lock, self.began = threading.Lock(), 0.0

    def play(self, seconds: float) -> None:
        """All of them for so long after the arriving."""
        self.began = time.monotonic()
        until = self.began + COUNTED_FROM_S + seconds
        threads = [threading.Thread(target=self._work, args=(one, until)) for one in self.crowd.people]
        for thread in threads:
            thread.start()
        time.sleep(COUNTED_FROM_S)
        before = _spent_s(self.server.process.pid)
        time.sleep(max(0.0, until - time.monotonic()))
        self.found.cpu_s = _spent_s(self.server.process.pid) - before
        self.found.memory_mb = _memory_mb(self.server.process.pid)
        self.found.seconds = seconds
        for thread in threads:
            thread.join()

    def _work(self, one: Person, until: float) -> None:
        one.asked, one.wrong = self._ask, self._wrong
        pause = one.chance.uniform(0, ARRIVE_S)
        while time.monotonic() + pause < until:
            time.sleep(pause)
            try:
                one.turn()
            except Exception as error:  # a thread's end is nobody's to see
                self._wrong(f"{one.role}: {error!r}")
            pause = one.chance.uniform(*PAUSE_S)

    def _wrong(self, said: str) -> None:
        with self.lock:
            self.found.faults.append(said)

    def _ask(self, what: str, method: str, path: str, cookie: str, sent: Any = None, **head: str) -> Answer:
        """One request on a connection of its own, as a proxy asks; timed from the first byte out to the last in."""
        began = time.monotonic()
        asked = HTTPConnection("127.0.0.1", self.server.port, timeout=120)
        told = {"Cookie": f"{cookie}; csrftoken={TOKEN}", "X-CSRFToken": TOKEN, "Accept-Encoding": "gzip"} | head
        if sent is not None:
            told["Content-Type"] = "application/x-www-form-urlencoded"
        try:
            asked.request(method, path, urlencode(sent) if sent is not None else None, told)
            answer = asked.getresponse()
            body = answer.read()
        except (OSError, HTTPException) as error:
            self._wrong(f"{what}: {error!r}")
            return 0, "", ""
        finally:
            asked.close()
        if began >= self.began + COUNTED_FROM_S:
            with self.lock:
                self.found.took[what].append(time.monotonic() - began)
        if answer.headers.get("Content-Encoding") == "gzip":
            body = gzip.decompress(body)
        return answer.status, answer.headers.get("Location", ""), body.decode(errors="replace")


def run(*, seconds: float, people: int = 50) -> Found:
    """Into the database of the settings, which must be new and migrated."""
    from django.conf import settings
    from django.db import connections

    from studio import clock

    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # fifty that nobody types
    crowd, found = Crowd(people, clock.today()), Found()
    found.people = len(crowd.people)
    connections.close_all()
    server = Server()
    try:
        Load(server, crowd, found).play(seconds)
    finally:
        server.kill()
    found.faults += crowd.lost(is_long=seconds >= LONG_S)
    for one in crowd.people:
        found.saved.update(what for what, _word in one.saved)
    return found


def told(found: Found) -> list[str]:
    """The row of the table, the server's cost, and the slowest that were asked."""
    count, half = len(found.all), median(found.all)
    rate, spent = count / found.seconds, 1000 * found.cpu_s / count
    verdict = "kept" if found.times <= MOST_TIMES and not found.faults else "BROKEN"
    lines = [
        f"mixed load | {found.people} people, {found.seconds:.0f} s: {count} requests, {rate:.1f} a second, errors "
        f"{len(found.faults)} | median {1000 * half:.0f} ms, p95 {1000 * found.p95:.0f} ms: {found.times:.1f} times "
        f"the median, bar {MOST_TIMES:g} | {verdict}",
        f"saved and there afterwards: {', '.join(f'{what} {n}' for what, n in sorted(found.saved.items()))}",
        f"server: {spent:.0f} ms of a core for a request, {1000 / spent:.0f} requests a second of a core; processes "
        f"of {', '.join(f'{mb:.0f}' for mb in found.memory_mb)} MB",
    ]
    worst = sorted(found.took.items(), key=lambda one: -_p95(sorted(one[1])))[:WORST]
    return lines + [
        f"{what:14} {len(took):5} times, median {1000 * median(took):6.0f} ms, p95 {1000 * _p95(sorted(took)):6.0f} ms"
        for what, took in worst
    ]


def _p95(ordered: list[float]) -> float:
    return ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]


def _of_group(group: int) -> list[tuple[int, list[str]]]:
    """Each process of a process group, with its line of figures."""
    found = []
    for path in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = path.read_text().rpartition(") ")[2].split()
        except OSError:
            continue  # it ended meanwhile
        if int(fields[2]) == group:
            found.append((int(path.parent.name), fields))
    return found


def _spent_s(group: int) -> float:
    ticks = sum(int(fields[11]) + int(fields[12]) for _pid, fields in _of_group(group))
    return ticks / os.sysconf("SC_CLK_TCK")


def _memory_mb(group: int) -> list[float]:
    found = []
    for pid, _fields in _of_group(group):
        rows = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
        found.append(next(int(row.split()[1]) / 1024 for row in rows if row.startswith("Pss:")))
    return sorted(found)
