"""What holds for every plan, whatever was asked: the contract, opposite wishes, mirrors, and honest problems."""

from __future__ import annotations

import copy
import json
import math
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from shotplans.planner.codec import read_request
from shotplans.planner.solve import plan
from tests.planner import briefs
from tests.planner.contract import faults
from tests.planner.laws_of_light import full_power_lxs
from tests.planner.sets import told

Tree = dict[str, Any]
VARIED = briefs.varied()


def planned(request: Tree) -> Tree:
    """The plan as a reader of JSON gets it."""
    document: Tree = json.loads(json.dumps(told(request).document))
    return document


def first(request: Tree) -> Tree:
    found: Tree = planned(request)["setups"][0]
    return found


def key_of(setup: Tree) -> Tree:
    found: Tree = next(light for light in setup["lights"] if light["role"] == "key")
    return found


def limits(request: Tree) -> set[str]:
    return {problem["limit"] for problem in planned(request)["problems"]}


@pytest.mark.parametrize("name", VARIED)
def test_every_plan_keeps_the_contract(name: str) -> None:
    assert faults(VARIED[name], planned(VARIED[name])) == []


@settings(
    max_examples=6, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.generate],  # a plan takes half a second: no shrinking
)  # fmt: skip
@given(briefs.requests())
def test_any_valid_request_gets_a_plan_that_keeps_the_contract(request: Tree) -> None:
    document = json.loads(json.dumps(told(request, ways=True).document))
    assert faults(request, document) == []


@pytest.mark.parametrize(("calm", "drawn"), [("soft", "character"), ("natural", "natural"), ("even", "bold")])
def test_opposite_wishes_for_one_note_give_opposite_light(calm: str, drawn: str) -> None:
    # Size and bearing must part: design.md section 6, "opposite size and bearing".
    softer = first(briefs.request(briefs.setup(calm), briefs.lined("softer")))
    shown = first(briefs.request(briefs.setup(drawn), briefs.lined("shown")))
    assert softer["expected"]["apparent_size_deg"] > shown["expected"]["apparent_size_deg"]
    noses = [abs(key_of(s)["bearing_from_nose_deg"]["Ottoline"]) for s in (softer, shown)]
    assert noses[0] < noses[1]
    relief = [s["expected"]["per_sitter"][0]["relief_stops"] for s in (softer, shown)]
    assert relief[0] < relief[1]


def test_a_wish_to_leave_lines_as_they_are_changes_nothing() -> None:
    plain = briefs.lined("as it is")
    bare = copy.deepcopy(plain) | {"wishes": []}
    both = [first(briefs.request(briefs.setup("natural"), s)) for s in (plain, bare)]
    assert both[0]["lights"] == both[1]["lights"]


@pytest.mark.parametrize("intent", ["soft", "natural", "character"])
def test_a_key_on_the_other_side_mirrors_the_whole_plan(intent: str) -> None:
    right = briefs.request(briefs.setup(intent), briefs.sitter("Mirela"), key_side="camera_right")
    a, b = first(right), first(briefs.mirrored(right))
    assert [light["letter"] for light in a["lights"]] == [light["letter"] for light in b["lights"]]
    for one, other in zip(a["lights"], b["lights"], strict=True):
        assert other["position_m"] == [0.0 - one["position_m"][0], *one["position_m"][1:]]
        assert other["foot_m"] == [0.0 - one["foot_m"][0], one["foot_m"][1]]
        assert other["bearing_deg"] in (0.0 - one["bearing_deg"], 360.0 - one["bearing_deg"])
        same = ("head", "modifier", "stand", "panel", "distance_m", "height_angle_deg", "dial", "side")
        assert {key: one[key] for key in same} == {key: other[key] for key in same}
    assert [0.0 - p["nose_bearing_deg"] for p in a["sitters"]] == [p["nose_bearing_deg"] for p in b["sitters"]]
    assert a["camera"] == b["camera"]
    assert [s["target"] for s in a["meter_round"]] == [s["target"] for s in b["meter_round"]]
    seen = [sorted((c["light"], c["image_side"], c["seen"]) for c in s["expected"]["per_sitter"][0]["catchlights"])
            for s in (a, b)]  # fmt: skip
    swap = {"left": "right", "right": "left"}
    assert seen[0] == sorted((light, swap[side], there) for light, side, there in seen[1])


