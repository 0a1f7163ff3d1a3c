"""Every page once, in one of the roles that may open it, at one of three widths in turn: nothing on the console,
nothing wider than the window, nothing the checker of accessibility finds, nothing from another host, nothing that
moves while it loads. All roles at all widths, with pictures: `python -m tests.browser.every_page`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import nullcontext
from typing import Any, NamedTuple

import pytest
from django.conf import settings
from django.contrib.staticfiles import handlers
from django.test import Client
from django.urls import reverse
from playwright.sync_api import Browser, expect
from pytest_django.live_server_helper import LiveServer

from studio.access import EVERY_ROLE
from studio.models import Profile, Units
from tests import pseudo
from tests.access_world import World
from tests.browser import everywhere, said
from tests.browser.everywhere import CLIENT, WIDTHS, Address, Walker


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
    seen = []
    for address, _, width in visits:
        long = width == min(WIDTHS)  # the longest words where there is least room
        with pseudo.spoken() if long else nullcontext():
            seen.append(walker.open(address.name, address.url, width))
        assert ("⟦" in walker.page.content()) == long, address.name
    walker.close()
    assert len(seen) > 3
    assert {f"{one.name} at {one.width}": one.wrong for one in seen if one.wrong} == {}


def test_no_page_says_a_word_that_no_translator_reaches(demo: Demo) -> None:
    """Each page once, by Django's own client: what is read here no browser changes."""
    data, found = said.kept(), {}
    for address in demo.addresses:
        browser = Client() if address.roles == (CLIENT,) else demo.world.browser_of(address.roles[0])
        with pseudo.spoken():
            page = browser.get(address.url)
        if "html" in page["Content-Type"] and page.content:
            found[address.name] = said.untranslated(page.content.decode(), data)
    assert len(found) > 80
    assert {name: words for name, words in found.items() if words} == {}


def focused(walker: Walker) -> str:
    """What the keyboard is at: its words, else its name."""
    found: str = walker.page.evaluate("(document.activeElement.textContent.trim() || document.activeElement.name)")
    return " ".join(found.split())


def test_feature_70_the_keyboard_alone_names_contrast_and_units(demo: Demo, chromium: Browser) -> None:
    walker = Walker(chromium, demo.url, demo.world, "owner")
    page, keys = walker.page, walker.page.keyboard
    assert walker.open("rooms", "/studio/rooms/", 1440, contrast=True).wrong == []  # names and 4.5:1, by the checker
    keys.press("Tab")
    assert focused(walker) == "To the content"
    keys.press("Enter")
    expect(page.locator("#content")).to_be_focused()
    keys.press("?")
    expect(page.get_by_role("dialog", name="Keys")).to_be_visible()
    assert walker.axe(contrast=True) == []
    keys.press("Escape")
    expect(page.get_by_role("dialog", name="Keys")).to_be_hidden()
    second = page.locator(".head-bar nav a").nth(1).get_attribute("href")
    keys.press("g")
    keys.press("2")
    page.wait_for_url(f"**{second}")
    # Who speaks to the machine, or whose keys stick, turns the keys of one sign off (WCAG 2.2, 2.1.4).
    page.get_by_role("button", name="Keys").focus()
    keys.press("Enter")
    page.get_by_label("These keys work").focus()
    keys.press("Space")
    keys.press("Escape")
    page.evaluate("document.activeElement.blur()")
    for key in ("?", "/"):
        keys.press(key)
    expect(page.get_by_role("dialog", name="Keys")).to_be_hidden()
    assert page.evaluate("document.activeElement.tagName") == "BODY"
    room = reverse("room", kwargs={"pk": demo.world.room.pk})
    page.goto(demo.url + room)
    expect(page.locator("[name=width_m]")).to_have_value("9")
    Profile.objects.update(units=Units.IMPERIAL)
    page.goto(demo.url + room)
    expect(page.locator("[name=width_m]")).to_have_value("29 ft 6.331 in")
    Profile.objects.update(units=Units.METRIC)
    walker.close()


def test_feature_71_a_form_that_comes_back_says_what_was_kept_and_leads_to_each_fault(
    demo: Demo, chromium: Browser
) -> None:
    walker = Walker(chromium, demo.url, demo.world, "owner")
    page = walker.page
    walker.open("new room", reverse("new_room"), 390)
    page.fill("[name=ceiling_m]", "tall")
    page.get_by_role("button", name="Save").click()
    told = re.compile("^Not saved yet. What you typed is still here; put right:")
    expect(page.locator(":focus")).to_have_text(told)
    assert walker.axe(contrast=True) == []
    page.locator(".faults").get_by_role("link", name="Height of the ceiling").press("Enter")
    expect(page.locator(":focus")).to_have_value("tall")
    walker.close()
