"""Confirming a brief on its page: what the kind begins it with, what was typed, and every no beside its field."""

from __future__ import annotations

import re
from datetime import timedelta
from html import unescape
from typing import Any, get_args

import pytest

from bookings.models import Client as Company
from shotplans import snapshot, workbench
from shotplans.actions import plans
from shotplans.forms import briefs
from shotplans.models import Brief, Plan
from shotplans.planner import brief as planned
from shotplans.planner import codec
from studio.models import Profile
from studio.models.versions import Stale
from tests import lindenmere
from tests.pages import Page, Visitor

CONFIRM = "Confirm the brief"


def at_brief(tobiah: Visitor, name: str = "askew") -> Page:
    return tobiah.open(f"/sittings/{lindenmere.NUMBERS[name]}/brief/")


def beside(page: Page, name: str) -> str:
    """The sentences that stand with one field."""
    part = re.search(rf'id="div_id_{name}".*?(?=id="div_id_|</fieldset>)', page.html, re.S)
    assert part, name
    return " ".join(unescape(said) for said in re.findall(r'id="error_[^"]*"><strong>([^<]*)', part.group()))


def data_of(name: str) -> dict[str, Any]:
    found: dict[str, Any] = Brief.objects.get(sitting__number=lindenmere.NUMBERS[name]).data
    return found


@pytest.mark.parametrize("name", list(lindenmere.NUMBERS))
def test_confirming_what_stands_there_changes_no_plan(tobiah: Visitor, name: str) -> None:
    before = lindenmere.plan(name).fingerprint
    at_brief(tobiah, name)
    tobiah.press(CONFIRM)
    assert "Brief confirmed." in tobiah.page.words
    assert codec.fingerprint(snapshot.request_for(lindenmere.sitting(name))) == before


def test_what_was_typed_is_kept_as_the_planner_reads_it(tobiah: Visitor) -> None:
    at_brief(tobiah)
    tobiah.press(
        CONFIRM,
        {
            "setup-0-intent": "even",
            "print_width_cm": "90",
            "minutes": "",
            "must": "The close pair.\r\n\r\n  Their hands. ",
            "setup-1-name": "her alone",
            "setup-1-intent": "bold",
            "setup-1-people": ["Ottoline"],
        },
    )
    kept = data_of("askew")
    assert kept["setups"][0]["intent"] == "even"
    assert kept["setups"][1] == {
        "name": "her alone", "intent": "bold", "framing": "head_and_shoulders", "background_tone": "mid",
        "view": "either", "face_side": "either", "people": ["Ottoline"],
    }  # fmt: skip
    assert kept["print_width_cm"] == 90
    assert kept["must"] == ["The close pair.", "Their hands."]
    assert "minutes" not in kept
    assert kept["viewing_m"] == 2.0


MORE = {
    "crops": "1:1, 4x5, 0.8", "copy_space": "left", "retouch": "full", "furniture_width_cm": "180", "viewing_m": "2.5",
    "event_on": "2026-12-24", "decider_present": "no", "haze": "on", "prop-0-label": "a viola", "prop-0-size_m": "0.7",
    "prop-0-shiny": "yes", "prop-0-held_by": "Bertram", "prop-1-label": "a stool",
}  # fmt: skip


def test_more_about_the_picture_reaches_the_planner_and_comes_back_as_it_was_typed(tobiah: Visitor) -> None:
    at_brief(tobiah)
    tobiah.press(CONFIRM, MORE)
    brief = snapshot.request_for(lindenmere.sitting("askew")).brief
    assert (brief.crops, brief.copy_space, brief.retouch) == (("1:1", "4x5", 0.8), "left", "full")
    assert (brief.furniture_width_cm, brief.viewing_m, brief.event_in_days) == (180, 2.5, 21)  # 3 to 24 December
    assert (brief.decider_present, brief.haze) == (False, True)
    assert [p.model_dump(exclude_none=True) for p in brief.props] == [
        {"label": "a viola", "size_m": 0.7, "shiny": True, "held_by": "Bertram"}, {"label": "a stool"},
    ]  # fmt: skip
    before = data_of("askew")
    values = at_brief(tobiah).form_with(CONFIRM).values
    assert {name: values[name] for name in MORE} == {name: [value] for name, value in MORE.items()}
    tobiah.press(CONFIRM)
    assert data_of("askew") == before


def test_what_is_emptied_is_asked_for_no_more(tobiah: Visitor) -> None:
    at_brief(tobiah)
    tobiah.press(CONFIRM, MORE)
    at_brief(tobiah)
    tobiah.press(CONFIRM, dict.fromkeys(MORE, "") | {"retouch": "none", "copy_space": "none", "haze": []})
    kept = data_of("askew")
    assert (kept["crops"], kept["props"], kept["haze"]) == ([], [], False)
    assert not {"event_on", "event_in_days", "decider_present", "viewing_m", "furniture_width_cm"} & set(kept)


