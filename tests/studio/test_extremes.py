"""Every page of a house with nothing in it yet, and of one where lists are two hundred rows long and names sixty
characters, as a browser without scripts asks for them: they answer, and ask the database a bounded number of times.
How they look: `python -m tests.browser.looks empty|full`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext

from tests import cast, extremes
from tests.access_world import World, make_world
from tests.browser import everywhere
from tests.browser.everywhere import CLIENT, Address

QUERIES = 75  # a plan asks twice for each of thirteen sections of kit; nothing asks once for each of two hundred rows


def opened(addresses: Iterator[Address], browsers: dict[str, Client]) -> Iterator[tuple[str, int, int]]:
    """Each page in one of its roles: its name, its status, its queries."""
    browsers = browsers | {CLIENT: Client()}
    for number, page in enumerate(addresses):
        with CaptureQueriesContext(connection) as asked:
            answer = browsers[page.roles[number % len(page.roles)]].get(page.url, follow=True)
        yield page.name, answer.status_code, len(asked)


@pytest.mark.django_db
def test_every_page_of_an_empty_house_opens() -> None:
    browsers = {role: cast.client_of(member) for role, member in extremes.empty().items()}
    seen = list(opened(everywhere.bare_addresses(), browsers))
    assert len(seen) > 60
    assert [one for one in seen if one[1] != 200 or one[2] > QUERIES] == []


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("role", "url", "says"),
    [
        ("front_desk", "/diary/", "No room yet. The owner enters the rooms"),
        ("front_desk", "/diary/week/", "No room yet. The owner enters the rooms"),
        ("front_desk", "/sittings/new/", "No kind of sitting yet: the owner enters the first."),
        ("front_desk", "/sittings/new/", "No room yet: the owner enters the first."),
        ("owner", "/beams/", "None in the kit yet: enter the kit first."),
    ],
)
def test_what_cannot_be_chosen_yet_says_whose_move_it_is(role: str, url: str, says: str) -> None:
    member = extremes.empty()[role]
    assert says in cast.client_of(member).get(url).content.decode()


@pytest.fixture(scope="module")
def full(django_db_setup: None, django_db_blocker: Any) -> Iterator[tuple[World, list[Address]]]:
    with django_db_blocker.unblock(), transaction.atomic():
        world = make_world()
        crowded = extremes.crowd(world.sitting)
        yield world, list(everywhere.pages(world, world, crowded))
        transaction.set_rollback(True)


def test_every_page_of_a_full_house_opens_and_asks_no_row_singly(full: tuple[World, list[Address]], db: None) -> None:
    world, addresses = full
    seen = list(opened(iter(addresses), {role: world.browser_of(role) for role in world.members}))
    assert len(seen) > 90
    assert [one for one in seen if one[1] != 200 or one[2] > QUERIES] == []
