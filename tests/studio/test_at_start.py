"""What a server makes at its start: every path leads to something that can be called, and is called off the request."""

from __future__ import annotations

from threading import Event, current_thread
from typing import Any

from django.conf import settings
from django.utils.module_loading import import_string

DONE = Event()
WHERE: list[str] = []


def note() -> None:
    WHERE.append(current_thread().name)
    DONE.set()


def test_a_server_makes_ready_in_a_thread_of_its_own(settings: Any) -> None:
    settings.MADE_AT_START = []  # importing the door must not make a head here
    from studio import wsgi

    settings.MADE_AT_START = ["tests.studio.test_at_start.note"]
    wsgi.make_ready()
    assert DONE.wait(10)
    assert WHERE == ["tests.studio.test_at_start.note"]
    assert current_thread().name not in WHERE


def test_what_is_made_at_start_is_there() -> None:
    for path in settings.MADE_AT_START:
        assert callable(import_string(path)), path
