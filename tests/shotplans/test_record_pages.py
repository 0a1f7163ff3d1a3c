"""The record beside the plan: readings by their targets, what was done otherwise, the signature."""

from __future__ import annotations

import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.http import HttpResponse

from shotplans import workbench
from shotplans.actions import plans, records
from shotplans.models import Change, Plan, Reading, Record
from shotplans.records import readings
from shotplans.records.readings import shown_stops
from studio import clock
from studio.models import Entry
from tests import lindenmere
from tests.pages import Visitor

START = "/sittings/L-0001/plans/1/record/"
SETUP = "the pair"
MINUTE_MS = 60_000
JSON = {"Accept": "application/json"}


@pytest.fixture
def ines(studio: None) -> Visitor:
    return lindenmere.visitor("assistant")


def steps() -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = lindenmere.plan("askew").document["setups"][0]["meter_round"]
    return found


def type_it(visitor: Visitor, text: str, step: Any = 1, setup: str = SETUP, **headers: str) -> HttpResponse:
    sent = {"setup": setup, "step": str(step), "text": text}
    return visitor.client.post(START + "readings/", sent, headers=headers or JSON)


def a_record() -> Record:
    return records.open_record(plan=lindenmere.plan("askew"))


def on_target(step: int) -> str:
    """The target of a step as an assistant would type it."""
    shown = next(s["target"]["shown"] for s in steps() if s["step"] == step)
    return str(shown).removeprefix("f/")


def test_every_target_stands_with_its_place_and_with_what_is_on_and_off(ines: Visitor) -> None:
    page = ines.open(START)
    for step in steps():
        assert step["target"]["shown"] in page.words
        assert step["place"][1:] in page.words
    assert "A on, B, C off" in page.words
    assert page.words.count("This sets the camera.") == sum(s["sets_camera"] for s in steps())


# 5.6 is 5 stops from f/1 and 6.5 is 5.4 (2 log2 N, ISO 2720): 5.6 +0.6 lies 0.2 over the target of 5.6 +0.4.
@pytest.mark.parametrize("text", ["5.6 6", "5.6 +0.6", "f/5.6 6/10", "5,6 +0,6", "  5.6 +.6 "])
def test_each_way_to_type_a_reading_shows_the_same_difference_at_once(ines: Visitor, text: str) -> None:
    assert steps()[0]["target"]["shown"] == "f/5.6 +0.4"
    answer = type_it(ines, text)
    assert answer.status_code == 200
    assert answer.json() == {"shown": "f/5.6 +0.6", "words": "+0.2 stop, over: within tolerance", "outside": False}
    kept = Reading.objects.get()
    assert (kept.as_typed, str(kept.stops), kept.by.short) == (text.strip(), "5.6", "IC")


def test_a_reading_outside_tolerance_is_marked_by_sign_and_words(ines: Visitor) -> None:
    assert type_it(ines, "4 +0.9").json() == {
        "shown": "f/4 +0.9", "words": "-0.5 stop, under: outside tolerance", "outside": True,
    }  # fmt: skip
    page = ines.open(START)
    assert "! f/4 +0.9, -0.5 stop, under: outside tolerance" in page.words


def test_the_newest_reading_of_a_step_counts_and_none_is_lost(ines: Visitor) -> None:
    type_it(ines, "5.6 6")
    type_it(ines, "5.6 4")
    assert Reading.objects.count() == 2
    shown = [s for r in workbench.rounds(lindenmere.plan("askew"), a_record()) for s in r.steps if s.reading]
    assert [s.words for s in shown] == ["on target"]
    assert 'value="5.6 4"' in ines.open(START).html


def test_a_plain_form_keeps_the_reading_and_comes_back_to_the_page(ines: Visitor) -> None:
    ines.open(START)
    page = ines.press("Save", {"text": "5.6 6"})
    assert page.address == START
    assert "f/5.6 +0.6, +0.2 stop, over: within tolerance" in page.words


UNCLEAR = ["", "5.6 0.6", "about eight", "7", "6.3 +0.2", "5.6 +1.0", "5.6 66", "-5.6", "\u0665", "a\0b", "9" * 5000]


