"""Forecasts and plans of a set moved by hand: the state a hand leaves, its answer, and the plan that is made of it.

What belongs here: gestures as changes, the forecast against the plan's own way, and what a kept version holds.
"""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import numpy as np
import pytest

from shotplans.planner import assumptions, by_hand, codec, forecast, hand_aim, hand_plan, words
from shotplans.planner.moves import Change, Refused
from shotplans.planner.placed import placed
from shotplans.planner.plan import MOST_KEPT, Solved
from shotplans.planner.whatif import what_if
from tests import planned_once
from tests.planner import briefs

Tree = dict[str, Any]


PLANS = ("tarrant", "pellingham")


@cache
def planned(name: str) -> tuple[Any, Tree]:
    given = codec.understand(briefs.demo(name))
    return assumptions.fill(given)[0], json.loads(json.dumps(planned_once.plan(given)))


def base_of(name: str = "tarrant") -> forecast.Base:
    request, document = planned(name)
    return forecast.base(request, document["setups"][0])


def refused(of: forecast.Base, *gesture: str) -> str:
    with pytest.raises(Refused) as caught:
        forecast.answer(of, (), Change(*gesture))
    return words.refusal(caught.value.code, caught.value.values)


@pytest.mark.parametrize("name", PLANS)
def test_an_untouched_set_forecasts_the_plans_own_numbers(name: str) -> None:
    of = base_of(name)
    found = forecast.answer(of)
    again = json.loads(json.dumps(found.setup))
    assert found.changes == ()
    for key in ("camera", "background", "lights", "sitters"):
        assert again[key] == of.entry[key]
    was = of.entry["expected"]
    assert again["expected"] == {k: was[k] for k in again["expected"]}  # how sure each is comes with the kept plan
    assert [s["target"] for s in again["meter_round"]] == [s["target"] for s in of.entry["meter_round"]]


def test_one_change_is_answered_as_what_if_answers_it() -> None:
    of = base_of()
    request, document = planned("tarrant")
    change = Change("camera", "", "distance_m", "2.65")
    asked = what_if(request, document, of.entry["name"], change)
    found = forecast.answer(of, (), change)
    assert found.problems == tuple(asked.problems)
    assert found.setup["expected"]["evenness_stops"] == asked.setup["expected"]["evenness_stops"]
    assert found.setup["camera"] == asked.setup["camera"]


def test_a_light_rolled_over_the_floor_stops_on_the_steps_of_a_hand_and_keeps_its_height() -> None:
    of = base_of()
    light = of.stands.lights[0]
    found = forecast.answer(of, (), Change("light", "A", by_hand.FLOOR, "-1.02 1.31"))
    row = found.setup["lights"][0]
    assert row["centre_height_m"] == pytest.approx(light.position[1], abs=0.005)
    assert row["bearing_deg"] % 5 == 0
    assert round(row["distance_m"] * 100) % 5 == 0
    x, _y, z = row["position_m"]
    assert np.hypot(x + 1.02, z - 1.31) < 0.12  # near where it was let go
    free = forecast.answer(of, (), Change("light", "A", by_hand.FLOOR, "-1.02 1.31", free=True))
    assert free.setup["lights"][0]["position_m"][::2] == [-1.02, 1.31]


ONE_STEP = {
    ("light", "A", by_hand.ARROW, "left"): ("bearing_deg", -5.0),
    ("light", "A", by_hand.ARROW, "down"): ("distance_m", 0.05),
    ("light", "A", by_hand.LIFT, "up"): ("centre_height_m", 0.05),
}


@pytest.mark.parametrize("gesture", ONE_STEP, ids=str)
def test_an_arrow_key_moves_a_light_by_one_step(gesture: tuple[str, str, str, str]) -> None:
    of = base_of()
    key, by = ONE_STEP[gesture]
    before = float(of.entry["lights"][0][key])
    row = forecast.answer(of, (), Change(*gesture)).setup["lights"][0]
    assert row[key] - before == pytest.approx(by, abs=0.026 if key == "centre_height_m" else 0.006)


def test_the_state_is_the_whole_of_it_whatever_way_a_hand_took() -> None:
    of = base_of()
    step = forecast.answer(of, (), Change("light", "A", by_hand.FLOOR, "-1.5 0.6"))
    step = forecast.answer(of, step.changes, Change("camera", "", by_hand.ARROW, "down"))
    step = forecast.answer(of, step.changes, Change("background", "", by_hand.FLOOR, "0 -2.1"))
    step = forecast.answer(of, step.changes, Change("sitter", "Juno", "nose_bearing_deg", "10"))
    step = forecast.answer(of, step.changes, Change("light", "A", "power_below_full_stops", "1.0"))
    there = by_hand.moved(of.request, of.stands, step.changes)
    assert by_hand.between(of.stands, there) == step.changes
    assert {c.thing for c in step.changes} == {"light", "camera", "background", "sitter"}
    back = forecast.answer(of, step.changes, Change("background", "", by_hand.FLOOR, "0 -1.8"))
    assert "background" not in {c.thing for c in back.changes}
    assert forecast.answer(of, back.changes).setup == back.setup


