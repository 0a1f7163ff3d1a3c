"""Seeing the light on the plan's page: drawn for the photographer, made once, and no question of the database more."""

from __future__ import annotations

import pytest
from django.core.cache import cache
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shotplans import heads, seen
from shotplans.models import Plan
from shotplans.seeing import sway, told
from tests.bookings import making
from tests.bookings.making import House


@pytest.fixture
def plan(askew_house: House, db: None) -> Plan:
    cache.clear()
    return Plan.objects.select_related("sitting").get()


def test_the_photographers_page_draws_the_light_and_the_assistants_does_not(askew_house: House, plan: Plan) -> None:
    address = f"/sittings/{plan.sitting.number}/plans/1/"
    words = making.visitor(askew_house, "photographer").open(address).words
    assert "Seeing the light" in words
    assert "Evenness over the group" in words
    assert "The eyes of Ottoline" in words
    assert "nearer to the key: 1 tenth of a stop more" in words
    assert "Seeing the light" not in making.visitor(askew_house, "assistant").open(address).words


def test_the_drawings_are_made_once_and_ask_the_database_nothing(plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    with CaptureQueriesContext(connection) as asked:
        first = seen.of(plan)
    assert not asked.captured_queries
    monkeypatch.setattr(sway, "see", None)  # would raise if it were drawn again
    assert seen.of(plan) == first
    assert [d.title for d in first[0].drawings][:2] == ["Evenness over the group", "Light by distance from the key"]


def test_a_plan_too_old_to_be_placed_shows_nothing(plan: Plan) -> None:
    for setup in plan.document["setups"]:
        del setup["room"]
    assert seen.of(plan) == []


def test_plates_are_pictures_for_the_photographer_alone_and_kept_by_nobody(askew_house: House, plan: Plan) -> None:
    address = f"/sittings/{plan.sitting.number}/plans/1/seen/1/0/"
    client = making.visitor(askew_house, "photographer").client
    answer = client.get(address)
    assert answer["Content-Type"] == "image/png"
    assert answer["Cache-Control"] == "private, no-store"
    assert answer.content.startswith(b"\x89PNG")
    assert client.get(address).content == answer.content
    assert client.get(address.replace("/1/0/", "/9/0/")).status_code == 404
    assert client.get(address.replace("/1/0/", "/1/7/")).status_code == 404
    alts = [alt for _, _, alt in seen.of(plan)[0].plates]
    assert len(alts) == 1 + len(plan.setups[0]["alternatives"])
    assert all("relief" in alt and "edge of the nose shadow" in alt for alt in alts)
    assert all("in its middle" in alt for alt in alts)


def test_an_eye_s_words_say_how_high_a_light_may_be_and_what_covers_a_lens(
    plan: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    meter = heads.meter_at(plan.filled_request, plan.setups[0])
    assert meter is not None
    sitter = meter.solved.pose.together[0]
    monkeypatch.setattr(told, "too_high_by", lambda *_: (38.0, 44.4))
    monkeypatch.setattr(told, "covered", lambda *_: {"left": 0.123})
    row = {"light": "A", "image_side": "left", "seen": False, "why_not": "the brow is in the way"}
    entry = {"catchlights": [row], "glasses": [{"light": "A", "margin_deg": -3.0}, {"light": "B", "margin_deg": 9.0}]}
    assert list(seen._in_words(meter.solved, sitter, entry)) == [
        "A, left eye: the brow is in the way: it stands 44° up, and up to 38° the eye would show it",
        "A, left lens of the glasses: covers 12 % of it",
    ]