@pytest.mark.parametrize("text", UNCLEAR)
def test_unclear_text_asks_back_and_keeps_nothing(ines: Visitor, text: str) -> None:
    answer = type_it(ines, text)
    assert answer.status_code == 422
    assert "Type" in answer.json()["error"]
    assert not Reading.objects.exists()
    assert not Record.objects.exists()


@pytest.mark.parametrize("text", ["5.6 0.6", "about eight", "<b>8</b>"])
def test_on_a_plain_form_unclear_text_stays_in_its_field_with_the_sentence_beside_it(ines: Visitor, text: str) -> None:
    ines.open(START)
    page = ines.press("Save", {"text": text}, nth=2)
    assert page.status == 422
    assert [form.values["text"] for form in page.forms if "text" in form.values][2] == [text]
    assert page.words.count("can be read in two ways or in none") == 1
    assert "<b>8" not in page.html
    assert not Reading.objects.exists()


@pytest.mark.parametrize(
    ("setup", "step"),
    [("the trio", 1), (SETUP, 99), (SETUP, 0), (SETUP, -1), (SETUP, "one"), (SETUP, ""), ("", "9" * 50)],
)
def test_a_reading_the_plan_does_not_have_is_refused_in_words(ines: Visitor, setup: str, step: Any) -> None:
    answer = type_it(ines, "5.6", step, setup)
    assert (answer.status_code, answer.json()) == (422, {"error": "The plan has no such reading."})
    plain = ines.client.post(START + "readings/", {"setup": setup, "step": step, "text": "5.6"}, follow=True)
    assert "The plan has no such reading." in plain.content.decode()
    assert not Reading.objects.exists()


def test_preview_shows_the_difference_and_keeps_nothing(ines: Visitor) -> None:
    sent = {"setup": SETUP, "step": "1", "text": "5.6 6"}
    answer = ines.client.post(START + "preview/", sent)
    assert answer.json() == {"shown": "f/5.6 +0.6", "words": "+0.2 stop, over: within tolerance", "outside": False}
    assert "Type the stop" in ines.client.post(START + "preview/", sent | {"text": "5.6 0.6"}).json()["error"]
    assert ines.client.post(START + "preview/", sent | {"step": "99"}).status_code == 404
    assert not Record.objects.exists()


def change(visitor: Visitor, **typed: str) -> HttpResponse:
    sent = {"setup_name": SETUP, "about": "A", "what": "distance", "actual": "2.00 m", "why": "the wall"} | typed
    return visitor.client.post(START + "changes/", sent, follow=True)


@pytest.mark.parametrize(
    ("about", "what", "planned"),
    [
        ("A", "distance", lambda s: f"{s['lights'][0]['distance_m']} m"),
        ("A", "bearing", lambda s: f"{s['lights'][0]['bearing_deg']} degrees"),
        ("A", "height", lambda s: f"{s['lights'][0]['centre_height_m']} m"),
        ("A", "power", lambda s: s["lights"][0]["dial"]),
        ("A", "modifier", lambda s: s["lights"][0]["modifier"]),
        ("camera", "distance", lambda s: f"{s['camera']['distance_m']} m"),
        ("camera", "aperture", lambda s: s["camera"]["shown"]),
        ("camera", "ISO", lambda s: str(s["camera"]["iso"])),
        ("ground", "ground", lambda s: s["background"]["id"]),
        ("camera", "modifier", lambda s: ""),
    ],
)
def test_what_was_done_otherwise_stands_beside_the_planned_value(
    ines: Visitor, about: str, what: str, planned: Any
) -> None:
    answer = change(ines, about=about, what=what, actual="something else")
    expected = planned(lindenmere.plan("askew").setups[0])
    assert Change.objects.get().planned == expected
    words = " ".join(answer.content.decode().split())
    assert "something else" in words
    assert f"planned {expected}, done something else" in words or not expected


@pytest.mark.parametrize(
    "typed",
    [
        {"setup_name": "the trio"}, {"about": "Z"}, {"what": "mood"}, {"actual": ""}, {"actual": "x" * 81},
        {"why": "x" * 201}, {"actual": "a\0b"},
    ],
)  # fmt: skip
def test_a_change_that_cannot_be_noted_says_why_and_keeps_what_was_typed(ines: Visitor, typed: dict[str, str]) -> None:
    answer = change(ines, **{"actual": "2.00 m", "why": "because of the beam", **typed})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'id="error_' in page
    assert typed.get("why", "because of the beam") in page
    assert not Change.objects.exists()


