"""What if one value were another: the plan's own numbers without a change, the law's numbers with one.

What belongs here: reading a plan back from its document, every change and its refusals, and what then breaks.
"""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given, settings

from shotplans.planner import assumptions, document, words
from shotplans.planner.outcome import outcome
from shotplans.planner.placed import NothingPlaced, placed
from shotplans.planner.solve import plan
from shotplans.planner.whatif import Answer, Change, Refused, what_if
from tests.planner import briefs, ruler
from tests.planner.sets import Tree, filled, told
from tests.planner.test_check import car, one

PLAIN = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=briefs.one_light_kit())


def frozen(tree: Tree) -> Tree:
    """A plan's document as a database keeps it: through JSON and back."""
    kept: Tree = json.loads(json.dumps(told(tree).document))
    return kept


def ask(tree: Tree, *change: str, setup: str | None = None) -> Answer:
    kept = frozen(tree)
    name = setup or kept["setups"][0]["name"]
    return what_if(filled(tree), kept, name, Change(*change) if change else None)


EVERY = {name: briefs.demo(name) for name in briefs.DEMO} | {
    name: tree for name, tree in briefs.varied().items()
    if name in ("a couple, bold", "profile", "six, even", "meter at the key", "bald, deep skin, white ground",
                "character, lines shown", "a wheelchair and a lap", "natural, one sitter")
}  # fmt: skip


@pytest.mark.parametrize("name", EVERY)
def test_without_a_change_the_plans_own_numbers_come_out(name: str) -> None:
    kept = frozen(EVERY[name])
    for was in kept["setups"]:
        found = what_if(filled(EVERY[name]), kept, was["name"], None)
        again = json.loads(json.dumps(found.setup))
        for key in ("expected", "meter_round", "teaches_most", "background", "camera", "sitters", "lights", "blocks"):
            assert again[key] == was[key], key
        assert found.differences == []


@pytest.mark.parametrize("name", EVERY)
def test_without_a_change_the_same_limits_are_broken(name: str) -> None:
    kept = frozen(EVERY[name])
    for was in kept["setups"]:
        found = what_if(filled(EVERY[name]), kept, was["name"], None)
        # time, batteries and the like are the whole brief's, not where things stand
        ours = {p["says"] for p in kept["problems"] if p["setup"] == was["name"] and p["limit"] != "time"}
        assert {p["says"] for p in found.problems} == ours


def test_an_input_with_its_defaults_already_in_answers_alike() -> None:
    kept = frozen(PLAIN)
    full, _ = assumptions.fill(filled(PLAIN))
    change = Change("light", "A", "distance_m", "2")
    assert what_if(full, kept, "the picture", change) == what_if(filled(PLAIN), kept, "the picture", change)


@given(briefs.requests())
@settings(max_examples=5, deadline=None)
def test_any_plan_that_can_be_made_comes_out_again(tree: Tree) -> None:
    request = filled(tree)
    kept = json.loads(json.dumps(plan(request)))
    for was in (s for s in kept["setups"] if s["lights"]):
        again = json.loads(json.dumps(what_if(request, kept, was["name"], None).setup))
        assert {k: again[k] for k in ("expected", "meter_round", "lights", "background")} == {
            k: was[k] for k in ("expected", "meter_round", "lights", "background")
        }


def stops(setup: Tree, letters: list[str]) -> float:
    row = next(s for s in setup["meter_round"] if s["on"] == letters)
    return ruler.stops_of(row["target"]["f_number"])


def test_a_light_further_off_loses_what_inverse_square_takes() -> None:
    tree = PLAIN | {"room": briefs.room(12, 12, 4, surfaces={"walls": 0.0, "ceiling": 0.0, "floor": 0.0})}
    near, far = ask(tree, "light", "A", "distance_m", "2").setup, ask(tree, "light", "A", "distance_m", "4").setup
    # Twice the distance, two stops; a front of 0.95 m at 2 m gives 0.08 less (light.md section 1), and two tenths shown
    assert stops(near, ["A"]) - stops(far, ["A"]) == pytest.approx(2.0, abs=0.2)
    assert far["lights"][0]["distance_m"] == 4.0


@pytest.mark.parametrize("power", ["2", "3"])
def test_a_dial_turned_down_a_stop_reads_a_stop_less(power: str) -> None:
    was = frozen(PLAIN)["setups"][0]
    found = ask(PLAIN, "light", "A", "power_below_full_stops", power)
    change = float(power) - was["lights"][0]["power_below_full_stops"]
    assert stops(was, ["A"]) - stops(found.setup, ["A"]) == pytest.approx(change, abs=0.11)  # by definition of a stop
    assert found.taken_as == f"{float(power):.1f} stops below full"