def test_the_same_input_gives_the_same_plan() -> None:
    request = VARIED["a couple, soft"]
    twice = [plan(read_request(json.dumps(request).encode())) for _ in range(2)]
    for document in twice:
        document["planning_seconds"] = 0.0
    assert json.dumps(twice[0]) == json.dumps(twice[1])


def test_an_order_of_two_stops_more_light_turns_the_key_up_by_two_stops() -> None:
    # f/5.6 to f/11 is two stops by the full-stop row (values.md E32, E33); 0.11 for the rounding of two dials.
    orders = [{"aperture": n, "iso": 100} for n in (5.6, 11)]
    wanted = [briefs.request(briefs.setup("even"), briefs.sitter("Mirela"), preferences=o) for o in orders]
    keys = [key_of(first(request)) for request in wanted]
    assert keys[0]["position_m"] == keys[1]["position_m"]
    assert keys[0]["power_below_full_stops"] - keys[1]["power_below_full_stops"] == pytest.approx(2.0, abs=0.11)


def test_a_head_that_reads_lower_than_rated_is_turned_up_by_as_much() -> None:
    sitter, even = briefs.sitter("Mirela"), briefs.setup("even")
    base = key_of(first(briefs.request(even, sitter)))
    flash = [h["id"] for h in briefs.studio_kit()["heads"] if h["light"] == "flash"]
    learned = [briefs.LEARNED | {"head": head, "modifier": base["modifier"]} for head in flash]
    corrected = briefs.request(even, sitter, corrections=learned)
    key = key_of(first(corrected))
    assert (key["head"], key["modifier"], key["position_m"]) == (base["head"], base["modifier"], base["position_m"])
    # 0.11: both powers are printed to a tenth.
    assert base["power_below_full_stops"] - key["power_below_full_stops"] == pytest.approx(0.3, abs=0.11)


@pytest.mark.parametrize("part", ["heads", "modifiers", "stands"])
def test_an_empty_list_of_kit_gives_a_problem_and_no_light(part: str) -> None:
    kit = briefs.studio_kit() | {part: []}
    request = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=kit)
    assert first(request)["lights"] == []
    assert limits(request) & {"kit", "mount"}
    assert faults(request, planned(request)) == []


def test_a_set_up_without_panels_is_still_planned() -> None:
    request = briefs.request(briefs.setup("bold"), briefs.sitter("Mirela"), kit=briefs.studio_kit() | {"panels": []})
    assert first(request)["lights"]
    assert faults(request, planned(request)) == []


def test_mounts_that_fit_nothing_give_the_problem_mount() -> None:
    kit = briefs.studio_kit()
    kit["adapters"] = []
    for head in kit["heads"]:
        head["mount"] = "claw"
    request = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=kit)
    assert "mount" in limits(request)
    assert faults(request, planned(request)) == []


@pytest.mark.parametrize("size", [(2.0, 2.0, 2.2), (1.0, 1.0, 2.4), (9.0, 0.9, 3.0)])
def test_a_room_too_small_gives_the_problem_room(size: tuple[float, float, float]) -> None:
    request = briefs.request(briefs.setup("natural", "half"), briefs.sitter("Mirela"), briefs.room(*size))
    assert "room" in limits(request)
    assert faults(request, planned(request)) == []


