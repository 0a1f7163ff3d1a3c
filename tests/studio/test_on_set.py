"""What a device may keep: only marked pages, only for whoever asked, and never past the strike where notes are read."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from django.http import HttpRequest
from django.test import Client

from studio import clock, on_set
from studio.addresses import every_address
from tests import cast


@pytest.fixture
def ines(db: None) -> Client:
    return cast.client_of(cast.make_member("assistant"))


def mark(until: timedelta | None, method: str = "GET", status: int = 200) -> str | None:
    request = HttpRequest()
    request.method, request.member = method, type("Somebody", (), {"pk": 7})
    answer = on_set.HttpResponse(status=status)
    end: datetime | None = None if until is None else clock.now() + until
    return on_set.keepable(request, answer, until=end).headers.get(on_set.HEADER)


def test_a_page_with_notes_is_kept_until_the_strike_and_others_for_half_a_day() -> None:
    assert mark(timedelta(minutes=30)) in ("7 1800", "7 1799")
    assert mark(None) == mark(timedelta(minutes=-1)) == mark(timedelta(days=2)) == "7 43200"


def test_neither_a_form_that_came_back_nor_a_refusal_is_kept() -> None:
    assert mark(None, method="POST") is None
    assert mark(None, status=422) is None


def test_the_worker_may_answer_for_the_whole_house_and_names_nobody(ines: Client) -> None:
    answer = ines.get("/on-set/worker.js")
    assert answer.headers["Service-Worker-Allowed"] == "/"
    assert answer.headers["Content-Type"].startswith("text/javascript")
    assert on_set.HEADER not in answer.headers
    assert b"Ines" not in answer.content


def test_an_entry_gets_a_token_of_its_own_and_a_stranger_gets_none(ines: Client) -> None:
    answer = ines.get("/on-set/token/")
    assert answer.json()["token"]
    assert "no-store" in answer.headers["Cache-Control"]
    assert Client().get("/on-set/token/").status_code == 302


def test_pages_of_the_set_are_marked_and_the_diary_is_not(ines: Client) -> None:
    marked = {page: ines.get(page).headers.get(on_set.HEADER, "") for page in ("/packing/", "/on-set/", "/diary/")}
    assert [bool(found) for found in marked.values()] == [True, True, False]
    assert ines.get("/sign-in/").headers.get(on_set.HEADER) is None


def test_every_form_that_may_wait_goes_to_a_view_that_takes_it_once() -> None:
    takes = {one.name for one in every_address() if getattr(one.view, "takes_entries", False)}
    pages = [page.read_text("utf-8") for page in (Path(__file__).parents[2] / "templates").rglob("*.html")]
    waits = {name for page in pages for name in re.findall(r"<form[^>]*{% url '(\w+)'[^>]*data-entry", page)}
    assert not [form for page in pages for form in re.findall(r"<form[^>]*data-entry", page) if "action=" not in form]
    assert {"type_reading", "sign_record"} <= waits <= takes
    assert {"rota_tap", "walk_in"} <= takes  # the board's own script sends these