def test_iso_lifts_every_reading_and_the_aperture_lifts_none() -> None:
    was = frozen(PLAIN)["setups"][0]
    iso = was["camera"]["iso"]
    lifted = ask(PLAIN, "camera", "", "iso", str(iso * 4)).setup
    # Four times the ISO is two stops: ISO 12232 by definition of the scale (values.md E21)
    assert stops(lifted, ["A"]) - stops(was, ["A"]) == pytest.approx(2.0, abs=0.01)
    closed = ask(PLAIN, "camera", "", "aperture", "f/16")
    assert closed.setup["meter_round"] == was["meter_round"]
    assert closed.setup["camera"]["shown"] == "f/16 +0.0"
    assert closed.setup["expected"]["sharp_to_m"] > was["expected"]["sharp_to_m"]


def test_the_limit_that_breaks_says_by_how_much_and_what_mends_it() -> None:
    found = ask(PLAIN, "camera", "", "aperture", "11")
    was = frozen(PLAIN)["setups"][0]["camera"]["aperture"]
    off = next(p for p in found.problems if p["limit"] == "power")
    # f/11 is exactly 2^3.5; the reading stays at the plan's aperture: 2 log2 of their ratio (values.md E33)
    assert off["short_by"] == pytest.approx(2 * math.log2(2**3.5 / was), abs=0.11)
    assert "under the aperture" in off["says"]
    assert "up" in off["mend"]
    opened = next(p for p in ask(PLAIN, "camera", "", "aperture", "4").problems if p["limit"] == "power")
    assert "over the aperture" in opened["says"]
    assert "down" in opened["mend"]


def test_a_light_lifted_through_the_ceiling_is_said() -> None:
    found = ask(PLAIN, "light", "A", "distance_m", "6")
    assert {"room", "ceiling", "reach"} & {p["limit"] for p in found.problems}
    assert all(p["says"] and p["mend"] for p in found.problems)


def test_a_shutter_beyond_the_sync_breaks_the_limit_sync() -> None:
    assert "sync" in {p["limit"] for p in ask(PLAIN, "camera", "", "shutter_s", "1/1000").problems}


def test_a_camera_moved_looks_at_the_same_place_and_frames_in_proportion() -> None:
    was = frozen(PLAIN)["setups"][0]
    further = was["camera"]["distance_m"] * 2
    found = ask(PLAIN, "camera", "", "distance_m", str(further)).setup
    # Thin lens: the field grows as the distance less the focal length (values.md F05)
    f = was["camera"]["focal_mm"] / 1000
    gain = (found["camera"]["distance_m"] - f) / (was["camera"]["distance_m"] - f)
    assert found["expected"]["field_width_m"] == pytest.approx(was["expected"]["field_width_m"] * gain, abs=0.02)
    looks = [
        c["height_m"] + c["distance_m"] * math.tan(math.radians(c["pitch_deg"]))
        for c in (was["camera"], found["camera"])
    ]
    # the tilt is set to a degree
    assert looks[0] == pytest.approx(looks[1], abs=found["camera"]["distance_m"] * math.radians(0.5))


def test_a_ground_nearer_is_lighter() -> None:
    tree = briefs.demo("askew")
    was = frozen(tree)["setups"][0]["background"]
    assert ask(tree, "background", "", "distance_m", "1").setup["background"]["lightness"] > was["lightness"]


def test_a_sitter_out_of_the_middle_is_lit_unevenly() -> None:
    tree = briefs.demo("askew")
    found = ask(tree, "sitter", "Bertram", "right_m", "1.5")
    assert found.setup["expected"]["evenness_stops"] > frozen(tree)["setups"][0]["expected"]["evenness_stops"]
    assert "evenness" in {p["limit"] for p in found.problems}
    row = next(s for s in found.setup["sitters"] if s["label"] == "Bertram")
    assert row["face_m"][0] == 1.5


def test_a_chin_up_brings_the_light_into_the_glasses() -> None:
    tree = briefs.demo("askew")

    def margin(chin: str) -> float:
        block = ask(tree, "sitter", "Bertram", "chin_deg", chin).setup["expected"]
        return float(next(s for s in block["per_sitter"] if s["label"] == "Bertram")["glasses"][0]["margin_deg"])

    # Each degree of chin up costs the clear angle two degrees: LIGHT-6
    assert margin("-3") - margin("0") == pytest.approx(6, abs=3)


