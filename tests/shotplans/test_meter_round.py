"""The meter round on a phone: two keys a reading, likely causes first, then the dial, the distance, the other faces."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from django.contrib.staticfiles import finders

from shotplans.models import CameraSet, Change, Plan, Reading, Record
from studio.models import Profile
from tests.bookings import making
from tests.bookings.making import House
from tests.pages import Page, Visitor

START = "/sittings/L-0001/plans/1/record/"
STEP = START + "rounds/1/"
SETUP = "the pair"
FRAME = "/sittings/L-0001/plans/1/setups/1/test-frame/"
STYLES = ("studio/studio.css", "shotplans/meter.css")


@pytest.fixture
def ines(askew_house: House, db: None) -> Visitor:
    return making.visitor(askew_house, "assistant")


def press(visitor: Visitor, step: int, stop: str, tenth: str) -> Page:
    """The two keys of a step, and the page that comes of them."""
    sent = {"setup": SETUP, "step": str(step), "then": "round", "stop": stop, "tenth": tenth}
    return came(visitor, "readings/", sent)


def came(visitor: Visitor, where: str, sent: dict[str, Any]) -> Page:
    answer = visitor.client.post(START + where, sent)
    return visitor.open(answer["Location"])


def test_two_keys_keep_a_reading_and_go_on_to_the_next(ines: Visitor) -> None:
    page = ines.open(STEP)
    assert page.address == STEP + "1/"
    for said in (
        "Reading 1 of 7",
        "Dome out, to the camera.",
        "A on, B, C off, panels out",
        "400 Ws head",
        "dial 1/4 -0.3",
    ):
        assert said in page.words, said
    page = ines.press("+0.5")
    assert page.address == STEP + "2/"
    assert "Reading 1: f/5.6 +0.5, +0.1 stop, over: within tolerance" in page.words
    assert [(str(r.stops), r.head, r.modifier, str(r.expected)) for r in Reading.objects.all()] == [
        ("5.5", "h400-1", "octa150-1", "5.40")
    ]


def test_after_the_last_reading_comes_the_test_frame_of_the_same_set_up_and_the_way_back(ines: Visitor) -> None:
    page = ines.open(STEP + "7/")
    assert f"{FRAME}" in page.html  # before it is read, too
    stop, tenth = re.search(r"Target\s*f/([\d.]+)(?: \+0\.(\d))?", page.words).groups("0")  # type: ignore[union-attr]
    page = press(ines, 7, stop, tenth)
    assert page.address == FRAME
    assert f'href="{STEP}1/"' in page.html  # back to the first that is unread
    assert f'data-keep href="{FRAME}"' in ines.open(START).html  # on the device before it is asked for


def test_a_light_out_of_tolerance_stays_with_causes_first_then_dial_then_distance(ines: Visitor) -> None:
    page = press(ines, 1, "4", "9")
    assert page.address == STEP + "1/"
    words = page.words
    assert "! -0.5 stop, under: outside tolerance" in words
    order = [
        "Ask first",
        "a cloth or a grid too many on A",
        "planned 2.10 m, it reads like 2.50 m",
        "dial of A at 1/4 -0.3",
        "If all that is right",
        "A: power up 0.5 (dial 1/2 -0.8)",
        "or A: 35 cm closer, to 1.75 m",
    ]
    at = [words.index(said) for said in order]
    assert at == sorted(at)


def test_the_advice_says_what_it_does_to_the_other_faces_and_the_total(ines: Visitor) -> None:
    words = press(ines, 1, "4", "9").words
    table = words.split("What that does elsewhere, in stops from the target")[1]
    # A alone half a stop down: the sum with the fill falls by less than that, and the dial brings it back
    setting = table.split("The reading that sets the camera")[1]
    now, by_power, _by_distance = map(Decimal, re.findall(r"[+-]\d\.\d", setting)[:3])
    assert Decimal("-0.5") < now <= Decimal("-0.3")
    assert abs(by_power) <= Decimal("0.1")
    assert "At Ottoline's face" in table
    assert "At Bertram's face" in table


def test_what_is_done_to_a_lamp_further_off_than_any_is_foretold_nowhere_and_says_so(ines: Visitor) -> None:
    plan = Plan.objects.get()
    light = next(x for x in plan.setups[0]["lights"] if x["letter"] == "A")
    far = {"head": light["head"], "modifier": light["modifier"], "offset_stops": -9.8, "standard_error_stops": 0.1,
           "readings": 4}  # fmt: skip
    Plan.objects.filter(pk=plan.pk).update(request=plan.request | {"corrections": [far]})
    words = press(ines, 1, "4", "9").words
    assert "What that does elsewhere cannot be foretold" in words
    assert "The reading that sets the camera" not in words.split("If all that is right")[1]


def test_what_was_put_right_is_kept_and_asks_for_the_reading_again(ines: Visitor) -> None:
    press(ines, 1, "4", "9")
    page = came(ines, "put-right/", {"setup": SETUP, "step": "1", "then": "round", "cause": "cloth"})
    assert page.address == STEP + "1/"
    assert "It was a cloth or grid. Read again." in page.words
    assert "Ask first" not in page.words
    kept = Reading.objects.get()
    assert (kept.cause, kept.cause_by and kept.cause_by.short) == ("cloth", "IC")


def test_done_notes_the_change_with_who_and_asks_for_the_reading_again(ines: Visitor) -> None:
    press(ines, 1, "4", "9")
    page = ines.press("Done")
    assert page.address == STEP + "1/"
    assert "Changed since: A, power 1/2 -0.8. Read again." in page.words
    noted = Change.objects.get()
    assert (noted.planned, noted.actual, noted.why, noted.by.short) == ("1/4 -0.3", "1/2 -0.8", "to the target", "IC")


@pytest.mark.parametrize(("stop", "tenth"), [("7", "1"), ("", ""), ("5.6", "12"), ("<b>", "x"), ("6.3", "2")])
def test_keys_that_no_meter_has_ask_back_beside_the_field(ines: Visitor, stop: str, tenth: str) -> None:
    sent = {"setup": SETUP, "step": "1", "then": "round", "stop": stop, "tenth": tenth}
    answer = ines.client.post(START + "readings/", sent)
    assert answer.status_code == 422
    assert "Type" in answer.content.decode()
    assert "<b>" not in answer.content.decode()
    assert not Reading.objects.exists()
    assert not Record.objects.exists()


def camera(visitor: Visitor, **typed: str) -> str:
    sent = {"setup": SETUP, "step": "4", "then": "round", "f_number": "8", "shutter_s": "0.005", "iso": "100"} | typed
    return came(visitor, "camera/", sent).words


def test_feature_36_set_f_5_6_metered_f_8_flags_one_stop_before_the_second_frame(ines: Visitor) -> None:
    press(ines, 4, "8", "0")
    words = camera(ines, f_number="5.6")
    assert "Metered f/8 +0.0, set f/5.6 · 1/200 · ISO 100." in words
    assert "! The frame will be 1.0 stop lighter than metered." in words
    assert "Set as metered: +0.0 stop." in camera(ines)
    assert CameraSet.objects.count() == 2
    assert "part of the frame stays dark" in camera(ines, shutter_s="0.002")  # shorter than the sync of 1/200
    assert "lighter" not in camera(ines, shutter_s="0.01")  # a shutter is no exposure where flash lights the picture


@pytest.mark.parametrize("typed", [{"f_number": "0"}, {"iso": "x"}, {"shutter_s": ""}, {"iso": "9" * 40}])
def test_settings_no_camera_has_are_refused_beside_the_field(ines: Visitor, typed: dict[str, str]) -> None:
    sent = {"setup": SETUP, "step": "4", "f_number": "8", "shutter_s": "0.005", "iso": "100"} | typed
    answer = ines.client.post(START + "camera/", sent)
    assert answer.status_code == 422
    assert 'class="invalid-feedback"' in answer.content.decode()
    assert not CameraSet.objects.exists()


def test_feature_48_typing_a_reading_beside_its_target_shows_the_difference_at_once(ines: Visitor) -> None:
    # the target of step 4 is f/8: 5.6 +0.8 lies 0.2 under
    answer = ines.client.post(START + "preview/", {"setup": SETUP, "step": "4", "text": "5.6 +0.8"})
    assert answer.json()["words"] == "-0.2 stop, under: within tolerance"
    page = press(ines, 4, "5.6", "8")
    assert "-0.2 stop, under: within tolerance" in page.words


def test_feature_46_the_set_screen_is_dark_with_numbers_of_20_points_and_keys_of_44_pixels(ines: Visitor) -> None:
    assert '<body class="set">' in ines.open(STEP).html
    css = "".join(Path(found).read_text() for name in STYLES if (found := finders.find(name)))
    assert "--paper: #161616" in css.split("body.set {")[1].split("}")[0]
    token = css.split("dl.big dd {")[1].split("font-size: var(")[1].split(")")[0]
    numbers = float(css.split(f"{token}: ")[1].split("rem")[0])
    assert numbers * 16 * 0.75 >= 20  # a point is 0.75 of a pixel
    keys = css.split(".keys :is(.stops span, .tenths button) {")[1].split("min-height: ")[1].split("rem")[0]
    assert float(keys) * 16 >= 44


@pytest.mark.parametrize("where", ["rounds/1/99/", "rounds/9/", "rounds/0/1/"])
def test_a_step_the_plan_does_not_have_is_not_found(ines: Visitor, where: str) -> None:
    assert ines.client.get(START + where).status_code == 404


@pytest.mark.parametrize("sent", [{"cause": "mood"}, {"step": "99"}, {"setup": "the trio"}, {"step": "x" * 400}])
def test_putting_right_what_is_not_there_writes_nothing(ines: Visitor, sent: dict[str, str]) -> None:
    press(ines, 1, "4", "9")
    ines.client.post(START + "put-right/", {"setup": SETUP, "step": "1", "cause": "cloth"} | sent)
    assert Reading.objects.get().cause == ""


def test_a_step_costs_few_queries(ines: Visitor, django_assert_max_num_queries: Any) -> None:
    press(ines, 4, "8", "0")
    with django_assert_max_num_queries(22):
        ines.client.get(STEP + "4/")


def test_a_studio_that_measures_in_feet_reads_every_length_of_a_step_in_feet_and_inches(ines: Visitor) -> None:
    Profile.objects.update(units="imperial")
    words = press(ines, 1, "4", "9").words
    assert "planned 6 ft 10 in, it reads like 8 ft 2 in" in words
    assert "or A: 14 in closer, to 5 ft 8 in" in words
    assert not re.search(r"\d m\b", words)  # centimetres stand in the names of modifiers


def test_what_was_noted_in_metres_is_read_in_feet_and_inches_and_what_was_written_otherwise_as_it_was(
    ines: Visitor,
) -> None:
    sent = {"setup_name": SETUP, "about": "A", "why": "", "step": "1", "then": "round"}
    press(ines, 1, "4", "9")
    for what, actual in (("distance", "1.83 m"), ("height", "a hand lower"), ("power", "5.5")):
        ines.client.post(START + "changes/", sent | {"what": what, "actual": actual})
    assert "done 1.83 m" in ines.open(START).words
    Profile.objects.update(units="imperial")
    words = ines.open(START).words
    assert re.search(r"A, distance: planned \d ft [\d.]+ in, done 6 ft ", words)  # 1.83 m is 72.05 inches
    assert "done a hand lower" in words
    assert "done 5.5" in words
    assert not re.search(r"(planned|done) [\d.]+ m\b", words)


def test_a_step_says_in_feet_where_a_light_has_gone_since_its_reading(ines: Visitor) -> None:
    Profile.objects.update(units="imperial")
    press(ines, 1, "4", "9")
    sent = {"setup_name": SETUP, "about": "A", "what": "distance", "actual": "1.75 m", "why": "", "step": "1"}
    words = came(ines, "changes/", sent | {"then": "round"}).words
    assert re.search(r"Changed since: A, distance 5 ft 9 in", words)  # 68.9 inches