@pytest.mark.parametrize(("people", "where"), [(40, (9.0, 6.0)), (20, (5.0, 4.0))])
def test_more_people_than_the_room_holds_are_told(people: int, where: tuple[float, float]) -> None:
    tree = [p | {"label": f"Person {i + 1}"} for i, p in enumerate(briefs.family(people))]
    request = briefs.request(briefs.setup("natural", "group"), tree, briefs.room(*where, 3.0))
    assert limits(request) & {"people", "room", "evenness", "background", "sharpness"}
    assert faults(request, planned(request)) == []


def test_no_flash_without_a_steady_light_gives_the_problem_flash() -> None:
    kit = briefs.studio_kit()
    kit["heads"] = [h for h in kit["heads"] if h["light"] == "flash"]
    request = briefs.request(briefs.setup("even"), briefs.sitter("Nell", no_flash=True), kit=kit)
    assert "flash" in limits(request)
    assert faults(request, planned(request)) == []


def test_no_flash_with_a_steady_light_is_lit_by_it() -> None:
    request = VARIED["no flash"]
    setup = first(request)
    steady = {h["id"]: h for h in request["kit"]["heads"] if h["light"] == "steady"}
    assert key_of(setup)["head"] in steady
    # The light that makes the printed reading at the printed settings, in lux: E = C N^2/(S t), values.md E07.
    camera, reading = setup["camera"], setup["expected"]["setting_reading"]["f_number"]
    lux = 250 * reading**2 / (camera["iso"] * camera["shutter_s"])
    assert lux <= full_power_lxs(next(iter(steady.values())), 1.0)


def test_too_weak_a_head_gives_the_problem_power() -> None:
    kit = briefs.one_light_kit()
    kit["heads"][0] |= {"f_number_1m_iso100": 8, "energy_ws": 20}
    orders = {"aperture": 11, "iso": 100}
    request = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=kit, preferences=orders)
    assert "power" in limits(request)
    assert faults(request, planned(request)) == []


def test_an_aperture_the_lens_has_not_gives_the_problem_lens() -> None:
    request = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), preferences={"aperture": 1.0})
    assert "lens" in limits(request)
    assert faults(request, planned(request)) == []


def test_a_ground_too_narrow_for_the_group_gives_the_problem_background() -> None:
    kit = briefs.kit_of(backgrounds=("grey270",))
    request = briefs.request(briefs.setup("natural", "group"), briefs.family(8), kit=kit)
    assert "background" in limits(request)
    assert faults(request, planned(request)) == []


def test_a_character_light_for_more_than_three_says_so_and_offers_bold() -> None:
    # design.md section 6: "Character is not for more than three: say so and offer bold."
    document = planned(briefs.request(briefs.setup("character", "group"), briefs.family(5)))
    said = " ".join(p["says"] + p["mend"] for p in document["problems"]) + " ".join(document["cautions"])
    assert "bold" in said.lower()


def test_a_lower_ceiling_keeps_every_light_under_it() -> None:
    for ceiling in (2.2, 2.4, 3.0):
        request = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), briefs.room(6, 5, ceiling))
        tops = [light["top_height_m"] for light in first(request)["lights"]]
        assert "ceiling" in limits(request) or max(tops, default=0.0) <= ceiling


def test_the_meter_round_adds_up_to_half_a_stop_where_fill_is_one_below() -> None:
    # Equal law of sums: key 1, fill 1/2 -> 3/2, that is 0.585 stop (job.md section 3: "up to 0.58 stop").
    for name, request in VARIED.items():
        for setup in planned(request)["setups"]:
            alone = [s for s in setup["meter_round"] if s["on"] == [key_of(setup)["letter"]]] if setup["lights"] else []
            setting = [s for s in setup["meter_round"] if s["sets_camera"]]
            if not alone or not setting or alone[0]["toward"] != setting[0]["toward"]:
                continue
            gap = 2 * math.log2(setting[0]["target"]["f_number"] / alone[0]["target"]["f_number"])
            assert -0.06 <= gap <= math.log2(1 + 2 ** (0.6 - setup["expected"]["fill_below_key_stops"])) + 0.15, name
