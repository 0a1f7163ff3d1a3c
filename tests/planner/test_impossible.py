"""Briefs that cannot be kept: the nearest plan, each broken limit with its shortfall, and a mend that mends.

What belongs here: every mend found by trying is put in and tried again, on the plan or on the brief.
"""

from __future__ import annotations

import json
import math
import re
from dataclasses import replace

import pytest

from shotplans.light.exposure import exact_f_number
from shotplans.planner import check, document, nearest, solve, words
from shotplans.planner.moves import elsewhere
from shotplans.planner.placed import noted
from shotplans.planner.plan import Light, Solved
from shotplans.planner.problem import Problem
from shotplans.planner.solve_setup import Unsolved
from tests.planner import briefs
from tests.planner.briefs import car
from tests.planner.contract import faults
from tests.planner.sets import Tree, broken, filled, key_of, meter, solved, told, with_light
from tests.planner.test_check import GREY, PLAIN, as_good, in_glasses, lens, lifted, one

WEAK = {"id": "stand", "kind": "stand", "max_height_m": 2, "min_height_m": 1, "max_load_kg": 0.1}
LOW = {"id": "stand", "kind": "stand", "max_height_m": 0.9, "min_height_m": 0.5, "max_load_kg": 9}
TALL = {"id": "stand", "kind": "stand", "max_height_m": 3, "min_height_m": 1, "max_load_kg": 10}
WALL = GREY | {"kind": "wall"}
TIGHT = one(
    briefs.setup("even", "head"), where=briefs.room(4.2, 2.2, 3, keep_out_m=1.1, set_axis="width"),
    kit=car(stands=[TALL], lenses=[lens(50) | {"min_focus_m": 0.5}], backgrounds=[WALL]),
)  # fmt: skip
SHORT_ROOM = one(briefs.setup("natural", "half"), where=briefs.room(4.0, 3.4, 2.8, set_axis="width"), kit=car())


def problem_of(tree: Tree, limit: str) -> Tree:
    found: Tree = next(p for p in told(tree).document["problems"] if p["limit"] == limit)
    return found


def codes(tree: Tree) -> set[str]:
    return told(tree).problem_codes()


NEAREST = {
    "a stand too weak": one(kit=car(stands=[WEAK])),
    "a stand too low": one(briefs.setup("natural"), briefs.sitter("Ada", posture="standing"), kit=car(stands=[LOW])),
    "a room too short": SHORT_ROOM,
    "a low ceiling": one(briefs.setup("soft", "full"), briefs.sitter("Nell", posture="standing", height_cm=210),
                         where=briefs.room(9, 6, 2.05)),
    "more people than the room holds": one(briefs.setup("even", "group"), briefs.family(20),
                                           where=briefs.room(5, 3.4, 3)),
    "a head too weak": one(kit=car(heads=[briefs.one_light_kit()["heads"][0] | {"f_number_1m_iso100": 4}]),
                           preferences={"iso": 100, "aperture": 16}),
    "glasses, a low ceiling, flat lenses": one(
        briefs.setup("even"), briefs.sitter("Corin", glasses={"lens": "flat", "may_remove": False}, chin_limit_deg=0),
        where=briefs.room(6, 5, 1.9)),
}  # fmt: skip


@pytest.mark.parametrize("name", NEAREST)
def test_an_impossible_brief_gives_the_nearest_plan_with_what_it_breaks(name: str) -> None:
    plan = told(NEAREST[name]).document
    entry = plan["setups"][0]
    assert entry["lights"]
    assert entry["camera"] is not None
    assert plan["problems"]
    assert all(p["short_by"] > 0 and p["unit"] and p["says"].endswith(".") and p["mend"].endswith(".")
               for p in plan["problems"])  # fmt: skip


@pytest.mark.parametrize("name", [n for n in NEAREST if n != "more people than the room holds"])
def test_what_the_nearest_plan_breaks_is_said_and_the_rest_is_kept(name: str) -> None:
    assert faults(NEAREST[name], told(NEAREST[name]).document) == []


NOTHING = {
    "no heads": one(kit=car(heads=[])), "no stands": one(kit=car(stands=[])),
    "no modifiers": one(kit=car(modifiers=[])), "no floor": TIGHT,
    "no room at all": one(where=briefs.room(1.2, 1.2, 1.2)),
}  # fmt: skip