DRAGS = (
    Change("light", "A", by_hand.FLOOR, "-1.5 0.6"),
    Change("light", "A", by_hand.FLOOR, "-1.3 0.9"),
    Change("light", "B", by_hand.ARROW, "left"),
    Change("camera", "", by_hand.ARROW, "down"),
    Change("sitter", "Juno", by_hand.ARROW, "right"),
    Change("light", "A", by_hand.LIFT, "up"),
    Change("background", "", by_hand.ARROW, "up"),
    Change("light", "A", "power_below_full_stops", "1.0"),
)


def test_what_is_kept_between_moves_changes_no_digit() -> None:
    """A set that was moved all day answers as one that was opened a moment ago."""
    warm = base_of()
    step = forecast.answer(warm)
    for drag in (*DRAGS, *DRAGS[:3]):
        before, step = step, forecast.answer(warm, step.changes, drag)
        assert step == forecast.answer(base_of(), before.changes, drag)


def test_what_is_kept_of_a_light_is_bounded() -> None:
    light = base_of().stands.lights[0]
    assert [light.once(("place", n), lambda n=n: n) for n in range(3 * MOST_KEPT)] == list(range(3 * MOST_KEPT))
    assert light.once(("place", 3 * MOST_KEPT - 1), lambda: -1) == 3 * MOST_KEPT - 1
    assert len(light.kept) <= MOST_KEPT


def test_what_cannot_be_set_is_refused_with_a_sentence() -> None:
    of = base_of()
    assert "no light Z" in refused(of, "light", "Z", by_hand.FLOOR, "1 1")
    assert "not a number" in refused(of, "light", "A", by_hand.FLOOR, "nan 1")
    assert "not a number" in refused(of, "light", "A", by_hand.ARROW, "sideways")
    assert "cannot be set" in refused(of, "light", "A", "place_m", "1 2 300")
    assert "cannot be set" in refused(of, "background", "", by_hand.FLOOR, "0 3")
    assert "cannot be changed" in refused(of, "lamp", "A", "distance_m", "2")


def test_feature_27_a_low_ceiling_breaks_the_limit_of_a_light_that_is_raised() -> None:
    of = base_of()
    top = of.request.room.ceiling_m
    assert "ceiling" not in {p["limit"] for p in forecast.answer(of).problems}
    broken = {p["limit"]: p for p in forecast.answer(of, (), Change("light", "A", "height_m", f"{top:.2f}")).problems}
    assert broken["ceiling"]["says"]
    assert broken["ceiling"]["short_by"] > 0


def test_feature_25_a_value_kept_by_hand_stands_with_the_suggested_one_and_the_reason() -> None:
    request, document = planned("tarrant")
    setup = document["setups"][0]["name"]
    of = base_of()
    first = forecast.answer(of, (), Change("light", "A", by_hand.FLOOR, "-1.5 0.6"))
    made = hand_plan.plan(request, document, setup, first.changes, "The door stays free.")
    row = next(r for r in hand_plan.moved(made, setup)["rows"] if r["about"] == "lights[0].bearing_deg")  # type: ignore[index]
    assert row["suggested"] == document["setups"][0]["lights"][0]["bearing_deg"]
    assert row["value"] == made["setups"][0]["lights"][0]["bearing_deg"] != row["suggested"]
    assert row["reason"] == "The door stays free."
    second = forecast.answer(of, hand_plan.changes(made, setup), Change("camera", "", by_hand.ARROW, "down"))
    again = hand_plan.plan(request, made, setup, second.changes, "More room to move.")
    said = {r["about"]: r["reason"] for r in hand_plan.moved(again, setup)["rows"]}  # type: ignore[index]
    assert said["lights[0].bearing_deg"] == "The door stays free."
    assert said["camera.distance_m"] == "More room to move."
    assert hand_plan.suggested(again, setup)["lights"] == document["setups"][0]["lights"]  # type: ignore[index]


