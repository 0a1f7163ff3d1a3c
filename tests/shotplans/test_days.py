"""The first pages of photographer and assistant, what the light's pages cost in questions, and what they never show."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import resolve

from bookings.actions import sittings
from bookings.models import Notes
from shotplans import packing_page, workbench
from studio.models import Profile
from tests import lindenmere
from tests.pages import read

DAY = f"?day={lindenmere.DAY:%Y-%m-%d}"
NEXT = "?day=2026-12-04"


def test_the_photographers_day_has_its_sittings_in_order_with_whose_move_it_is(studio: None) -> None:
    tobiah = lindenmere.visitor("photographer")
    words = tobiah.open(f"/setups/{DAY}").words
    assert "Set-ups, Thursday 3 December 2026" in words
    order = [words.index(said) for said in ("09:30 Ottoline", "11:30 Marrowfield", "15:00 Ignace", "16:45 The Pell")]
    assert order == sorted(order)
    assert "Juno" not in words
    assert words.count("Plan 1 is made.") == 4
    sitting = lindenmere.sitting("askew")
    sitting.plans.all().delete()
    assert "Your move: make the plan." in tobiah.open(f"/setups/{DAY}").words
    sitting.brief.delete()
    assert "Your move: confirm the brief." in tobiah.open(f"/setups/{DAY}").words


def test_the_assistants_day_packs_once_and_leads_to_each_record(studio: None) -> None:
    ines = lindenmere.visitor("assistant")
    page = ines.open(f"/packing/{DAY}")
    assert page.words.count("Meter and record") == 4
    assert ines.fetch("Packing list")["Content-Type"] == "application/pdf"


def test_a_piece_several_sittings_need_is_packed_as_often_as_the_hungriest_needs_it(studio: None) -> None:
    plans = [lindenmere.plan(name) for name in ("askew", "marrowfield", "dorrow", "pellingham")]
    counts = [{r["item"]: r["count"] for r in p.document["packing"]} for p in plans]
    packed, *away = packing_page.lists(lindenmere.DAY, workbench.planned_on(lindenmere.DAY), Profile.get())
    assert away == []
    rows = {t.row.item: t.row.count for t in packed.things if t.row.used_for != "spare"}
    assert rows.pop("setup sheet") == 10  # two of each set-up
    assert rows.pop("extension lead") == 3
    needed = set().union(*counts) - {"setup sheet", "extension lead"}
    assert rows == {item: max(c.get(item, 0) for c in counts) for item in needed}
    page = lindenmere.visitor("assistant").open(f"/packing/{DAY}").words
    assert "3 x mains cable" in page
    assert all(thing.row.item in page for thing in packed.things)


def test_a_cancelled_sitting_is_on_nobodys_day(studio: None) -> None:
    pages = (("photographer", "/setups/"), ("assistant", "/packing/"))
    assert all("Dorrow" in lindenmere.visitor(role).open(page + DAY).words for role, page in pages)
    sittings.change_stage(
        by=lindenmere.member("front_desk"), sitting=lindenmere.sitting("dorrow"), to="cancelled", note="unwell"
    )
    for role, page in pages:
        assert "Dorrow" not in lindenmere.visitor(role).open(page + DAY).words


@pytest.mark.parametrize("page", ["/setups/", "/packing/"])
@pytest.mark.parametrize("day", ["", "?day=", "?day=soon", "?day=2026-13-45", "?day=9999-12-31", "?day=0001-01-01"])
def test_a_day_that_is_none_shows_today(studio: None, page: str, day: str) -> None:
    answer = lindenmere.client_of("photographer").get(page + day)
    assert answer.status_code == 200
    assert "No sitting on this day." in answer.content.decode()


@pytest.mark.parametrize("page", ["/setups/", "/packing/"])
def test_one_steps_from_day_to_day(studio: None, page: str) -> None:
    tobiah = lindenmere.visitor("photographer")
    tobiah.open(page + DAY)
    assert "Juno Tarrant" in tobiah.follow("Day after").words
    assert "Ignace Dorrow" in tobiah.follow("Day before").words


# Who is asking, the session, the profile and the roles are five; the rest is named beside each page.
PAGES = {
    "/setups/" + DAY: ("photographer", 11),  # sittings, plans, what clashes, complaints
    "/packing/" + DAY: ("assistant", 15),  # sittings, plans, what clashes, kit, mounts, rings, taps
    "/sittings/L-0002/brief/": ("photographer", 13),  # sitting, people with wishes, windows, circuits, brief, plan
    "/sittings/L-0002/plans/1/": ("photographer", 47),  # is it stale? thirteen sections of kit; readings; clashes
    "/sittings/L-0002/plans/1/record/": ("assistant", 14),  # sitting, plan, record, readings, changes
    "/sittings/L-0002/plans/1/setups/2.pdf": ("assistant", 36),  # the same question, with the studio's cards and pace
    "/sittings/L-0002/plans/1/packing.pdf": ("assistant", 14),
}


@pytest.mark.parametrize("address", PAGES)
def test_a_page_asks_few_questions_however_many_people_sit(
    studio: None, django_assert_max_num_queries: Any, address: str
) -> None:
    role, most = PAGES[address]
    client = lindenmere.client_of(role)
    with django_assert_max_num_queries(most):
        assert client.get(address).status_code == 200


@pytest.mark.parametrize("page", ["brief/", "plans/1/", "plans/1/record/"])
def test_fourteen_people_cost_no_more_questions_than_one(studio: None, page: str) -> None:
    client = lindenmere.client_of("photographer")
    counted = []
    for number in ("L-0003", "L-0002"):
        with CaptureQueriesContext(connection) as asked:
            client.get(f"/sittings/{number}/{page}")
        counted.append(len(asked))
    assert counted[1] <= counted[0]


OF_A_KIND = 2


def walked(client: Client, *starts: str) -> Iterator[tuple[str, Any]]:
    """Every address that can be reached by links from where a role's day begins, without leaving the two days; of
    pages of one kind the first few are opened, for their links are made alike."""
    waiting, seen, opened = list(starts), set(starts), Counter[str]()
    while waiting:
        here = waiting.pop()
        kind = resolve(urlsplit(here).path).view_name
        opened[kind] += 1
        if opened[kind] > OF_A_KIND:
            continue
        answer = client.get(here)
        yield here, answer
        if "html" not in answer.get("Content-Type", ""):
            continue
        page = read(here, answer)
        for target in [href for _, href in page.links] + [form.action for form in page.forms if form.action]:
            found = urljoin(here, target)
            yield found, None
            is_form = target in [form.action for form in page.forms]
            outside = "day=" in found and not found.endswith((DAY, NEXT))
            if found not in seen and not is_form and not outside and "#" not in found:
                seen.add(found)
                waiting.append(found)


@pytest.mark.parametrize(("role", "start"), [("photographer", "/setups/"), ("assistant", "/packing/"),
                                             ("front_desk", "/diary/")])  # fmt: skip
def test_no_address_carries_anything_personal_and_no_link_leads_nowhere(studio: None, role: str, start: str) -> None:
    labels = {s.label.lower() for name in lindenmere.NUMBERS for s in lindenmere.sitting(name).sitters.all()}
    clients = {"askew", "marrowfield", "dorrow", "pellingham", "tarrant"}
    words = labels | clients | set(Notes.names()) | {"lines", "glasses", "softer", "wish", "flash"}
    pages = 0
    for address, answer in walked(lindenmere.client_of(role), start + DAY, start + NEXT):
        parts = urlsplit(address.lower())
        assert not parts.netloc
        here = set(re.split(r"[^a-z0-9]+", unquote(f"{parts.path} {parts.query}")))
        assert here & words == set(), address
        if answer is not None:
            assert answer.status_code in (200, 302), address
            pages += 1
    assert pages > 10


def test_feature_44_set_two_of_a_sitting_says_on_its_page_what_differs_and_nothing_else(studio: None) -> None:
    first, second = lindenmere.plan("marrowfield").setups
    said = lindenmere.visitor("photographer").open("/sittings/L-0002/plans/1/").words
    assert said.count("only this changes") == 1
    part = said.split(f"After {first['name']}, only this changes")[1].split("Lights, in the order of reading")[0]
    stand = [(light["position_m"], light["head"]) for light in first["lights"]]
    for light in second["lights"]:
        stays = (light["position_m"], light["head"]) in stand
        assert stays or f"Bring {light['letter']}: " in part or f"{light['letter']}, " in part
    grounds = [one["background"]["id"] for one in (second, first)]
    assert (f"{grounds[0]} instead of {grounds[1]}" in part) == (grounds[0] != grounds[1])