@pytest.mark.parametrize("name", NOTHING)
def test_where_no_light_can_stand_the_set_up_is_empty_and_says_why(name: str) -> None:
    plan = told(NOTHING[name]).document
    entry = plan["setups"][0]
    assert (entry["lights"], entry["meter_round"], entry["reasons"]) == ([], [], [])
    assert entry["camera"] is entry["expected"] is entry["teaches_most"] is None
    assert plan["problems"][0]["setup"] == entry["name"]


def test_more_floor_along_the_walls_by_as_much_as_said_lets_a_light_stand() -> None:
    assert codes(TIGHT) == {"floor_short"}
    said = problem_of(TIGHT, "reach")
    mended = json.loads(json.dumps(TIGHT))
    strip = float(re.search(r"Strips of (\S+) m", said["mend"]).group(1))  # type: ignore[union-attr]
    mended["room"]["keep_out_m"] = strip
    assert told(mended).document["setups"][0]["lights"]
    assert said["short_by"] == pytest.approx(1.1 - strip)


def test_where_even_the_whole_floor_does_not_do_the_stands_are_named() -> None:
    request = filled(TIGHT | {"room": briefs.room(4.2, 2.2, 3, keep_out_m=0.0)})
    values = {"mass": 4.0, "height": "2.0", "length": "4.2", "across": "2.2", "short_by": 1.0, "unit": "stand"}
    found = solve._unsolved(request, Unsolved(request.brief.setups[0], (), "nothing_stands", values))
    # with strips of nothing there is no narrower strip to try
    assert (found.code, found.limit, found.unit) == ("nothing_stands", "reach", "stand")
    assert "4.0 kg to 2.0 m" in found.printed()["mend"]


def test_a_room_longer_by_what_is_missing_or_the_lens_named_holds_the_framing() -> None:
    said = problem_of(SHORT_ROOM, "room")
    assert "room_too_small" in codes(SHORT_ROOM)
    longer = json.loads(json.dumps(SHORT_ROOM))
    longer["room"]["width_m"] += said["short_by"]
    assert "room_too_small" not in codes(longer)
    focal = float(re.search(r"lens of (\S+) mm", said["mend"]).group(1))  # type: ignore[union-attr]
    wider = json.loads(json.dumps(SHORT_ROOM))
    wider["kit"]["lenses"] = [lens(focal) | {"min_focus_m": 0.3}]
    assert "room_too_small" not in codes(wider)


def test_the_camera_backs_up_as_far_as_the_room_lets_it() -> None:
    entry = told(SHORT_ROOM).document["setups"][0]
    room, behind = entry["room"], 0.6  # what the photographer needs behind the camera: common practice, no source
    free = 4.0 - room["ground_from_wall_m"] - room["mark_from_ground_m"] - entry["camera"]["distance_m"] - behind
    assert -1e-6 <= free < 0.35  # steps of the camera and of the ground


def test_a_stand_rated_for_what_is_missing_holds_the_light() -> None:
    said = problem_of(NEAREST["a stand too weak"], "load")
    stronger = one(kit=car(stands=[WEAK | {"max_load_kg": WEAK["max_load_kg"] + said["short_by"]}]))
    assert "load" not in {p["limit"] for p in told(stronger).document["problems"]}


def mended(bad: Solved, code: str) -> Problem:
    """The problem of a spoilt set with the mends that trying found."""
    reads = meter(bad)
    block = document.expected(bad, reads)
    found = nearest.mended(bad, reads, check.problems(bad, reads, block["per_sitter"], block))
    return next(p for p in found if p.code == code)


def parts(bad: Solved, problem: Problem) -> dict[str, Tree]:
    """The mends as code and values, as the sentence was made from."""
    return dict(nearest.MENDS[problem.code](bad, meter(bad), problem))


def moved(bad: Solved, values: Tree, key: str) -> Solved:
    number = next(n for n, x in enumerate(bad.lights) if x.letter == values["letter"])
    made = elsewhere(bad, bad.lights[number], key, values["value"])
    assert isinstance(made, Light)
    return with_light(bad, number, position=made.position, distance_m=made.distance_m, bearing_deg=made.bearing_deg,
                      height_deg=made.height_deg)  # fmt: skip


