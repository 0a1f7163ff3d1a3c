"""Nothing that somebody types stands in a log, in an address or on the page of an error: each address is sent the same
word in every field that any form of the house has."""

from __future__ import annotations

import io
import json
import logging
import sys
from collections.abc import Iterator
from typing import Any
from unittest import mock

import pytest
from django.db import OperationalError, transaction
from django.forms import BaseForm
from django.test import Client, RequestFactory
from django.urls import reverse

from studio import logs
from studio.views import faults, health
from tests import access_walk
from tests.access_lines import TABLE
from tests.access_world import World, make_world

WORD = "wintergreen kerfuffle"
READS_NOTHING = {"sign_out", "make_sample", "take_sample_away", "plate", "make_plan", "day_papers"}  # and is slow


@pytest.fixture
def told() -> Iterator[io.StringIO]:
    """All that the machine's log is told, as it is written."""
    text = io.StringIO()
    handler = logging.StreamHandler(text)
    handler.setFormatter(logs.AsJson())
    root, level = logging.getLogger(), logging.getLogger().level
    root.addHandler(handler)
    root.setLevel(logging.DEBUG)
    yield text
    root.removeHandler(handler)
    root.setLevel(level)


def every_field() -> dict[str, str]:
    """The names of all fields of all forms."""
    names: set[str] = set()
    kinds = [BaseForm]
    while kinds:
        kind = kinds.pop()
        kinds += kind.__subclasses__()
        names |= set(getattr(kind, "base_fields", {}))
    return dict.fromkeys(names, WORD)


@pytest.fixture
def world(db: None, tmp_path: Any) -> Iterator[World]:
    with access_walk.apart(tmp_path):
        yield make_world()


def test_what_is_typed_stands_in_no_log_no_address_and_on_no_page_of_an_error(world: World, told: io.StringIO) -> None:
    said, wrong, answers = every_field(), [], 0
    undrawn = mock.patch("django.template.backends.django.Template.render", return_value="")  # half of the time
    assert len(said) > 200
    for name, line in TABLE.items():
        if name in READS_NOTHING or name.endswith(("_pdf", "_sheet")):
            continue
        with transaction.atomic(), undrawn:
            here = world.afresh()
            url = reverse(name, kwargs=line.fill(here))
            browser = here.browser_of(sorted(line.roles - line.refused)[0])
            browser.raise_request_exception = False
            answer = browser.post(url, said)
            transaction.set_rollback(True)
        answers += 1
        if answer.status_code >= 500:
            wrong.append(f"{name}: {answer.status_code}")
        if "kerfuffle" in answer.headers.get("Location", ""):
            wrong.append(f"{name}: sent on to an address that says it")
    Client().post("/sign-in/", said | {"username": WORD, "password": WORD})
    assert wrong == []
    desk = world.browser_of("front_desk")
    stranger = Client(HTTP_HOST="kerfuffle.example")
    pages = [desk.get(f"/clients/{WORD}/"), desk.get(f"/sittings/{WORD}/"), stranger.get("/")]
    assert [page.status_code for page in pages] == [404, 404, 400]
    assert [page for page in pages if b"kerfuffle" in page.content] == []
    lines = told.getvalue().splitlines()
    assert len(lines) > answers
    assert [one for one in lines if "kerfuffle" in one] == []
    secrets = [world.sitting.number, "Ottoline", "harriet", "127.0.0.1"]
    assert [one for one in lines if any(secret in one for secret in secrets)] == []


def test_a_line_says_which_page_how_it_went_and_the_number_on_the_answer(db: None, told: io.StringIO) -> None:
    answer = Client().get("/calendar/a-secret.ics")
    line = next(one for one in map(json.loads, told.getvalue().splitlines()) if one["by"] == "studio.requests")
    assert {name: line[name] for name in ("level", "says", "route", "method", "status", "request")} == {
        "level": "INFO", "says": "answered", "route": "/calendar/<str:secret>.ics", "method": "GET", "status": 404,
        "request": answer.headers[logs.HEADER],
    }  # fmt: skip
    assert 0 < line["ms"] < 60_000
    assert Client().get("/", headers={"x-request-id": "mine"}).headers[logs.HEADER] != "mine"


def test_a_fault_is_told_by_kind_and_place_without_its_words() -> None:
    try:
        raise ValueError(f"{WORD} is no number")
    except ValueError:
        record = logging.LogRecord("x", logging.ERROR, "f", 1, "%s broke %d", (WORD, 2), sys.exc_info())
        told = logs.AsJson().format(record)
    line = json.loads(told)
    assert "kerfuffle" not in told
    assert (line["fault"], line["says"]) == ("ValueError", "… broke %d")
    assert "test_nothing_told.py" in line["where"][0]


def test_the_page_of_a_fault_bears_the_number_by_which_the_log_is_searched(rf: RequestFactory) -> None:
    page = logs.numbered(faults.fault)(rf.get("/"))
    assert page.status_code == 500
    assert page.headers[logs.HEADER] in page.content.decode()


def test_live_and_ready_answer_in_a_word(db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    assert [(Client().get(f"/{name}/").content) for name in ("live", "ready")] == [b"live\n", b"ready\n"]
    assert Client().post("/live/").status_code == 405
    by_number = {"host": "10.20.30.40:8000"}  # as a load balancer asks, which knows no name
    asked = [Client().get(path, headers=by_number).status_code for path in ("/live/", "/ready/", "/sign-in/")]
    assert asked == [200, 200, 400]

    class Gone:
        def cursor(self) -> None:
            raise OperationalError("gone")

    monkeypatch.setattr(health, "connection", Gone())
    answer = Client().get("/ready/")
    assert (answer.status_code, answer.content) == (503, b"the database does not answer\n")
    assert Client().get("/live/").status_code == 200