def test_feature_39_saved_record_lists_every_difference_from_planned(ines: Visitor) -> None:
    type_it(ines, on_target(1), 1)
    type_it(ines, "2.8 +0.1", 2)
    type_it(ines, "11", 3)
    change(ines, about="A", what="distance", actual="2.30 m", why="the beam")
    change(ines, about="camera", what="ISO", actual="200", why="")
    change(ines, about="ground", what="ground", actual="white270", why="the grey was creased")
    ines.open(START)
    page = ines.press("Sign the record")
    setup = lindenmere.plan("askew").setups[0]
    listed = page.words.split("As shot: every difference from the plan")[1]
    second, third = (s["target"]["shown"] for s in setup["meter_round"][1:3])
    for said in (
        f"reading 2: planned {second}, done f/2.8 +0.1",
        f"reading 3: planned {third}, done f/11 +0.0",
        f"A, distance: planned {setup['lights'][0]['distance_m']} m, done 2.30 m (the beam)",
        f"camera, ISO: planned {setup['camera']['iso']}, done 200",
        f"ground, ground: planned {setup['background']['id']}, done white270 (the grey was creased)",
    ):
        assert said in listed, said
    assert "reading 1:" not in listed  # on target: no difference
    assert listed.count("planned ") == 5
    assert "Signed by Ines Calloway" in page.words


def test_the_differences_stay_with_their_plan_when_a_newer_one_is_made(ines: Visitor) -> None:
    type_it(ines, "11", 3)
    plans.make_plan(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("askew"))
    page = ines.open(START)
    assert "done f/11 +0.0" in page.words
    assert "This plan is superseded." in page.words
    ines.follow("Open the one that holds now")
    assert ines.page.address == "/sittings/L-0001/plans/2/record/"
    assert "Nothing noted: built as planned so far." in ines.page.words


def test_a_signed_record_takes_nothing_more(ines: Visitor) -> None:
    type_it(ines, "5.6 6")
    ines.open(START)
    page = ines.press("Sign the record")
    assert [form for form in page.forms if "Sign the record" in form.buttons or "Note it" in form.buttons] == []
    answer = type_it(ines, "5.6 4")
    assert answer.status_code == 422
    assert "This record is signed." in answer.json()["error"]
    assert "This record is signed." in change(ines).content.decode()
    assert "This record is signed." in ines.client.post(START + "sign/", follow=True).content.decode()
    assert (Reading.objects.count(), Change.objects.count()) == (1, 0)


def test_nothing_is_signed_before_anything_is_metered(ines: Visitor) -> None:
    answer = ines.client.post(START + "sign/", follow=True)
    assert "Nothing has been metered yet." in answer.content.decode()
    assert not Record.objects.filter(closed_at__isnull=False).exists()


def test_the_code_on_the_sheet_leads_to_the_record_of_the_plan_that_holds(ines: Visitor) -> None:
    assert ines.open("/sittings/L-0001/record/").address == START
    plans.make_plan(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("askew"))
    assert ines.open("/sittings/L-0001/record/").address == "/sittings/L-0001/plans/2/record/"


# Two people at one reading, with and without a network: nobody's reading goes over another's unseen.


@pytest.fixture
def plan(studio: None) -> Plan:
    return lindenmere.plan("askew")


def send(
    who: str, text: str, *, minutes_ago: float = 0, seen: int = 0, name: str = "", to: str = "readings/", **fields: str
) -> HttpResponse:
    """One entry as a device sends it, whose clock is an hour behind."""
    sent = int(clock.now().timestamp() * 1000) - 60 * MINUTE_MS
    headers = {
        "Accept": "application/json", "X-Entry": name or str(uuid.uuid4()), "X-Entry-Sent": str(sent),
        "X-Entry-Made": str(int(sent - minutes_ago * MINUTE_MS)),
    }  # fmt: skip
    body = {"setup": SETUP, "step": "1", "text": text, "seen": str(seen)} | fields
    return lindenmere.client_of(who).post(START + to, body, headers=headers)


def step_one(plan: Plan) -> workbench.Step:
    return workbench.rounds(plan, Record.objects.get(plan=plan))[0].steps[0]


