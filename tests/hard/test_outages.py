"""A disk that is full, a database that only reads, is busy or gone: said in words, with nothing half kept."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest import mock

import pytest
from django.db import DatabaseError, OperationalError, connection, connections
from django.test import Client as Browser

from bookings.models import Client
from studio import outages, photos
from studio.outages import Outage
from tests import cast

ASKED = {"name": "Wren Hollis", "phone": "01632 960001", "version": "1", "note": "x" * 400}


def _sqlite(name: str) -> DatabaseError:
    cause = sqlite3.OperationalError("said")
    cause.sqlite_errorname = name
    error = OperationalError("said")
    error.__cause__ = cause
    return error


def _psycopg(state: str | None, called: str = "OperationalError") -> DatabaseError:
    cause = type(called, (Exception,), {"__module__": "psycopg.errors", "sqlstate": state})()
    error = OperationalError("said")
    error.__cause__ = cause
    return error


@pytest.mark.parametrize(
    ("error", "outage"),
    [
        (_sqlite("SQLITE_FULL"), Outage.FULL),
        (_sqlite("SQLITE_READONLY_DBMOVED"), Outage.READ_ONLY),
        (_sqlite("SQLITE_BUSY_SNAPSHOT"), Outage.BUSY),
        (_sqlite("SQLITE_IOERR_WRITE"), Outage.GONE),
        (_sqlite("SQLITE_ERROR"), None),  # a table that is missing
        (_psycopg("53100"), Outage.FULL),
        (_psycopg("25006"), Outage.READ_ONLY),
        (_psycopg("57P01"), Outage.GONE),
        (_psycopg("40P01"), Outage.BUSY),
        (_psycopg("42P01"), None),
        (_psycopg(None), Outage.GONE),
        (_psycopg(None, "ProgrammingError"), None),
        (OSError(errno.ENOSPC, "said"), Outage.FULL),
        (OSError(errno.EROFS, "said"), Outage.READ_ONLY),
        (FileNotFoundError(errno.ENOENT, "said"), None),
        (ValueError("said"), None),
        (None, None),
    ],
)
def test_an_outage_is_told_from_a_fault_of_ours(error: BaseException | None, outage: Outage | None) -> None:
    assert outages.outage_of(error) is outage


def _fill_free_pages(cursor: Any) -> None:
    """What an earlier test's rows left free would be written on for hours before the disk is full."""
    free, size = (cursor.execute(f"PRAGMA {name}").fetchone()[0] for name in ("freelist_count", "page_size"))
    cursor.execute("CREATE TABLE filler (bytes)")
    cursor.execute(f"INSERT INTO filler VALUES (zeroblob({max(free - 8, 0) * (size - 4)}))")


@contextmanager
def writes_fail(pragma: str, state: str) -> Iterator[None]:
    """By SQLite itself; where PostgreSQL is served by another machine, by what that would say."""

    def refuse(execute: Any, sql: str, *rest: Any) -> Any:
        if sql.startswith("INSERT"):
            raise _psycopg(state)
        return execute(sql, *rest)

    if connection.vendor != "sqlite":
        with connection.execute_wrapper(refuse):
            yield
        return
    with connection.cursor() as cursor:
        if pragma == "max_page_count":
            _fill_free_pages(cursor)
        before = cursor.execute(f"PRAGMA {pragma}").fetchone()[0]
        now = 1 if pragma == "query_only" else cursor.execute("PRAGMA page_count").fetchone()[0]
        cursor.execute(f"PRAGMA {pragma}={now}")
        try:
            yield
        finally:
            if connection.needs_rollback:  # a full disk may end the whole transaction, the test's own with it
                connection.set_rollback(False)
            cursor.execute(f"PRAGMA {pragma}={before}")


@pytest.fixture
def desk(db: None) -> Browser:
    browser = cast.client_of(cast.make_member("front_desk"))
    browser.raise_request_exception = False
    return browser


def _said(answer: Any) -> str:
    assert (answer.status_code, answer["Retry-After"], answer["Cache-Control"]) == (503, "30", "no-store")
    return " ".join(answer.content.decode().split())


def test_a_full_disk_keeps_nothing_and_says_so(desk: Browser) -> None:
    assert desk.get("/clients/new/").status_code == 200
    with writes_fail("max_page_count", "53100"):
        for number in range(500):  # until the pages there are full
            sent = ASKED | {"name": f"Wren Hollis {number}"}
            if (answer := desk.post("/clients/new/", sent)).status_code == 503:
                break
    assert "There is no room left" in _said(answer)
    assert "what you just sent was not saved, no part of it" in _said(answer)
    assert not Client.objects.filter(name=sent["name"]).exists()


def test_a_database_that_only_reads_is_read_and_says_so(desk: Browser) -> None:
    desk.get("/clients/new/")
    with writes_fail("query_only", "25006"):
        assert desk.get("/clients/new/").status_code == 200
        answer = desk.post("/clients/new/", ASKED)
    assert "lets nothing be written" in _said(answer)
    assert not Client.objects.exists()


def test_a_database_that_is_gone_is_said_in_words_and_logged_once(
    desk: Browser, caplog: pytest.LogCaptureFixture
) -> None:
    with mock.patch.object(connections["default"], "cursor", side_effect=_psycopg(None)):
        answer = desk.post("/clients/new/", ASKED)
    assert "does not answer" in _said(answer)
    assert [one.name for one in caplog.records if one.levelname == "ERROR"] == ["django.request"]
    assert "Wren" not in caplog.text
    assert desk.get("/clients/new/").status_code == 200  # back again, the page is as it was


def test_a_fault_of_ours_is_still_one(desk: Browser) -> None:
    with mock.patch.object(connections["default"], "cursor", side_effect=_sqlite("SQLITE_ERROR")):
        assert desk.get("/clients/new/").status_code == 500


def test_a_picture_for_which_there_is_no_room_leaves_no_part_of_it(tmp_path: Path) -> None:
    there = tmp_path / "photos" / "a.jpg"

    def half(path: Path, body: bytes) -> None:
        with path.open("wb") as file:
            file.write(body[:3])
        raise OSError(errno.ENOSPC, "said")

    with mock.patch.object(Path, "write_bytes", half), pytest.raises(OSError, match="said"):
        photos.put(there, b"picture")
    assert list(there.parent.iterdir()) == []
