"""The desk's pages in a house of many years: how long each takes beside an empty signed-in page of the same run, how
much that grows from 1,000 sittings to 100,000, and how often each asks the database. Belongs here: filling a database
quickly and measuring. Not here: what the pages say."""

from __future__ import annotations

import logging
import os
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from datetime import UTC, datetime, timedelta
from typing import Any

from tests import postgres

FEW, MANY = 1_000, int(os.environ.get("SITTINGS", "100000"))
CLIENTS_TO_A_SITTING = 0.5
ROOMS, A_DAY = 4, 4  # four rooms, each with four sittings a day: nothing more fits between nine and six
TIMES_EMPTY, GROWTH = 6.0, 1.3
ROUNDS = 15
FIRST = ("Wren", "Odile", "Bram", "Petra", "Silas", "Nora", "Idris", "Maude", "Corin", "Tamsin")
LAST = ("Quernby", "Hollis", "Pell", "Askwith", "Tarn")
Page = tuple[str, Callable[[Any], Any]]


def report(vendor: str = "sqlite") -> bool:
    """Print the table; true when every limit is kept."""
    with house_of(vendor):
        browser, pages = open_house()
        fill(FEW)
        few = _measured(browser, pages)
        fill(MANY)
        many = _measured(browser, pages)
    return _told(vendor, few, many)


@contextmanager
def house_of(vendor: str) -> Iterator[None]:
    """An own database, migrated, gone afterwards. What the pages log is no part of a table."""
    with (
        tempfile.TemporaryDirectory() as folder,
        postgres.server() if vendor == "postgresql" else nullcontext({}) as at,
    ):
        os.environ.update({"TENTHSTOP_DATA": folder, "DJANGO_SETTINGS_MODULE": "studio.settings"} | at)
        if at:
            os.environ["DATABASE_URL"] = "postgres:///postgres"  # the one a new server has
        import django
        from django.conf import settings
        from django.core.management import call_command

        django.setup()
        settings.ALLOWED_HOSTS.append("testserver")
        settings.STORAGES["staticfiles"]["BACKEND"] = "django.contrib.staticfiles.storage.StaticFilesStorage"
        call_command("migrate", verbosity=0, skip_checks=True)
        logging.disable(logging.WARNING)
        try:
            yield
        finally:
            from django.db import connections

            logging.disable(logging.NOTSET)
            connections.close_all()


def open_house() -> tuple[Any, list[Page]]:
    """The house with its people, and the pages to be timed, the empty one first."""
    from bookings.models import Kind
    from tests import cast
    from tests.bookings.making import make_house

    house = make_house()
    for number in range(ROOMS - 2):
        cast.make_room(f"Room {number}", circuits=0)
    for number in range(ROOMS - 1):
        cast.make_member("photographer", name=f"P{number} Orrin", short=f"P{number}")
        cast.make_member("assistant", name=f"A{number} Orrin", short=f"A{number}")
    Kind.objects.create(name="Company headshots", minutes=60, intent="even", framing="half")
    browser = cast.client_of(house.desk)
    day = f"{_today():%Y-%m-%d}"
    asked = {"find by a name": "isolde varrick", "find by a part": "uernb", "find by a month": f"{_today():%B}",
             "find by a number": "L-0500", "find by a telephone": "000420", "find a kind": "headshots"}  # fmt: skip
    token = {"HTTP_X_FRAGMENT": "1"}
    pages: list[Page] = [
        ("empty signed-in page", lambda at: at.get("/find/")),
        ("diary, day", lambda at: at.get("/diary/", {"day": day})),
        ("sitting", lambda at: at.get("/sittings/L-0008/")),
        ("arrivals", lambda at: at.get("/arrivals/", {"day": day})),
    ]
    for name, text in asked.items():
        pages.append((name, lambda at, text=text: at.post("/find/", {"q": text}, **token)))
    pages.append(("diary, week *", lambda at: at.get("/diary/week/", {"day": day})))
    return browser, pages


def _today() -> datetime:
    return datetime.now(UTC).replace(hour=0, minute=0, second=0, microsecond=0)


def fill(total: int) -> None:
    """As many sittings as that, day by day around today, each room full; claims as booking would make them."""
    from django.db import connection, transaction

    from bookings import overlap
    from bookings.models import Client, Sitting

    begin, clients = Sitting.objects.count(), Client.objects.count()
    with transaction.atomic(), connection.cursor() as cursor:
        for trigger in overlap.TRIGGERS if connection.vendor == "sqlite" else ():
            cursor.execute(f"DROP TRIGGER IF EXISTS {trigger}")  # put back below: a hundred thousand are made to fit
        wanted = int(total * CLIENTS_TO_A_SITTING)
        rows = (_client(number) for number in range(clients, wanted))
        Client.objects.bulk_create(rows, batch_size=1_000)
        _book(begin, total)
        overlap.install(connection)
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")


