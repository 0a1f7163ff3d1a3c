"""The contract is only worth what it catches: a sound plan passes, and each spoilt one is told off by name."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from tests.planner import handmade, ruler
from tests.planner.contract import faults, resolve

Tree = dict[str, Any]
SETUP = "setups[0]"
KEY = "setups[0].lights[0]"
CAMERA = "setups[0].camera"
EXPECTED = "setups[0].expected"
IN_THE_GLASSES = {"light": "A", "margin_deg": -4.0, "clear_above_deg": 3.0, "cure": None}
STRANGER = {"label": "Nobody", "key_up_m": 0.1, "camera_up_m": 0.1, "seat": None}


def put(path: str, value: object) -> Callable[[Tree], None]:
    """Sets what stands at a path of the document."""

    def spoil(tree: Tree) -> None:
        parent, _, last = path.rpartition(".")
        name, _, index = last.partition("[")
        found, here = resolve(tree, parent) if parent else (True, tree)
        assert found, path
        if index:
            here[name][int(index.rstrip("]"))] = value
        else:
            here[name] = value

    return spoil


def problem(limit: str) -> Tree:
    said = {"says": "It does not fit.", "mend": "Move it."}
    return {"setup": "portrait", "limit": limit, "short_by": 0.2, "unit": "m"} | said


def told(*spoils: Callable[[Tree], None], request: Tree | None = None) -> str:
    document = handmade.document()
    for spoil in spoils:
        spoil(document)
    return "\n".join(faults(request or handmade.request(), document))


def test_a_sound_plan_has_no_faults() -> None:
    assert told() == ""


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        ("fingerprint", "xyz", "sha256"),
        ("shots[0].n", 2, "shots count"),
        ("shots[0].setup", "elsewhere", "no set-up elsewhere"),
        ("shots[0].who", ["Nobody"], "of ['Nobody']"),
        ("shots[0].minutes", 90, "no problem says so"),
        ("packing[0].count", 0, "packed 0 times"),
        ("packing[0].item", "rope", "h400-1 is used and not packed"),
        (f"{SETUP}.intent", "soft", "intent soft for natural"),
        (f"{SETUP}.sitters[0].label", "Nobody", "the brief asks"),
        (f"{SETUP}.sitters[0].nose_bearing_deg", 12.0, "not on the 5 degree step"),
        (f"{SETUP}.sitters[0].nose_bearing_deg", 60.0, "makes it broad"),
        (f"{SETUP}.sitters[0].face_m", [0.0, 1.2, -2.5], "outside the room"),
        (f"{SETUP}.lights[1].letter", "A", "letters"),
        (f"{KEY}.role", "accent", "no key"),
        (f"{KEY}.distance_m", 1.63, "not on the 5 cm step"),
        (f"{KEY}.distance_m", 1.7, "is none of"),
        (f"{KEY}.bearing_deg", 45.0, "bearing 45.0 does not fit"),
        (f"{KEY}.bearing_deg", 42.0, "not on the 5 degree step"),
        (f"{KEY}.height_angle_deg", 35.0, "height angle 35.0 is none of"),
        (f"{KEY}.position_m", [0.893, 2.0, 1.06], "not printed to 1 cm"),
        (f"{KEY}.centre_height_m", 2.1, "centre height 2.1"),
        (f"{KEY}.top_height_m", 2.2, "lies under its own rim"),
        (f"{KEY}.top_height_m", 3.3, "under a ceiling of 3.2"),
        (f"{KEY}.tilt_deg", -10.0, "tilt -10.0"),
        (f"{KEY}.feather_deg", 15.0, "feather 15.0"),
        (f"{KEY}.bearing_from_nose_deg", {"Juno": 20.0}, "is neither"),
        (f"{KEY}.bearing_from_nose_deg", {}, "no bearing from the nose"),
        (f"{KEY}.side", "broad", "makes it short"),
        (f"{KEY}.foot_m", [2.85, 1.4], "kept free along the walls"),
        (f"{KEY}.foot_m", [0.0, 1.0], "is in the picture"),
        (f"{KEY}.stand", "stand90-1", "is beyond stand90-1"),
        (f"{KEY}.stand", "stand300-2", "stand300-2: used twice"),
        (f"{KEY}.stand", "pole", "not in the kit"),
        (f"{KEY}.arm_m", 1.0, "a stand without an arm"),
        (f"{KEY}.head", "h400-2", "h400-2: used twice"),
        (f"{KEY}.head", "h200-1", "does not take octa150-1"),
        (f"{KEY}.adapter", "ring-p-s-1", "does not take octa150-1"),
        (f"{KEY}.modifier", "umb180", "umb180: used twice"),
        (f"{KEY}.modifier", "softbox", "softbox is not in the kit"),
        (f"{KEY}.power_below_full_stops", 8.5, "but h400-1 has 8"),
        (f"{KEY}.power_below_full_stops", 1.5, "printed 1.5"),
        (f"{KEY}.dial", "half", "cannot be read"),
        (f"{KEY}.colour_shift_k", -0.0, "is -0.0"),
        (f"{KEY}.roll_deg", float("nan"), "not finite"),
        (f"{CAMERA}.aperture", 5.6, "from the aperture"),
        (f"{CAMERA}.shown", "f/8.0", "the camera shows"),
        (f"{CAMERA}.nearest_third", "f/7.1", "with trim"),
        (f"{CAMERA}.trim_stops", 0.4, "with trim 0.4"),
        (f"{CAMERA}.shutter_s", 0.002, "shorter than sync"),
        (f"{CAMERA}.iso", 50, "outside 100..6400"),
        (f"{CAMERA}.focal_mm", 70, "outside lens lens85"),
        (f"{CAMERA}.lens", "lens35", "not in the kit"),
        (f"{CAMERA}.distance_m", 3.0, "camera at 3.0 m is none of"),
        (f"{SETUP}.background.distance_m", 2.5, "but the room says 2.0"),
        (f"{SETUP}.background.lightness", 50.0, "its reading gives 35"),
        (f"{SETUP}.background.covers", False, "does not cover"),
        (f"{SETUP}.background.id", "canvas", "canvas is not in the kit"),
        (f"{SETUP}.room.camera_from_mark_m", 6.2, "from the wall behind it"),
        (f"{SETUP}.room.mark_from_side_wall_m", 5.2, "outside the walls"),
        (f"{SETUP}.meter_round[0].sets_camera", True, "2 steps set the camera"),
        (f"{SETUP}.meter_round[2].on", ["A"], "key and fill are ['A', 'B']"),
        (f"{SETUP}.meter_round[0].on", ["A", "B"], "no step with it alone"),
        (f"{SETUP}.meter_round[0].panels", "in", "no step with it alone"),
        (f"{SETUP}.meter_round[2].toward", "light", "the brief wants the camera"),
        (f"{SETUP}.meter_round[0].target", {"f_number": 9.2, "shown": "f/8 +0.4"}, "more than key and fill"),
        (f"{SETUP}.meter_round[0].target", {"f_number": 5.0, "shown": "f/4 +0.6"}, "brute sum over its front"),
        (f"{SETUP}.meter_round[0].target", {"f_number": 6.583, "shown": "f/5.6 +0.9"}, "against f/6.583"),
        (f"{SETUP}.meter_round[1].target", {"f_number": 5.6, "shown": "f/5.6.0"}, "not spelled"),
        (f"{SETUP}.meter_round[1].step", 5, "meter round counts"),
        (f"{SETUP}.meter_round[1].uncertainty_stops", 0, "without an uncertainty"),
        (f"{EXPECTED}.setting_reading", {"f_number": 5.6, "shown": "f/5.6 +0.0"}, "from the aperture"),
        (f"{EXPECTED}.fill_below_key_stops", 3.0, "fill 3.0"),
        (f"{EXPECTED}.bounce_below_key_stops", 12.0, "over 9.9"),
        (f"{EXPECTED}.bounce_below_key_stops", 0.5, "less than the bounce"),
        (f"{EXPECTED}.apparent_size_deg", 80.0, "the key looks 80.0"),
        (f"{EXPECTED}.field_width_m", 1.2, "the lens gives"),
        (f"{EXPECTED}.sharp_from_m", -0.5, "sharp 0.5 m before"),
        (f"{EXPECTED}.sharp_from_m", 0.1, "does not hold the focus point"),
        (f"{EXPECTED}.worst_pair", ["Nobody"], "worst pair names"),
        (f"{EXPECTED}.load[0].watts", 100, "the circuits carry less"),
        (f"{EXPECTED}.load[0].watts", 4000, "over 2944 W"),
        (f"{EXPECTED}.load[0].circuit", "circuit 9", "no circuit circuit 9"),
        (f"{EXPECTED}.per_sitter[0].relief_stops", 1.0, "not the sum of its parts"),
        (f"{EXPECTED}.per_sitter[0].worst_place", "ear", "not among the lines"),
        (f"{EXPECTED}.per_sitter[0].label", "Nobody", "per_sitter holds"),
        (f"{EXPECTED}.per_sitter[0].catchlights", [], "a catchlight in 0 eyes of 2"),
        (f"{EXPECTED}.per_sitter[0].catchlights[0].clock", 9.0, "the mirror says"),
        (f"{EXPECTED}.per_sitter[0].catchlights[0].seen", False, "without a why"),
        (f"{EXPECTED}.per_sitter[0].glasses", [IN_THE_GLASSES], "in the glasses"),
        (f"{SETUP}.changes_per_person", [STRANGER], "not here"),
        (f"{SETUP}.reasons[0].about", "lights[7].distance_m", "not in the plan"),
        (f"{SETUP}.reasons[0].from", ["brief.setups[4].intent"], "not in the brief"),
        (f"{SETUP}.reasons[0].because", "At 2.4 m it is soft.", "prints [2.4], the plan 1.6"),
        (f"{SETUP}.reasons[0].because", "soft", "is no sentence"),
        (f"{SETUP}.camera", None, "lights, but no camera"),
        (f"{SETUP}.lights", [], "no light, but meter_round"),
        (f"{SETUP}.row", 1, "setups[0].row: is no key of the format"),
        ("assumptions", [], "no assumption names"),
        ("setups", [], "set-ups []"),
        ("problems", [problem("tidiness")], "not one of"),
        ("problems", [problem("room") | {"setup": "elsewhere"}], "unknown set-up"),
        ("problems", [problem("room") | {"mend": ""}], "mends nothing"),
        ("problems", [problem("room") | {"unit": None}], "without a unit"),
    ],
)  # fmt: skip
def test_a_spoilt_plan_is_told_off_by_name(path: str, value: object, says: str) -> None:
    assert says in told(put(path, value))


def test_a_missing_key_is_named() -> None:
    document = handmade.document()
    del document["setups"][0]["expected"]["pattern"]
    assert faults(handmade.request(), document) == ["plan.setups[0].expected.pattern: is missing"]


@pytest.mark.parametrize(
    ("limit", "path", "value"),
    [
        ("ceiling", f"{KEY}.top_height_m", 3.3),
        ("reach", f"{KEY}.stand", "stand90-1"),
        ("power", f"{CAMERA}.iso", 50),
        ("sync", f"{CAMERA}.shutter_s", 0.002),
        ("background", f"{SETUP}.background.covers", False),
        ("catchlight", f"{EXPECTED}.per_sitter[0].catchlights", []),
        ("circuit", f"{EXPECTED}.load[0].watts", 4000),
        ("time", "shots[0].minutes", 90),
        ("glare", f"{EXPECTED}.per_sitter[0].glasses", [IN_THE_GLASSES]),
    ],
)
def test_a_broken_limit_that_is_a_problem_is_no_fault(limit: str, path: str, value: object) -> None:
    without = told(put(path, value))
    named = told(put(path, value), put("problems", [problem(limit)]))
    assert without.count("\n") >= named.count("\n")
    assert without != named


def test_orders_of_the_brief_are_held() -> None:
    left, calm, ordered = handmade.request(), handmade.request(), handmade.request()
    left["brief"]["key_side"] = "camera_left"
    assert "wants it at camera_left" in told(request=left)
    calm["sitters"][0]["no_flash"] = True
    assert "asked for no flash; h400-1, h400-2 would fire" in told(request=calm)
    ordered["preferences"]["iso"] = 200
    assert "iso was ordered as 200 and is 100" in told(request=ordered)


def test_an_uneven_couple_is_a_fault_until_a_problem_says_so() -> None:
    request, document = handmade.request(), handmade.document()
    request["sitters"].append(request["sitters"][0] | {"label": "Edda"})
    request["brief"]["setups"][0]["people"] = ["Juno", "Edda"]
    setup = document["setups"][0]
    second = copy.deepcopy(setup["sitters"][0]) | {"label": "Edda", "face_m": [0.5, 1.2, 0.0], "seat": "chair46-2"}
    setup["sitters"].append(second)
    setup["lights"][0]["bearing_from_nose_deg"]["Edda"] = 30.0
    setup["expected"]["per_sitter"].append(copy.deepcopy(setup["expected"]["per_sitter"][0]) | {"label": "Edda"})
    setup["expected"]["evenness_stops"] = 0.6
    assert "faces 0.6 stop apart, 0.35 is the limit" in "\n".join(faults(request, document))
    document["problems"] = [problem("evenness")]
    assert "is the limit" not in "\n".join(faults(request, document))


def test_a_set_up_without_light_needs_a_problem() -> None:
    document = handmade.document()
    document["setups"][0] |= {"lights": [], "meter_round": [], "reasons": [], "camera": None, "expected": None}
    assert faults(handmade.request(), document) == ["portrait: no light and no problem"]
    document["problems"] = [problem("kit")]
    assert faults(handmade.request(), document) == []


# Exact f-numbers are 2^(n/2); the labels are those every lens carries (values.md E32, E36, E37).
@pytest.mark.parametrize(("text", "stops"), [("f/1 +0.0", 0.0), ("f/5.6 +0.6", 5.6), ("f/0.7 +0.2", -0.8)])
def test_a_shown_reading_is_read_in_stops(text: str, stops: float) -> None:
    assert ruler.stops_of_shown(text) == pytest.approx(stops, abs=1e-9)


@pytest.mark.parametrize("text", ["f/5.6.6", "5.6 +0.6", "f/5.6 +6", "f/6.3 +0.1", "f/5.6 -0.4"])
def test_any_other_spelling_of_a_reading_is_refused(text: str) -> None:
    assert ruler.stops_of_shown(text) is None


@pytest.mark.parametrize(
    ("scale", "text", "stops"),
    [("fraction", "1/4 -0.4", 2.4), ("fraction", "1/1", 0.0), ("ten", "8.3", 1.7), ("watt_seconds", "100 Ws", 2.0),
     ("stops", "-2.4 stops", 2.4)],
)  # fmt: skip
def test_a_dial_is_read_on_its_own_scale(scale: str, text: str, stops: float) -> None:
    head = {"dial": {"scale": scale, "step": 0.1}, "energy_ws": 400}
    assert ruler.stops_of_dial(head, text) == pytest.approx(stops, abs=1e-9)


def test_the_brute_sum_agrees_with_the_disc_on_its_axis() -> None:
    # A uniform matt disc of radius R on its axis: F = R^2/(R^2 + d^2) (values.md P05); 2 % for the coarse rings.
    whole = handmade.request()["kit"]
    matt = {"id": "octa150-1", "beam_deg": 120.0, "core_stops": 0.0}
    light = handmade.document()["setups"][0]["lights"][0]
    expected = (0.75**2 / (0.75**2 + 1.6**2)) / (0.75**2 / (0.75**2 + 1.0))
    assert ruler.light_at(light, whole, matt, (0.0, 1.2, 0.0)) == pytest.approx(expected, rel=0.02)
