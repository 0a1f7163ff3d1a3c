"""The server killed in the middle of writes. Belongs here: a real server as a child, eight browsers that write and note
each answer that said "saved", killing it at a moment drawn by chance, and looking what the database holds. Not here:
what a power cut leaves (`studio/settings.py` says which commits may be lost then)."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import threading
import time
import uuid
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from types import SimpleNamespace
from typing import Any
from urllib.parse import urlencode

from tests.ports import free_port

BROWSERS = 8
TOKEN = "k" * 32
Kept = tuple[str, str]  # what was written, and the word by which it is found again


@dataclass
class Found:
    """What came of it."""

    rounds: int = 0
    answered: Counter[str] = field(default_factory=Counter)  # "saved", by what was written
    refused: int = 0
    faults: list[str] = field(default_factory=list)


class Server:
    """The house as the README serves it, in a process group of its own."""

    def __init__(self) -> None:
        self.port = free_port()
        bind = ["--bind", f"127.0.0.1:{self.port}", "--log-level", "critical"]
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


class Writers:
    """What browsers write, each with a word of its own."""

    def __init__(self, world: Any, house: Any) -> None:
        self.sitting, self.setup = world.sitting, world.plan.setups[0]["name"]
        self.house, self.client_pk, self.owner_pk = house, world.sitting.client_id, world.members["owner"].pk
        self.cookie = {who: f"sessionid={kept['sessionid'].value}" for who, kept in world.signed_in.items()}
        self.kinds = ("client", "money", "consumable", "complaint", "reading", "booking")

    def write(self, server: Server, what: str, number: int) -> tuple[int, Kept]:
        """Whether it was answered as saved (302, or an entry kept), and by what it is found."""
        word, where = f"K{number}", f"/sittings/{self.sitting.number}"
        if what == "reading":
            word = str(uuid.uuid4())
            now = str(int(time.time() * 1000))
            status, _to, said = server.ask(
                "POST", f"{where}/plans/1/record/readings/", self.cookie["assistant"],
                {"setup": self.setup, "step": "1", "text": "5.6 4"},
                **{"X-Entry": word, "X-Entry-Made": now, "X-Entry-Sent": now},
            )  # fmt: skip
            return (302 if status == 200 and '"kept"' in said else status), (what, word)
        path, who, sent = self._form(what, word, where, number)
        status, to, _said = server.ask("POST", path, self.cookie[who], sent)
        return (403 if to.startswith("/sign-in") else status), (what, word)

    def _form(self, what: str, word: str, where: str, number: int) -> tuple[str, str, dict[str, Any]]:
        if what == "client":
            return "/clients/new/", "front_desk", {"version": 1, "name": word}
        if what == "money":
            paid = {"kind": "balance", "amount": "0.01", "method": "card", "paid_note": word}
            return f"{where}/money/", "front_desk", paid
        if what == "consumable":
            counted = {"version": 1, "name": word, "unit": "rolls", "count": 3, "low_mark": 1}
            return "/kit/of-all/consumables/new/", "owner", counted
        if what == "complaint":
            said = {"said": word, "cause": "light", "keeper": self.owner_pk, "due_on": "2099-01-01"}
            return f"/clients/{self.client_pk}/complaints/new/", "owner", said
        from tests.bookings.filling import new_sitting, person

        day = f"{2027 + number % 70}-{1 + number // 70 % 12:02d}-{1 + number // 840 % 28:02d}"
        booked = new_sitting(self.house, person(0, "Sitter"), new_name=word, day=day)
        return "/sittings/new/", "front_desk", booked


def one_round(writers: Writers, chance: random.Random, *, posts: int, began: int, found: Found) -> list[Kept]:
    """Write from eight browsers at once until so many were sent or the kill comes; what was answered as saved."""
    server, kept, lock = Server(), [], threading.Lock()
    dies_after, sent = chance.randrange(1, posts), iter(range(began, began + posts))
    dead = threading.Event()

    def browse() -> None:
        while not dead.is_set():
            with lock:
                number = next(sent, None)
            if number is None:
                return
            status, what = writers.write(server, writers.kinds[number % len(writers.kinds)], number)
            with lock:
                if status == 302:
                    kept.append(what)
                    found.answered[what[0]] += 1
                elif status >= 500:
                    found.faults.append(f"{what[0]}: answered {status}")
                elif status:
                    found.refused += 1
            if len(kept) >= dies_after:
                dead.set()

    threads = [threading.Thread(target=browse) for _ in range(BROWSERS)]
    for thread in threads:
        thread.start()
    dead.wait(timeout=300)
    time.sleep(chance.random() / 50)  # the others are somewhere in the middle of theirs
    server.kill()
    dead.set()
    for thread in threads:
        thread.join()
    found.rounds += 1
    return kept


def lost_or_half(kept: list[Kept]) -> list[str]:
    """What was answered and is not there, and what is there by half."""
    from django.db import IntegrityError, connection
    from django.db.models import Count

    from bookings.models import Client, Complaint, Payment, Sitting
    from shotplans.models import Reading
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
    entries = {str(pk) for pk in Entry.objects.filter(outcome=Entry.Outcome.KEPT).values_list("pk", flat=True)}
    there = {
        "client": set(Client.objects.values_list("name", flat=True)),
        "money": set(Payment.objects.values_list("note", flat=True)),
        "consumable": set(Consumable.objects.values_list("name", flat=True)),
        "complaint": set(Complaint.objects.values_list("said", flat=True)),
        "booking": set(Sitting.objects.values_list("client__name", flat=True)),
        "reading": entries,
    }
    wrong += [f"lost: {what} {word}" for what, word in kept if word not in there[what]]
    if len(entries) != Reading.objects.count():
        wrong.append(f"{len(entries)} entries kept, {Reading.objects.count()} readings")
    wrong += [f"{one} without a history" for one in Consumable.objects.filter(changes=None, count__gt=0)]
    bare = Sitting.objects.annotate(held=Count("claims")).filter(held=0)
    return wrong + [f"{one.number} holds nothing" for one in bare]


def run(*, rounds: int, posts: int, number: int) -> Found:
    """Into the database of the settings, which must be new and migrated. The same number draws the same moments."""
    from django.db import connections

    from bookings.models import Kind
    from studio.models import Room
    from tests.access_world import make_world

    world = make_world()
    rooms = list(Room.objects.order_by("pk"))
    kind = Kind.objects.get(pk=world.sitting.kind_id)
    house = SimpleNamespace(members=world.members, kind=kind, other_room=rooms[-1])
    writers, found, chance = Writers(world, house), Found(), random.Random(number)
    for n in range(rounds):
        connections.close_all()
        kept = one_round(writers, chance, posts=posts, began=1 + n * posts, found=found)
        found.faults += [f"round {n + 1}: {said}" for said in lost_or_half(kept)]
    return found