def through_the_ceiling() -> Solved:
    return _key_at(as_good(), distance_m=4.5)


def in_the_picture() -> Solved:
    return _key_at(as_good(), bearing_deg=0.0, height_angle_deg=5.0)


def over_its_stand() -> Solved:
    return _key_at(as_good(), height_angle_deg=60.0)


def shown_in_glasses() -> Solved:
    worn = in_glasses()
    return _key_at(worn, height_angle_deg=0.0, bearing_deg=-15.0, distance_m=2.0)


def _key_at(one: Solved, **steps: float) -> Solved:
    light = key_of(one)
    for key, value in steps.items():
        made = elsewhere(one, light, key, value)
        assert made is not None
        light = made
    return replace(one, lights=(light, *one.lights[1:]))


def over_the_lids() -> Solved:
    return _key_at(as_good(), height_angle_deg=80.0)


MOVED = {
    "ceiling": through_the_ceiling, "in_picture": in_the_picture, "glare": shown_in_glasses,
    "catchlight": over_the_lids, "too_high": over_its_stand,
}  # fmt: skip


@pytest.mark.parametrize("code", MOVED)
def test_a_light_moved_as_the_mend_says_breaks_the_limit_no_more(code: str) -> None:
    bad = MOVED[code]()
    assert code in broken(bad)
    found = mended(bad, code)
    tried = {key: values for key, values in parts(bad, found).items() if key in nearest.RANGES}
    assert tried, found.mend
    for key, values in tried.items():
        assert code not in broken(moved(bad, values, key)), key
    assert found.mend.endswith(".")
    assert found.mend == found.printed()["mend"]