def test_an_entry_that_comes_in_late_stands_beside_the_newer_one(plan: Plan) -> None:
    send("assistant", "5.6 6")
    late = send("photographer", "5.6 4", minutes_ago=4)
    assert late.json()["outcome"] == "kept"
    step = step_one(plan)
    assert shown_stops(step.reading.amount) == "f/5.6 +0.6"
    (words,) = step.met.words
    assert words.startswith("Ines Calloway read f/5.6 +0.6 at ")
    assert "Tobiah Renn's entry of" in words
    assert "f/5.6 +0.4, came in later." in words
    page = lindenmere.visitor("assistant").open(START)
    assert words in page.words
    send("assistant", "5.6 5", seen=step.seen)
    assert step_one(plan).met.words == []
    assert Reading.objects.count() == 3


def test_who_reads_without_having_seen_the_others_reading_is_told_of_it(plan: Plan) -> None:
    ines, tobiah = lindenmere.visitor("assistant"), lindenmere.visitor("photographer")
    for one in (ines, tobiah):  # two phones, one page, no script
        one.open(START)
    ines.press("Save", {"text": "5.6 6"})
    tobiah.press("Save", {"text": "5.6 2"})
    step = step_one(plan)
    assert shown_stops(step.reading.amount) == "f/5.6 +0.2"
    assert "without having seen Ines Calloway's f/5.6 +0.6" in step.met.words[0]


def test_what_was_read_before_the_signature_still_comes_in(plan: Plan) -> None:
    send("assistant", "5.6 6", minutes_ago=20)
    record = records.sign(by=lindenmere.member("assistant"), record=Record.objects.get(plan=plan))
    assert send("photographer", "5.6 4", minutes_ago=10).json()["outcome"] == "kept"
    refused = send("photographer", "5.6 4").json()
    assert (refused["outcome"], "signed" in refused["says"]) == ("refused", True)
    assert (Reading.objects.filter(record=record).count(), Entry.objects.count()) == (2, 3)


def test_a_signature_that_comes_in_late_does_not_close_over_newer_readings(plan: Plan) -> None:
    send("assistant", "5.6 6")
    refused = send("photographer", "", to="sign/", minutes_ago=5).json()
    assert refused["outcome"] == "refused"
    assert "Ines Calloway went on metering after this signature" in refused["says"]
    assert Record.objects.get(plan=plan).closed_at is None


def test_a_change_is_noted_once_and_what_is_wrong_with_it_is_said_in_words(plan: Plan) -> None:
    said = {"setup_name": SETUP, "about": "A", "what": "power", "actual": "1/4", "why": ""}
    name = str(uuid.uuid4())
    for _again in range(2):
        assert send("assistant", "", to="changes/", name=name, **said).json()["then"] in (START, None)
    assert Change.objects.count() == 1
    refused = send("assistant", "", to="changes/", **(said | {"actual": ""})).json()
    assert refused["says"].startswith("What was done: ")


def test_feature_47_two_hours_without_a_network_come_in_once_and_in_order(plan: Plan) -> None:
    entries = [(str(uuid.uuid4()), f"5.6 {n}", 120 - 10 * n) for n in range(10)]
    for name, text, ago in entries[:6] + entries[:6] + entries:  # broken off after the sixth, begun again
        assert send("assistant", text, name=name, minutes_ago=ago).json()["outcome"] == "kept"
    kept = list(Reading.objects.order_by("at"))
    assert [one.as_typed for one in kept] == [text for _name, text, _ago in entries]
    assert kept[-1].at - kept[0].at == pytest.approx(timedelta(minutes=90), abs=timedelta(seconds=20))
    assert clock.now() - kept[0].at == pytest.approx(timedelta(hours=2), abs=timedelta(seconds=20))
    assert shown_stops(step_one(plan).reading.amount) == "f/5.6 +0.9"
    assert step_one(plan).met.words == []


def test_a_page_without_a_network_knows_what_each_reading_near_its_target_means(plan: Plan) -> None:
    step = workbench.rounds(plan, None)[0].steps[0]
    for typed, said in step.table.items():
        assert said == workbench.compared(step, readings.parse_reading(typed))
    assert step.table["5.6 6"]["words"] == "+0.2 stop, over: within tolerance"