def _client(number: int) -> Any:
    from bookings.models import Client

    if number < FEW * CLIENTS_TO_A_SITTING and number % 50 == 7:  # as many in a small house as in a big one
        return Client(name=f"Isolde Varrick {number}", email=f"c{number}@example.org", phone=f"01632 {number:06d}")
    name = f"{FIRST[number % 10]} {LAST[number // 10 % 5]} {number % 90}"
    return Client(name=name, email=f"c{number}@example.org", phone=f"01632 {number:06d}")


def _book(begin: int, total: int) -> None:
    from bookings.models import Claim, Client, Kind, Sitter, Sitting, Stage
    from studio.models import Member, Room

    rooms = list(Room.objects.order_by("pk"))
    people = [list(Member.objects.in_role(role).order_by("pk")) for role in ("photographer", "assistant")]
    kinds, clients = list(Kind.objects.order_by("pk")), list(Client.objects.order_by("pk").values_list("pk", flat=True))
    for first in range(begin, total, 1_000):
        rows = []
        for number in range(first, min(first + 1_000, total)):
            at, room = _place(number)
            rows.append(Sitting(
                number=f"L-{number + 1:04d}", client_id=clients[number % len(clients)], kind=kinds[number % 7 == 0],
                room=rooms[room], photographer=people[0][room], assistant=people[1][room], starts_at=at, minutes=75,
                purpose=f"wall print {number % 97}", stage=Stage.CONFIRMED,
            ))  # fmt: skip
        Sitting.objects.bulk_create(rows)
        Sitter.objects.bulk_create([Sitter(sitting=row, label="Wilf", age_years=40) for row in rows])
        Claim.objects.bulk_create([
            Claim(sitting=row, resource_kind=kind, resource_id=key, starts_at=span.starts_at, ends_at=span.ends_at)
            for row in rows for kind, key, span in _held(row)
        ], batch_size=3_000)  # fmt: skip


def _held(row: Any) -> Iterator[tuple[str, int, Any]]:
    yield "room", row.room_id, row.spans.whole
    yield "member", row.photographer_id, row.spans.sitting
    yield "member", row.assistant_id, row.spans.whole


def _place(number: int) -> tuple[datetime, int]:
    """Today first, then tomorrow, yesterday, the day after and so on outwards: few and many fill the same day alike."""
    day, inside = divmod(number, ROOMS * A_DAY)
    away = (day + 1) // 2 * (1 if day % 2 else -1)
    turn, room = divmod(inside, ROOMS)
    return _today() + timedelta(days=away, hours=9, minutes=turn * 135), room


Timed = dict[str, tuple[float, int]]


def _measured(browser: Any, pages: list[Page]) -> Timed:
    """Seconds, the least of some rounds taken in turn, and queries of each page. On SQLite the process's own
    seconds, for all the work is its own."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    clock = time.process_time if connection.vendor == "sqlite" else time.perf_counter
    asked, least = {}, dict.fromkeys((name for name, _page in pages), float("inf"))
    for name, page in pages:
        with CaptureQueriesContext(connection) as queries:
            answer = page(browser)
        if answer.status_code != 200:
            raise SystemExit(f"{name}: {answer.status_code}")
        asked[name] = len(queries)
    for _round in range(ROUNDS):
        for name, page in pages:
            start = clock()
            page(browser)
            least[name] = min(least[name], clock() - start)
    return {name: (least[name], asked[name]) for name in least}


def _told(vendor: str, few: Timed, many: Timed) -> bool:
    empty = many["empty signed-in page"][0]
    print(f"{vendor}: {MANY:,} sittings, {int(MANY * CLIENTS_TO_A_SITTING):,} clients; limits {TIMES_EMPTY:g} times an "
          f"empty page, growth from {FEW:,} sittings {GROWTH:g} times, the same number of queries")  # fmt: skip
    print(f"{'page':24}{'ms':>8}{'x empty':>9}{'growth':>8}{'queries':>9}")
    kept = True
    for name, (seconds, queries) in many.items():
        times, growth = seconds / empty, seconds / few[name][0]
        broken = [
            word
            for word, wrong in {
                "times": times > TIMES_EMPTY and not name.endswith("*"),
                "growth": growth > GROWTH,
                "queries": queries != few[name][1],
            }.items()
            if wrong
        ]
        kept = kept and not broken
        said = f"  BROKEN: {', '.join(broken)}" if broken else ""
        print(f"{name:24}{1000 * seconds:8.1f}{times:9.1f}{growth:8.2f}{queries:9}{said}")
    print("* seven days: shown, not held to a multiple of one empty page")
    return kept
