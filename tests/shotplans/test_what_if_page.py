"""The form "What if" on the plan's page: the answer beside the plan's numbers, refusals, and that nothing is kept."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from shotplans.models import Plan
from shotplans.planner import whatif
from shotplans.planner.request import Request
from studio.models import Profile
from tests import lindenmere
from tests.pages import Visitor

PRESS = "Show what follows"
ADDRESS = f"/sittings/{lindenmere.NUMBERS['askew']}/plans/1/what-if/"


def asked(visitor: Visitor, what: str, value: str) -> str:
    visitor.open(f"/sittings/{lindenmere.NUMBERS['askew']}/plans/1/")
    visitor.press(PRESS, {"What": what, "Would be": value})
    return visitor.page.words


def test_the_answer_stands_beside_the_plans_numbers_and_says_what_breaks(tobiah: Visitor) -> None:
    words = asked(tobiah, "0|light|A|distance_m", "3")
    plan = lindenmere.plan("askew")
    answer = whatif.what_if(
        Request.model_validate(plan.request), plan.document, "the pair", whatif.Change("light", "A", "distance_m", "3")
    )
    assert "taken as 3.00 m" in words
    assert answer.differences
    for row in answer.differences:
        assert row["what"] in words
        assert row["before"] in words
        assert row["after"] in words
    for problem in answer.problems:
        assert problem["says"] in words
        assert problem["mend"] in words


def test_the_plans_page_says_which_reading_to_take_first(tobiah: Visitor) -> None:
    words = tobiah.open(f"/sittings/{lindenmere.NUMBERS['askew']}/plans/1/").words
    assert lindenmere.plan("askew").document["setups"][0]["teaches_most"]["because"] in words


def test_asking_what_would_follow_keeps_nothing(tobiah: Visitor) -> None:
    before = list(Plan.objects.values("pk", "document", "superseded_at"))
    asked(tobiah, "0|camera||iso", "400")
    assert list(Plan.objects.values("pk", "document", "superseded_at")) == before


def test_a_value_that_cannot_be_set_comes_back_with_its_sentence_and_what_was_typed(tobiah: Visitor) -> None:
    words = asked(tobiah, "0|light|A|distance_m", "near")
    assert "near is not a number" in words
    form = next(f for f in tobiah.page.forms if f.action.startswith(ADDRESS))
    assert form.values["value"] == ["near"]


def test_a_script_gets_the_answer_alone(tobiah: Visitor) -> None:
    client: Client = tobiah.client
    sent = {"what": "0|camera||aperture", "value": "f/11"}
    found = client.post(ADDRESS, sent, headers={"X-Fragment": "answer"})
    text = found.content.decode()
    assert found.status_code == 200
    assert "<html" not in text
    assert "under the aperture" in text
    refused = client.post(ADDRESS, sent | {"value": "\N{SNOWMAN}"}, headers={"X-Fragment": "answer"})
    assert refused.status_code == 200
    assert "is not a number" in refused.content.decode()


@pytest.mark.parametrize(
    "sent",
    [{}, {"what": "", "value": ""}, {"what": "9|light|A|distance_m", "value": "2"}, {"what": "0|a", "value": "1"},
     {"what": "0|light|A|distance_m", "value": "x" * 5000}],
)  # fmt: skip
def test_what_the_form_does_not_offer_is_told_off_and_breaks_nothing(tobiah: Visitor, sent: dict[str, str]) -> None:
    assert tobiah.client.post(ADDRESS, sent).status_code == 422


def test_it_is_only_asked_not_opened(tobiah: Visitor) -> None:
    assert tobiah.client.get(ADDRESS).status_code == 405


def test_the_assistant_reads_the_plan_without_the_form(studio: None) -> None:
    ines = lindenmere.visitor("assistant")
    page = ines.open(f"/sittings/{lindenmere.NUMBERS['askew']}/plans/1/")
    assert PRESS not in page.words
    assert ines.client.post(ADDRESS, {"what": "0|camera||iso", "value": "200"}).status_code == 403


def test_the_answer_asks_the_database_no_more_for_more_people(tobiah: Visitor) -> None:
    few = _queries(tobiah, "askew", "0|camera||iso")
    many = _queries(tobiah, "pellingham", "0|camera||iso")
    assert many <= few


def _queries(visitor: Visitor, name: str, what: str) -> int:
    with CaptureQueriesContext(connection) as seen:
        address = f"/sittings/{lindenmere.NUMBERS[name]}/plans/1/what-if/"
        assert visitor.client.post(address, {"what": what, "value": "400"}).status_code == 200
    return len(seen)


def test_feet_and_inches_are_asked_and_answered_where_the_house_measures_in_them(tobiah: Visitor) -> None:
    Profile.objects.update(units="imperial")
    words = asked(tobiah, "0|light|A|distance_m", "9 ft 10 in")
    assert "taken as 9 ft 10 in" in words
    assert "Light A: distance" not in words or "ft and in" in words
    assert re.findall(r"\d m\b", words) == []
    said = asked(tobiah, "0|light|A|distance_m", "a stride")
    assert "a stride is no length: write 4 ft 6 in or 54 in." in said
    page = tobiah.open(f"/sittings/{lindenmere.NUMBERS['askew']}/plans/1/").words
    assert re.findall(r".{30}\d m\b", page) == []
    Profile.objects.update(units="metric")
    assert re.findall(r"\d (?:ft|in)\b", tobiah.open(f"/sittings/{lindenmere.NUMBERS['askew']}/plans/1/").words) == []