def test_the_days_to_an_event_follow_a_move_of_the_sitting(tobiah: Visitor) -> None:
    at_brief(tobiah)
    tobiah.press(CONFIRM, {"event_on": "2026-12-24"})
    sitting = lindenmere.sitting("askew")
    sitting.starts_at += timedelta(days=7)
    assert snapshot.request_for(sitting).brief.event_in_days == 14
    sitting.starts_at += timedelta(days=21)  # after the event: the gap is named, nothing is guessed
    with pytest.raises(codec.Unreadable, match="event_in_days"):
        snapshot.request_for(sitting)


def test_days_to_an_event_from_a_file_become_its_day(tobiah: Visitor) -> None:
    brief = Brief.objects.get(sitting=lindenmere.sitting("askew"))
    brief.data["event_in_days"] = 10
    brief.save()
    assert at_brief(tobiah).form_with(CONFIRM).values["event_on"] == ["2026-12-13"]
    tobiah.press(CONFIRM)
    assert snapshot.request_for(lindenmere.sitting("askew")).brief.event_in_days == 10


def test_the_folded_part_says_what_it_holds_and_opens_where_something_is_refused(tobiah: Visitor) -> None:
    page = at_brief(tobiah, "dorrow")
    assert "More about the picture Looked at from; props" in page.words
    assert not re.search(r"<details[^>]* open", page.html)
    page = tobiah.press(CONFIRM, {"crops": "tall"})
    assert re.search(r"<details[^>]* open", page.html)
    at_brief(tobiah, "dorrow")
    assert re.search(r"<details[^>]* open", tobiah.press(CONFIRM, {"prop-1-size_m": "1"}).html)


def test_a_setup_ticked_off_is_gone(tobiah: Visitor) -> None:
    at_brief(tobiah, "tarrant")
    tobiah.press(CONFIRM, {"setup-1-DELETE": "on"})
    assert [s["name"] for s in data_of("tarrant")["setups"]] == ["portrait"]


def test_a_first_brief_begins_as_the_kind_of_sitting_does(tobiah: Visitor) -> None:
    sitting = lindenmere.sitting("dorrow")
    sitting.brief.delete()
    page = at_brief(tobiah, "dorrow")
    values = page.form_with(CONFIRM).values
    assert values["setup-0-intent"] == ["character"]
    assert values["setup-0-framing"] == ["head_and_shoulders"]
    assert values["setup-0-background_tone"] == ["dark"]
    assert values["setup-0-people"] == ["Ignace"]
    assert values["purpose"] == [sitting.purpose]
    assert "Make a new version of the plan" not in page.html
    tobiah.press(CONFIRM)
    assert data_of("dorrow")["setups"][0]["people"] == ["Ignace"]


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"setup-0-name": ""}, "setup-0-name", "required"),
        ({"setup-0-name": "n" * 81}, "setup-0-name", "at most 80"),
        ({"setup-0-name": "a\0b"}, "setup-0-name", "Null characters"),
        ({"setup-0-intent": "cosy"}, "setup-0-intent", "Select a valid choice"),
        ({"setup-0-people": ["Nobody"]}, "setup-0-people", "Select a valid choice"),
        ({"print_width_cm": "wide"}, "print_width_cm", "Enter a number"),
        ({"print_width_cm": "nan"}, "print_width_cm", "Enter a number"),
        ({"print_width_cm": "-3"}, "print_width_cm", "greater than or equal to 1"),
        ({"minutes": "1e400"}, "minutes", "Enter a number"),
        ({"key_side": "behind"}, "key_side", "Select a valid choice"),
        ({"must": "x" * 2001}, "must", "at most 2000"),
        ({"wished": "the bell\x07"}, "wished", "cannot be printed"),
        ({"setup-0-name": "the\x1bpair"}, "setup-0-name", "cannot be printed"),
        ({"crops": "4:5, tall"}, "crops", "tall is no shape"),
        ({"crops": "0:5"}, "crops", "0:5 is no shape"),
        ({"crops": ", ".join(["1:1"] * 13)}, "crops", "At most 12 shapes"),
        ({"viewing_m": "0"}, "viewing_m", "greater than or equal to 0.01"),
        ({"furniture_width_cm": "wide"}, "furniture_width_cm", "Enter a number"),
        ({"event_on": "soon"}, "event_on", "Give a day as year-month-day"),
        ({"event_on": "2026-12-02"}, "event_on", "Give a day on or after the sitting"),
        ({"event_on": "9999-12-31"}, "event_on", "within 10 years"),
        ({"prop-0-size_m": "0.4"}, "prop-0-label", "Say what it is, or leave the whole line empty."),
        ({"prop-0-label": "a\tbell"}, "prop-0-label", "cannot be printed"),
        ({"prop-0-label": "bell", "prop-0-size_m": "big"}, "prop-0-size_m", "Enter a number"),
    ],
)
def test_each_fault_is_told_beside_its_field_and_everything_typed_is_kept(
    tobiah: Visitor, typed: dict[str, Any], field: str, says: str
) -> None:
    before = data_of("askew")
    at_brief(tobiah)
    page = tobiah.press(CONFIRM, {"purpose": "the landing, over the stairs", **typed})
    assert page.status == 422
    assert says in beside(page, field)
    kept = page.form_with(CONFIRM).values
    assert kept["purpose"] == ["the landing, over the stairs"]
    for name, value in typed.items():
        if name not in ("setup-0-intent", "setup-0-people", "key_side"):  # a word nobody offers cannot stay chosen
            assert kept[name] == [value]
    assert data_of("askew") == before