@pytest.mark.parametrize("code", ["ceiling", "catchlight"])
def test_a_mend_is_the_nearest_step_that_mends(code: str) -> None:
    bad = MOVED[code]()
    found = parts(bad, mended(bad, code))
    for key, values in found.items():
        if key not in nearest.RANGES:
            continue
        now, step = nearest.VALUE_OF[key](key_of(bad)), nearest.RANGES[key][2]
        between = [v for v in nearest._steps(now, *nearest.RANGES[key]) if abs(v - now) < abs(values["value"] - now)]
        for value in between[:: max(1, len(between) // 5)]:
            other = moved(bad, {"letter": values["letter"], "value": value}, key)
            assert code in broken(other) or not nearest.fits(other, key_of(other)), (key, value, step)


def test_a_smaller_front_as_said_stays_under_the_ceiling() -> None:
    bad = through_the_ceiling()
    good = as_good()
    held = key_of(good).emitter
    assert held is not None
    flat = replace(held, modifier=held.modifier.model_copy(update={"depth_m": 0.05}))
    up = bad.box.ceiling_m - key_of(good).position[1] - 0.4
    light = replace(key_of(good), position=lifted(good, up), emitter=flat)
    high = replace(good, lights=(light, *good.lights[1:]))
    found = parts(high, mended(high, "ceiling"))
    assert light.emitter is not None
    small = light.emitter.modifier.model_copy(update={"diameter_m": float(found["smaller_front"]["size"])})
    assert "ceiling" not in broken(with_light(high, emitter=replace(light.emitter, modifier=small)))


def test_power_is_mended_by_the_iso_and_by_the_aperture_named() -> None:
    weak = NEAREST["a head too weak"]
    bad = solved(weak)
    problem = mended(bad, "power_short")
    found = parts(bad, problem)
    # Whole stops from base 100 that cover what is missing: 100 x 2^n
    assert found["iso"]["iso"] == 100 * 2 ** -(-problem.short_by // 1)
    lit = replace(bad, camera=replace(bad.camera, iso=found["iso"]["iso"]))
    assert "power_short" not in broken(lit)
    opened = exact_f_number(float(found["aperture"]["shown"].removeprefix("f/")))
    assert "power_short" not in broken(replace(bad, camera=replace(bad.camera, aperture=opened)))
    # The stops missing, to the third that covers them: 2 log2 N (values.md E33)
    assert problem.short_by - 0.06 <= 2 * math.log2(16 / opened) <= problem.short_by + 1 / 3


def test_a_key_as_near_as_said_reaches_the_aperture() -> None:
    request, far = filled(briefs.request(briefs.setup("natural"), PLAIN)), _key_at(as_good(), distance_m=5.5)
    weakest = replace(far, lights=tuple(replace(x, power_stops=0.0) if x.emitter else x for x in far.lights))
    bad = noted(request, replace(weakest, camera=replace(weakest.camera, aperture=16.0)))
    assert "power_short" in broken(bad)
    found = parts(bad, mended(bad, "power_short"))["distance_m"]
    near = noted(request, moved(bad, found, "distance_m"))
    assert "power_short" not in broken(near)
    assert nearest.fits(near, key_of(near))


@pytest.mark.parametrize("reflects", [0.02, 0.9])
def test_a_ground_that_reflects_or_hangs_as_said_has_the_wanted_tone(reflects: float) -> None:
    tone = "light" if reflects < 0.1 else "dark"
    tree = one(briefs.setup("soft", tone=tone), kit=car(backgrounds=[GREY | {"reflectance": reflects}]))
    bad = solved(tree)
    code = "ground_dark" if reflects < 0.1 else "ground_light"
    assert code in broken(bad)
    found = parts(bad, mended(bad, code))
    assert bad.ground is not None
    if "reflects" in found:
        item = bad.ground.item.model_copy(update={"reflectance": float(found["reflects"]["share"]) / 100})
        again = nearest._hung_at(replace(bad, ground=replace(bad.ground, item=item)), meter(bad), bad.ground.distance_m)
        assert again.wanted[0] - 0.51 <= again.lightness <= again.wanted[1] + 0.51
    if "ground_m" in found:
        hung = nearest._hung_at(bad, meter(bad), float(found["ground_m"]["value"]))
        assert hung.wanted[0] <= hung.lightness <= hung.wanted[1]
    if code == "ground_dark":
        more = float(found["ground_light"]["stops"])
        # CIE 1976 lightness of the reflectance so much brighter, through the toe-free cube root (values.md C01)
        luminance = 100 * reflects * 2 ** (bad.ground.reading_above_setting + more)
        assert 116 * (luminance / 100) ** (1 / 3) - 16 >= bad.ground.wanted[0] - 0.1
    assert found


def test_a_narrow_ground_as_near_as_said_fills_the_picture() -> None:
    good = as_good()
    assert good.ground is not None
    item = good.ground.item.model_copy(update={"width_m": good.camera.field_width_m * 1.5})
    far = nearest._hung_at(replace(good, ground=replace(good.ground, item=item)), meter(good), 3.5)
    bad = replace(good, ground=far)
    assert "ground_narrow" in broken(bad)
    found = parts(bad, mended(bad, "ground_narrow"))
    hung = nearest._hung_at(bad, meter(bad), float(found["ground_m"]["value"]))
    assert hung.covers
    # the field grows in proportion with the distance from the lens (thin lens, values.md F05)
    most = good.camera.distance_m * (item.width_m / good.camera.field_width_m - 1)
    assert float(found["ground_m"]["value"]) <= most + 0.1


def test_mends_are_worded_with_their_numbers() -> None:
    said = words.mends([("height_angle_deg", {"letter": "A", "value": 25.0}), ("iso", {"iso": 400})])
    assert said == "Light A at 25 degrees of height, or ISO 400."


def test_only_a_few_of_one_kind_are_tried() -> None:
    people = [briefs.sitter(f"Person {i}") for i in range(4)]
    bad = solved(one(briefs.setup("even", "group"), people, kit=car()))
    high = with_light(bad, position=(0.0, 2.9, 0.3))
    found = [p for p in _mended_all(high) if p.code == "catchlight"]
    assert len(found) > nearest.OF_A_KIND
    assert all(not p.mend for p in found[nearest.OF_A_KIND :])


def _mended_all(bad: Solved) -> list[Problem]:
    reads = meter(bad)
    block = document.expected(bad, reads)
    return nearest.mended(bad, reads, check.problems(bad, reads, block["per_sitter"], block))
