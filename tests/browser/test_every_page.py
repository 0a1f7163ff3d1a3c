"""Every page once, in one of the roles that may open it, at one of three widths in turn: nothing on the console,
nothing wider than the window, nothing the checker of accessibility finds, nothing from another host, nothing that
moves while it loads. All roles at all widths, with pictures: `python -m tests.browser.every_page`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import pytest
from django.conf import settings
from django.contrib.staticfiles import handlers
from playwright.sync_api import Browser
from pytest_django.live_server_helper import LiveServer

from studio.access import EVERY_ROLE
from tests.browser import everywhere
from tests.browser.everywhere import CLIENT, WIDTHS, Address, Walker
from tests.test_access import World


class Demo(NamedTuple):
    """The whole demo behind a server of its own."""

    world: World
    addresses: list[Address]
    url: str


@pytest.fixture(scope="module")
def db(django_db_setup: None, django_db_blocker: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[World]:
    """The whole demo, built once for the file and really kept, for a server reads it from other threads. It takes the
    place of pytest-django's own, by which that knows which files need a database."""
    with pytest.MonkeyPatch.context() as patch, django_db_blocker.unblock():
        patch.setattr(settings, "DATA_DIR", tmp_path_factory.mktemp("data"))
        try:
            yield everywhere.build()
        finally:
            everywhere.clear()


@pytest.fixture(scope="module")
def demo(db: World, chromium: Browser) -> Iterator[Demo]:
    """Its server and its addresses."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(handlers, "serve", everywhere.unhurried(handlers.serve))
        server = LiveServer("localhost")
        yield Demo(db, list(everywhere.addresses(db)), server.url)
        server.stop()


def chosen(addresses: list[Address]) -> Iterator[tuple[Address, str, int]]:
    """Each page in one role and at one width, so that every role and width has its share."""
    for number, address in enumerate(addresses):
        yield address, address.roles[number % len(address.roles)], WIDTHS[number % len(WIDTHS)]


@pytest.mark.parametrize("role", [*EVERY_ROLE, CLIENT])
def test_every_page_is_whole_in_a_browser(demo: Demo, chromium: Browser, role: str) -> None:
    walker = Walker(chromium, demo.url, demo.world, role)
    visits = [visit for visit in chosen(demo.addresses) if visit[1] == role]
    seen = [walker.open(address.name, address.url, width) for address, _, width in visits]
    walker.close()
    assert len(seen) > 3
    assert {f"{one.name} at {one.width}": one.wrong for one in seen if one.wrong} == {}