@pytest.mark.parametrize(
    ("offered", "taken"),
    [(briefs.INTENTS, planned.Intent), (briefs.FRAMINGS, planned.FramingName), (briefs.TONES, planned.Tone)],
)
def test_the_form_offers_every_word_the_planner_takes_and_no_other(offered: Any, taken: Any) -> None:
    assert {word for word, _said in offered} == set(get_args(taken))


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"setup-TOTAL_FORMS": "many"}, "One set-up at least."),
        ({"setup-TOTAL_FORMS": "0", "setup-INITIAL_FORMS": "0"}, "One set-up at least."),
        ({"setup-TOTAL_FORMS": "999999"}, "A brief has 6 set-ups at most."),
        ({"setup-0-DELETE": "on"}, "One set-up at least."),
        ({"setup-1-name": "The Pair", "setup-1-people": ["Ottoline"]}, "Two set-ups have the same name"),
        ({"version": "new"}, "Enter a whole number"),
    ],
)
def test_faults_of_the_whole_are_told_above_and_nothing_is_kept(
    tobiah: Visitor, typed: dict[str, Any], says: str
) -> None:
    before = data_of("askew")
    at_brief(tobiah)
    page = tobiah.press(CONFIRM, typed)
    assert page.status == 422
    assert says.lower() in page.words.lower()
    assert data_of("askew") == before


def test_an_empty_form_is_answered_in_words(tobiah: Visitor) -> None:
    answer = tobiah.client.post(f"/sittings/{lindenmere.NUMBERS['askew']}/brief/")
    assert answer.status_code == 422


def test_somebody_faster_is_told_and_saving_again_lets_mine_stand(tobiah: Visitor) -> None:
    at_brief(tobiah)
    sitting = lindenmere.sitting("askew")
    theirs = data_of("askew") | {"purpose": "theirs"}
    plans.confirm_brief(by=lindenmere.member("photographer"), sitting=sitting, data=theirs)
    page = tobiah.press(CONFIRM, {"purpose": "mine"})
    assert page.status == 422
    assert "Somebody else saved this while you had it open." in page.words
    assert page.form_with(CONFIRM).values["purpose"] == ["mine"]
    assert data_of("askew")["purpose"] == "theirs"
    tobiah.press(CONFIRM)
    assert data_of("askew")["purpose"] == "mine"


def test_a_brief_confirmed_by_two_at_first_is_told_to_the_second(tobiah: Visitor) -> None:
    sitting = lindenmere.sitting("askew")
    data = workbench.starting_brief(sitting)
    sitting.brief.delete()
    page = at_brief(tobiah)
    assert page.form_with(CONFIRM).values["version"] == [""]
    plans.confirm_brief(by=lindenmere.member("photographer"), sitting=lindenmere.sitting("askew"), data=data)
    assert tobiah.press(CONFIRM).status == 422


def test_an_older_version_is_refused_by_the_action_itself(studio: None) -> None:
    sitting, photographer = lindenmere.sitting("askew"), lindenmere.member("photographer")
    seen = sitting.brief.version
    plans.confirm_brief(by=photographer, sitting=sitting, data=sitting.brief.data, seen=seen)
    with pytest.raises(Stale):
        plans.confirm_brief(by=photographer, sitting=sitting, data=sitting.brief.data, seen=seen)


def test_a_sitting_nobody_knows_is_not_found(tobiah: Visitor) -> None:
    assert tobiah.client.get("/sittings/L-9999/brief/").status_code == 404
    assert tobiah.client.post("/sittings/L-9999/plans/").status_code == 404


def test_a_brief_may_be_confirmed_again_without_touching_the_plan(tobiah: Visitor) -> None:
    at_brief(tobiah)
    tobiah.press(CONFIRM, {"setup-0-intent": "natural"})
    assert Plan.objects.filter(sitting=lindenmere.sitting("askew")).count() == 1


def test_the_pages_ask_and_read_in_what_the_member_reads(studio: None) -> None:
    Profile.objects.update(units="imperial")
    company = Company.objects.filter(is_company=True).first()
    assert company is not None
    asked = {
        f"/sittings/{lindenmere.NUMBERS['askew']}/brief/": (
            "photographer", ("Widest print (in)", "Looked at from (ft and in)", "Longest side (ft and in)"),
        ),
        f"/clients/{company.pk}/standard/": ("photographer", ("Key distance (ft and in)",)),
        "/rules/older_pair/": ("owner", ("From 13.78 in to 23.622 in. First value: 17.717 in.",)),
        "/rules/": ("owner", ("17.717 in",)),
    }  # fmt: skip
    for address, (role, words) in asked.items():
        page = lindenmere.client_of(role).get(address).content.decode()
        assert all(word in page for word in words), address