def test_a_smaller_modifier_makes_a_sharper_edge() -> None:
    tree = briefs.demo("askew")
    found = ask(tree, "light", "A", "modifier", "dish55")
    was = frozen(tree)["setups"][0]
    light = found.setup["lights"][0]
    assert (light["modifier"], light["head"]) == ("dish55", was["lights"][0]["head"])
    # The edge is in proportion to the source's size (light.md section 2): 55 cm for 150
    ratio = found.setup["expected"]["shadow_edge_mm"] / was["expected"]["shadow_edge_mm"]
    assert ratio == pytest.approx(0.55 / 1.5, abs=0.12)


def test_another_head_is_taken_with_what_it_gives() -> None:
    kit = briefs.one_light_kit()
    half = kit["heads"][0] | {"id": "half", "f_number_1m_iso100": kit["heads"][0]["f_number_1m_iso100"] / math.sqrt(2)}
    tree = PLAIN | {"kit": kit | {"heads": [*kit["heads"], half]}}
    was, found = frozen(tree)["setups"][0], ask(tree, "light", "A", "head", "half").setup
    assert found["lights"][0]["head"] == "half"
    # The light of a head goes as the square of its f-number: 1/sqrt(2) is one stop less (GN, values.md H01)
    assert stops(was, ["A"]) - stops(found, ["A"]) == pytest.approx(1.0, abs=0.11)


def test_a_light_aimed_at_one_sitter_keeps_its_place() -> None:
    tree = briefs.demo("askew")
    was = frozen(tree)["setups"][0]
    found = ask(tree, "light", "A", "aim", "Ottoline").setup
    face = next(s for s in was["sitters"] if s["label"] == "Ottoline")["face_m"]
    assert found["lights"][0]["position_m"] == was["lights"][0]["position_m"]
    assert found["lights"][0]["aim_m"] == pytest.approx(face, abs=0.006)


def test_a_value_is_set_on_the_steps_a_person_can_set() -> None:
    found = ask(PLAIN, "light", "A", "distance_m", "1,83")
    assert (found.taken_as, found.setup["lights"][0]["distance_m"]) == ("1.85 m", 1.85)
    assert ask(PLAIN, "light", "A", "bearing_deg", "33").setup["lights"][0]["bearing_deg"] == 35


def test_what_changed_stands_beside_what_it_was() -> None:
    found = ask(PLAIN, "camera", "", "iso", "400")
    row = next(d for d in found.differences if d["what"] == "Setting reading")
    was = frozen(PLAIN)["setups"][0]["expected"]["setting_reading"]["shown"]
    assert (row["before"], row["after"]) == (was, found.setup["expected"]["setting_reading"]["shown"])
    assert all(d["before"] != d["after"] for d in found.differences)


def odd_mount() -> Tree:
    kit = briefs.one_light_kit()
    return PLAIN | {"kit": kit | {"modifiers": [*kit["modifiers"], kit["modifiers"][0] | {"id": "odd", "mount": "x"}]}}


ASKEW, TARRANT = briefs.demo("askew"), briefs.demo("tarrant")
REFUSED: dict[str, tuple[Tree, tuple[str, str, str, str], str | None]] = {
    "no_setup": (PLAIN, ("camera", "", "iso", "100"), "another"),
    "no_value": (PLAIN, ("light", "A", "colour", "red"), None),
    "no_number": (PLAIN, ("light", "A", "distance_m", "near"), None),
    "out_of_range": (PLAIN, ("light", "A", "distance_m", "200"), None),
    # a light beside the set has no place on its line from the mark that is 30 cm from the ground's middle
    "no_place": (briefs.demo("marrowfield"), ("light", "C", "distance_m", "0.3"), "house standard"),
    "own_front": (PLAIN, ("light", "A", "aim_m", "{at}"), None),
    "misses": (PLAIN, ("light", "A", "turn_deg", "170"), None),
    "no_such_light": (PLAIN, ("light", "Q", "distance_m", "2"), None),
    "no_such_sitter": (PLAIN, ("sitter", "Nobody", "chin_deg", "2"), None),
    "no_dial": (TARRANT, ("light", "{panel}", "power_below_full_stops", "1"), "portrait"),
    "not_in_kit": (PLAIN, ("light", "A", "modifier", "moon"), None),
    "taken": (ASKEW, ("light", "A", "modifier", "umb180"), None),
    "no_ring": (odd_mount(), ("light", "A", "modifier", "odd"), None),
    "mixed": (ASKEW, ("light", "A", "head", "steady350-1"), None),
    "in_turn": (briefs.demo("marrowfield"), ("sitter", "{second}", "right_m", "1"), "house standard"),
    "older": (PLAIN, ("camera", "", "iso", "100"), None),
    "no_light": (one(kit=car(heads=[])), ("camera", "", "iso", "100"), None),
}


