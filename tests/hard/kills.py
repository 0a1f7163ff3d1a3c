"""The server killed in the middle of writes. Belongs here: a real server as a child, eight browsers that write and note
each answer that said "saved", killing it at a moment drawn by chance, and looking what the database holds. Not here:
what is written (`writers`); what a power cut leaves (each commit is on the disk first: `studio/settings.py`)."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from tests.hard import prepared
from tests.hard.writers import Kept, Writers, in_new_house
from tests.ports import free_port

BROWSERS = 8
DATABASE_TOO = 5  # on PostgreSQL, every so many rounds one of its own processes is killed before the house
PATIENCE_S = 300
TOKEN = "k" * 32


@dataclass
class Found:
    """What came of it."""

    rounds: int = 0
    answered: Counter[str] = field(default_factory=Counter)  # "saved", by what was written
    refused: int = 0
    outages: int = 0  # told in words that the database is gone, after it was killed
    in_flight: int = 0  # sent and never answered
    faults: list[str] = field(default_factory=list)


class Server:
    """The house as the README serves it, in a process group of its own."""

    def __init__(self) -> None:
        self.port = free_port()
        bind = ["--bind", f"127.0.0.1:{self.port}", "--log-level", "critical", "--preload"]
        command = [sys.executable, "-m", "gunicorn", "studio.wsgi", "--workers", "2", "--threads", "4", *bind]
        self.process = subprocess.Popen(
            command, cwd=Path(__file__).parents[2], start_new_session=True, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )  # fmt: skip
        until = time.monotonic() + 120
        while self.ask("GET", "/live/", "", {})[0] != 200:
            if time.monotonic() > until:
                self.kill()
                raise TimeoutError("the server did not come up")
            time.sleep(0.1)

    def ask(self, method: str, path: str, cookie: str, sent: dict[str, Any], **more: str) -> tuple[int, str, str]:
        """Status, where to, and the text; a status of 0 where nothing came back."""
        head = {
            "Cookie": f"{cookie}; csrftoken={TOKEN}", "X-CSRFToken": TOKEN,
            "Content-Type": "application/x-www-form-urlencoded",
        }  # fmt: skip
        asked = HTTPConnection("127.0.0.1", self.port, timeout=60)
        try:
            asked.request(method, path, urlencode(sent), head | more)
            answer = asked.getresponse()
            return answer.status, answer.headers.get("Location", ""), answer.read().decode()
        except (OSError, HTTPException):
            return 0, "", ""
        finally:
            asked.close()

    def kill(self) -> None:
        """Every process of it at once, without a word."""
        with suppress(ProcessLookupError):
            os.killpg(self.process.pid, signal.SIGKILL)
        self.process.wait()


class Round:
    """Eight browsers that write until so many were saved; what was answered as saved is kept."""

    def __init__(self, writers: Writers, found: Found, *, posts: int, dies_after: int) -> None:
        self.writers, self.found, self.dies_after = writers, found, dies_after
        self.kept: list[Kept] = []
        self.lock, self.is_time, self.is_killed = threading.Lock(), threading.Event(), threading.Event()
        self.sent = iter(range(1, posts + 1))

    def play(self, server: Server, chance: random.Random, *, database_too: bool) -> list[Kept]:
        threads = [threading.Thread(target=self._browse, args=(server, n)) for n in range(BROWSERS)]
        for thread in threads:
            thread.start()
        self.is_time.wait(timeout=PATIENCE_S)
        time.sleep(chance.random() / 50)  # the others are somewhere in the middle of theirs
        if database_too:
            prepared.kill_one()
            time.sleep(chance.random())
        server.kill()
        self.is_killed.set()
        for thread in threads:
            thread.join()
        return self.kept

    def _browse(self, server: Server, browser: int) -> None:
        while not self.is_killed.is_set():
            with self.lock:
                number = next(self.sent, None)
            if number is None:
                break
            what = self.writers.kinds[number % len(self.writers.kinds)]
            status, written = self.writers.write(server, browser, what, number)
            with self.lock:
                self._note(status, written)
        self.is_time.set()

    def _note(self, status: int, written: Kept) -> None:
        what = written[0]
        if status == 302:
            self.kept.append(written)
            self.found.answered[what] += 1
        elif status == 503 and self.is_time.is_set():
            self.found.outages += 1
        elif status >= 500 or status == 403:
            self.found.faults.append(f"{what}: answered {status}")
        elif status:
            self.found.refused += 1
        else:
            self.found.in_flight += 1
        if len(self.kept) >= self.dies_after:
            self.is_time.set()


def lost_or_half(kept: list[Kept]) -> list[str]:
    """What was answered and is not there, and what is there by half."""
    from django.db import IntegrityError, connection

    from bookings.models import Client, Complaint, Payment, Sitting, SittingChange
    from studio.models import Consumable, Entry

    wrong = []
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            said = cursor.execute("PRAGMA integrity_check").fetchall()
            wrong += [f"integrity: {said}"] if said != [("ok",)] else []
    try:
        connection.check_constraints()
    except IntegrityError as error:
        wrong.append(str(error))
    there: dict[str, set[str]] = {
        "client": set(Client.objects.values_list("name", flat=True)),
        "money": set(Payment.objects.values_list("note", flat=True)),
        "consumable": set(Consumable.objects.values_list("name", flat=True)),
        "complaint": set(Complaint.objects.values_list("said", flat=True)),
        "booking": set(Sitting.objects.values_list("client__name", flat=True)),
        "move": set(SittingChange.objects.filter(what="starts_at").values_list("note", flat=True)),
        "reading": {str(pk) for pk in Entry.objects.filter(outcome="kept").values_list("pk", flat=True)},
    }
    wrong += [f"lost: {what} {word}" for what, word in kept if what != "notes" and word not in there[what]]
    return wrong + _notes_lost(kept) + _halves(there["reading"])


def _notes_lost(kept: list[Kept]) -> list[str]:
    """Notes are written over and have no history: what stands there is the last that was answered, or a later one; each
    time brought a wish and raised the version."""
    from bookings.models import Notes

    last: dict[str, int] = {}
    for what, word in kept:
        if what == "notes":
            sitter, number = word.split()
            last[sitter] = max(last.get(sitter, 0), int(number))
    wrong = []
    rows = {str(one.sitter_id): one for one in Notes.objects.all()}
    for sitter, number in last.items():
        if sitter not in rows or (rows[sitter].stand_minutes or 0) < number:
            wrong.append(f"lost: notes {sitter} {number}")
    for one in rows.values():
        if one.version != 1 + one.sitter.wishes.count():
            wrong.append(f"notes of {one.sitter_id} saved {one.version - 1} times, {one.sitter.wishes.count()} wishes")
    return wrong


def _halves(entries: set[str]) -> list[str]:
    from django.db.models import Count, F, Q

    from bookings.models import Claim, NumberSeries, Payment, Sitting
    from shotplans.models import Reading
    from studio.models import Consumable

    wrong = []
    if len(entries) != Reading.objects.count():
        wrong.append(f"{len(entries)} entries kept, {Reading.objects.count()} readings")
    wrong += [f"{one} without a history" for one in Consumable.objects.filter(changes=None, count__gt=0)]
    receipts = sorted(Payment.objects.values_list("receipt", flat=True))
    given = NumberSeries.objects.filter(name="receipts").values_list("last", flat=True).first() or 0
    if receipts != list(range(1, given + 1)):
        wrong.append(f"{given} receipts given, {len(receipts)} payments")
    bare = Sitting.objects.filter(Q(claims=None) | Q(sitters=None) | Q(stage_changes=None))
    wrong += [f"{one.number} is booked by half" for one in bare]
    off = Claim.objects.filter(Q(starts_at__gt=F("sitting__starts_at")) | Q(ends_at__lte=F("sitting__starts_at")))
    wrong += [f"{one} is not where {one.sitting.number} is" for one in off]
    told = Sitting.objects.annotate(moved=Count("changes", filter=Q(changes__what="starts_at")))
    return wrong + [f"{one.number}: version {one.version}, moved {one.moved} times" for one in told.filter(moved__gt=0)
                    if one.version != 1 + one.moved]  # fmt: skip


def run(*, rounds: int, posts: int, number: int, until: float = float("inf")) -> Found:
    """Into the database of the settings, which must be new and migrated; brought back before each round. The same
    number draws the same moments, about the middle of `posts`. Ends before `until` of the clock that only rises."""
    from django.db import connection, connections

    writers, found, chance = in_new_house(BROWSERS), Found(), random.Random(number)
    prepared.keep()
    for n in range(rounds):
        if time.monotonic() > until:
            break
        prepared.bring_back()
        writers.begin()
        database_too = connection.vendor == "postgresql" and n % DATABASE_TOO == DATABASE_TOO - 1
        connections.close_all()
        one = Round(writers, found, posts=posts, dies_after=chance.randrange(posts * 2 // 5, posts * 3 // 5))
        kept = one.play(Server(), chance, database_too=database_too)
        prepared.settle()
        found.faults += [f"round {n + 1}: {said}" for said in lost_or_half(kept)]
        found.rounds += 1
        if rounds > 2:  # a long run says how far it is
            print(f"round {n + 1}: {len(kept)} saved, {len(found.faults)} faults", file=sys.stderr, flush=True)
    return found