def test_a_light_is_pointed_at_a_name_or_past_the_middle_and_the_plan_keeps_it() -> None:
    request, document = planned("pellingham")
    setup, of = document["setups"][0]["name"], base_of("pellingham")
    found = forecast.answer(of)
    at, words_of = next((point, words) for point, words in found.aims if "Hesper" in words or "face" in words)
    face = forecast.answer(of, (), Change("light", "A", "aim_m", " ".join(map(str, at))))
    row, was = face.setup["lights"][0], of.entry["lights"][0]
    assert (tuple(row["aim_m"]), row["aim_words"]) == (at, words_of)
    assert (row["position_m"], row["distance_m"]) == (was["position_m"], was["distance_m"])  # turned on its stand
    assert face.setup["expected"]["evenness_stops"] != of.entry["expected"]["evenness_stops"]
    turned = forecast.answer(of, face.changes, Change("light", "A", "turn_deg", "16"))
    row = turned.setup["lights"][0]
    assert hand_aim.turn_deg(row["position_m"], row["aim_m"]) == 15.0
    assert "15 degrees past the middle, on the camera's side" in row["aim_words"]
    x, z = row["aim_m"][0] - row["position_m"][0], row["aim_m"][2] - row["position_m"][2]
    ahead = row["position_m"][2] + z * (0 - row["position_m"][0]) / x  # where its beam crosses the camera's line
    assert ahead > 0.2, "on the camera's side of the mark"
    assert forecast.answer(of, turned.changes).setup == turned.setup
    made = hand_plan.plan(request, document, setup, turned.changes, "Ever so little off the wall.")
    assert made["setups"][0]["lights"][0]["aim_m"] == row["aim_m"]
    kept = next(r for r in hand_plan.moved(made, setup)["rows"] if r["key"] == "aim_words")  # type: ignore[index]
    assert kept["suggested"] == was["aim_words"]
    assert "lights[0].feather_deg" not in {r["about"] for r in made["setups"][0]["reasons"]}
    back = forecast.answer(of, turned.changes, Change("light", "A", "aim_m", " ".join(map(str, was["aim_m"]))))
    assert back.changes == ()


def test_a_light_turned_off_its_limits_breaks_them_and_one_pointed_into_its_own_front_is_refused() -> None:
    of = base_of()
    away = forecast.answer(of, (), Change("light", "A", "turn_deg", "70"))
    assert {p["limit"] for p in away.problems} - {p["limit"] for p in forecast.answer(of).problems}
    assert "would not reach the middle" in refused(of, "light", "A", "turn_deg", "150")
    at, aim = (" ".join(map(str, of.entry["lights"][0][part])) for part in ("position_m", "aim_m"))
    assert "its own front" in refused(of, "light", "A", "aim_m", at)
    assert "its own front" in refused(of, "light", "A", "place_m", aim)


def test_other_ways_stay_the_planners_answer_to_the_request_whatever_a_hand_moves() -> None:
    request, document = planned("tarrant")
    setup, of = document["setups"][0]["name"], base_of()
    ways = document["setups"][0]["alternatives"]
    assert ways
    moved = document
    for gesture in (Change("light", "A", by_hand.FLOOR, "-1.5 0.6"), Change("camera", "", by_hand.ARROW, "down")):
        changes = forecast.answer(of, hand_plan.changes(moved, setup), gesture).changes
        moved = hand_plan.plan(request, moved, setup, changes, "So it fits.")
        assert moved["setups"][0]["alternatives"] == ways
    assert hand_plan.plan(request, moved, setup, (), "Back.")["setups"][0]["alternatives"] == ways


def test_a_kept_plan_is_the_engines_own_reckoning_of_the_same_input() -> None:
    request, document = planned("tarrant")
    setup = document["setups"][0]["name"]
    first = forecast.answer(base_of(), (), Change("light", "A", by_hand.FLOOR, "-1.5 0.6"))
    made = json.loads(json.dumps(hand_plan.plan(request, document, setup, first.changes, "It fits the wall.")))
    assert made["fingerprint"] == document["fingerprint"]
    assert made["setups"][1] == document["setups"][1]  # the other set-up stands as it stood
    entry, forecasted = made["setups"][0], json.loads(json.dumps(first.setup))
    assert entry["lights"] == forecasted["lights"]
    assert {k: entry["expected"][k] for k in forecasted["expected"]} == forecasted["expected"]
    assert isinstance(placed(request, entry), Solved)  # and it can be moved again
    assert not [r for r in entry["reasons"] if r["about"] == "lights[0].bearing_deg"]
    with pytest.raises(Refused, match="nothing_moved"):
        hand_plan.plan(request, made, setup, first.changes, "Again.")
    back = hand_plan.plan(request, made, setup, (), "As suggested.")
    assert hand_plan.moved(back, setup) is None
    assert json.loads(json.dumps(back["setups"][0]["expected"])) == document["setups"][0]["expected"]