def refused(code: str) -> Refused:
    tree, (thing, name, key, value), setup = REFUSED[code]
    entry = next(s for s in frozen(tree)["setups"] if setup in (None, "another", s["name"]))
    panel = next((x["letter"] for x in entry["lights"] if x["panel"]), "")
    second = entry["sitters"][1]["label"] if len(entry["sitters"]) > 1 else ""
    at = " ".join(map(str, entry["lights"][0]["position_m"])) if entry["lights"] else ""
    name, value = name.format(panel=panel, second=second), value.format(at=at)
    if code == "older":
        del entry["sitters"][0]["chin_deg"]
        with pytest.raises(Refused) as said:
            what_if(filled(tree), {"setups": [entry]}, entry["name"], Change(thing, name, key, value))
        return said.value
    with pytest.raises(Refused) as said:
        ask(tree, thing, name, key, value, setup=setup or entry["name"])
    return said.value


@pytest.mark.parametrize("code", REFUSED)
def test_a_value_that_cannot_be_set_is_refused_with_a_sentence(code: str) -> None:
    said = refused(code)
    assert said.code == code
    sentence = words.refusal(said.code, said.values)
    assert sentence[0].isalnum()
    assert sentence.endswith(".")


def test_every_refusal_that_can_be_worded_is_met() -> None:
    assert set(words.ways.REFUSALS) - {"nothing_moved"} == set(REFUSED)  # that one is of keeping, not of asking


@pytest.mark.parametrize("given", ["", "nan", "inf", "-inf", "1e999", "1/0", "f/", "--", "\N{SNOWMAN}", "1" * 400])
def test_no_text_at_all_can_do_harm(given: str) -> None:
    things = (("light", "A", "distance_m"), ("camera", "", "aperture"), ("sitter", "Mirela", "chin_deg"))
    for thing, name, key in things:
        with pytest.raises(Refused):
            ask(PLAIN, thing, name, key, given)


def test_a_plan_without_light_cannot_be_stood_up() -> None:
    tree = one(kit=car(heads=[]))
    with pytest.raises(NothingPlaced):
        placed(filled(tree), frozen(tree)["setups"][0])


@pytest.mark.parametrize("name", briefs.DEMO)
def test_any_one_step_of_any_value_is_answered(name: str) -> None:
    """A step up of what is most often asked: answered, and the set-up keeps its shape and can be stored."""
    tree, kept = briefs.demo(name), frozen(briefs.demo(name))
    for entry in kept["setups"]:
        for change in _steps(entry):
            found = what_if(filled(tree), kept, entry["name"], change)
            assert found.setup.keys() <= entry.keys()
            assert json.loads(json.dumps(found.setup))["expected"].keys() == entry["expected"].keys()


def _steps(entry: Tree) -> list[Change]:
    letter, who = entry["lights"][0]["letter"], entry["sitters"][0]
    light, camera, far = entry["lights"][0], entry["camera"], entry["background"]["distance_m"]
    return [
        Change("light", letter, "distance_m", str(light["distance_m"] + 0.1)),
        Change("light", letter, "height_angle_deg", str(light["height_angle_deg"] + 5)),
        Change("camera", "", "height_m", str(camera["height_m"] + 0.1)),
        Change("background", "", "distance_m", str(far + 0.2)),
        Change("sitter", who["label"], "chin_deg", str(who["chin_deg"] - 2)),
        Change("sitter", who["label"], "nose_bearing_deg", str(who["nose_bearing_deg"] + 10)),
    ]


def test_what_stands_on_paper_is_what_is_reckoned_with() -> None:
    """The set put back from its document prints the same document."""
    tree = briefs.demo("pellingham")
    was = frozen(tree)["setups"][0]
    again = placed(filled(tree), was)
    assert json.loads(json.dumps(document.setup(again)))["lights"] == was["lights"]
    assert outcome(filled(tree), again).expected["worst_pair"] == was["expected"]["worst_pair"]
