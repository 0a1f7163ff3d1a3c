"""Who may come to which address: the table of `access_lines`, walked as everybody there is.

An address without a line in the table fails, and so does a line without an address. `python -m tests.access_table`
prints it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import transaction
from django.http import HttpResponse

from studio.addresses import every_address
from tests import access_walk
from tests.access_lines import OWN, TABLE
from tests.access_world import World, make_world


@pytest.fixture(scope="module")
def standing(django_db_setup: None, django_db_blocker: Any, tmp_path_factory: Any) -> Iterator[World]:
    """Built once for all addresses, and taken back at the end."""
    with django_db_blocker.unblock(), transaction.atomic(), access_walk.apart(tmp_path_factory.mktemp("data")):
        yield make_world()
        transaction.set_rollback(True)


@pytest.fixture
def world(standing: World, db: None) -> World:
    """The same for one address: what it writes is taken back."""
    return standing.afresh()


def test_every_address_has_a_line_and_says_the_same() -> None:
    assert access_walk.without_a_line() == []


def test_no_two_addresses_share_a_name() -> None:
    names = [address.name for address in every_address()]
    assert sorted(names) == sorted(set(names))


def test_what_is_ones_own_is_asked_of_whoever_is_signed_in_and_names_nobody() -> None:
    assert [a.route for a in every_address() if a.name in TABLE and TABLE[a.name].whose == OWN and "<" in a.route] == []


@pytest.mark.parametrize("name", TABLE)
def test_each_is_let_in_to_what_is_theirs_and_to_nothing_else(name: str, world: World) -> None:
    asked = list(access_walk.ask(world, name, TABLE[name]))
    assert {one.who for one in asked} > {"front_desk", "photographer", "assistant", "owner", "newcomer", "stranger"}
    assert [one for one in asked if one.wrong] == []


def test_an_answer_that_does_not_say_what_it_is_would_be_seen() -> None:
    """Each answer of the walk above is looked at for this."""
    safe = {"X-Content-Type-Options": "nosniff"}
    assert access_walk.left_to_guess(HttpResponse("x", headers=safe)) == []
    assert access_walk.left_to_guess(HttpResponse(b"x", content_type="image/png", headers=safe)) == []
    for kind, headers in (("text/csv", safe), ("", safe), ("text/csv; charset=utf-8", {})):
        assert len(access_walk.left_to_guess(HttpResponse("x", headers=headers | {"Content-Type": kind}))) == 1


def test_a_link_opens_its_own_door_and_no_other(world: World) -> None:
    asked = list(access_walk.ask_keys(world))
    assert [one for one in asked if one.wrong] == []
    assert [one.name for one in asked if one.status == 200] == ["answer", "intake", "intake_copy", "calendar_feed"]


def test_what_notes_say_is_there_to_be_looked_for(world: World) -> None:
    """Else no page of anybody else could be seen to leave it out."""
    page = world.browser_of("assistant").get(f"/sittings/{world.sitting.number}/plans/1/")
    secrets = access_walk.secrets_of(world)
    assert secrets
    assert [one for one in secrets if one not in page.content.decode()] == []
