"""What carries, feeds and fires the lights: each broken limit met, each number against a lever, a circuit, a clock.

What belongs here: stands, arms, bags, circuits, batteries, lamps and movement as the plan tells them. The formulas
alone are in tests/light; whether each sentence is true of its plan is in truths/rigs.py.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from itertools import product
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shotplans.planner import ballast, batteries, check_rigs, circuits, heat, mounting, movement, words
from shotplans.planner.plan import Light, Solved
from shotplans.planner.room import Circuit
from tests.planner import briefs
from tests.planner.briefs import car
from tests.planner.sets import Tree, broken, filled, found_in, has_problem, key_of, solved, told, with_light
from tests.planner.truths.rigs import BOOM, DISH, SAID, flash, one

G = 9.80665  # m/s2, SI
CIRCUIT = {"label": "circuit 1", "volts": 120, "breaker_amps": 15}


def plain() -> Solved:
    return solved(briefs.request(briefs.setup("natural"), briefs.sitter("Mirela")))


def elder(**rest: Any) -> Tree:
    return one(briefs.sitter("Ottoline", age_years=70), **rest)


def boomed(tree: Tree) -> Light:
    """The first light on a boom."""
    return next(x for x in solved(tree).lights if x.mounting and x.mounting.boom)


def over_a_head() -> Solved:
    """An elder's set whose boom is moved behind the sitter after it was solved, so that the arm passes overhead."""
    made = solved(elder(kit=car(stands=[BOOM])))
    x, _, z = key_of(made).position
    away = math.hypot(x, z)
    held = key_of(made).mounting
    assert held is not None
    return with_light(made, mounting=replace(held, foot_m=(-0.5 * x / away, -0.5 * z / away)))


def fast(**notes: Any) -> Tree:
    return briefs.sitter("Wilf", **({"age_years": 3, "height_cm": 95, "posture": "standing"} | notes))


LONG = {"kit": car(heads=[flash(duration_s=0.02, duration_kind="t0.1")])}
BY_BRIEF: dict[str, tuple[str, Tree]] = {
    "sandbag_short": ("load", one(kit=car(weights=[]))),
    "circuit_peak": (
        "circuit",
        one(kit=car(heads=[flash(peak_amps=40)]), where=briefs.room(circuits=[CIRCUIT])),
    ),
    "battery": ("battery", one(kit=car(heads=[flash(battery_full_power_shots=0)]))),
    "recycling_slow": ("time", one(kit=car(heads=[flash(recycle_s=600)]), minutes=1)),
    "blur_flash": ("sharpness", one(fast(), **LONG)),
    "blur_steady": ("sharpness", one(fast(), kit=briefs.steady_kit())),
}  # fmt: skip
BY_HAND: dict[str, tuple[str, Callable[[], Solved]]] = {"boom_over": ("overhead", over_a_head)}


@pytest.mark.parametrize("code", BY_BRIEF)
def test_a_limit_of_the_rig_is_a_problem_of_the_plan(code: str) -> None:
    limit, tree = BY_BRIEF[code]
    has_problem(tree, code, limit)


@pytest.mark.parametrize("code", BY_HAND)
def test_a_limit_of_the_rig_spoilt_after_solving_is_found(code: str) -> None:
    limit, spoilt = BY_HAND[code]
    found_in(spoilt(), code, limit)


def test_every_problem_of_the_rig_can_be_met() -> None:
    assert set(words.rigs.PROBLEMS) == set(BY_BRIEF) | set(BY_HAND)


# Arms


def test_an_arm_is_balanced_with_its_own_weight_where_it_is_known() -> None:
    bare, weighed = (boomed(SAID[n]) for n in ("a boom alone", "a boom whose arm is weighed"))
    assert bare.mounting is not None
    assert weighed.mounting is not None
    # G12: an even arm, 2 m out and 2/3 m back, weighs 2/3 m before the pivot: 2 kg x (2/3) / (2/3) = 2 kg more
    assert weighed.mounting.counterweight_kg - bare.mounting.counterweight_kg == pytest.approx(2.0, abs=0.101)


@pytest.mark.parametrize(("age", "kept"), [(70, True), (2, True), (40, False)])
def test_no_arm_passes_over_an_infant_or_an_older_sitter(age: float, kept: bool) -> None:
    made = solved(one(briefs.sitter("Ada", age_years=age), kit=car(stands=[BOOM])))
    never = mounting.never_under(made.pose.seated)
    assert (len(never) > 0) == kept
    for light in made.lights:
        held = light.mounting
        if held and held.boom:
            short_end = mounting.counter_arm_m(made.notes["stands"][0])  # type: ignore[index]
            assert mounting.overhead_short_m(np.array(held.foot_m), light.at, short_end, never) == 0


@given(st.floats(-2, 2), st.floats(1.3, 2.8), st.floats(-2, 2), st.floats(0.1, 3), st.floats(0.5, 6))
@settings(max_examples=60, deadline=None)
def test_wherever_a_light_hangs_its_arm_keeps_off_those_it_must_not_pass(
    x: float, y: float, z: float, face_z: float, mass: float
) -> None:
    made = plain()
    faces = np.array([[0.0, 1.2, 0.0], [0.3, 0.9, -face_z]])
    site = mounting.Site(made.camera, made.box, faces, faces)
    boom = filled(one(kit=car(stands=[BOOM]))).kit.stands
    at = np.array([x, y, z])
    found = mounting.mount(at, np.array([0.0, 0.0, 1.0]), 0.3, mass, boom, site)
    if found is not None:
        # brute force along the whole arm, short end included (2/3 m), against the rule of 0.6 m
        foot = np.array(found.foot_m)
        out = at[[0, 2]] - foot
        steps = np.linspace(-(2 / 3) / float(np.linalg.norm(out)), 1, 200)
        way = foot + steps[:, None] * out
        near = np.linalg.norm(way[:, None, :] - faces[None, :, [0, 2]], axis=-1).min()
        # the foot is printed to a centimetre, the arm looked at every centimetre or two
        assert near >= 0.6 - 0.02


def test_an_arm_is_measured_from_its_short_end_to_the_light() -> None:
    def short(face: tuple[float, float, float]) -> float:
        return mounting.overhead_short_m(np.zeros(2), np.array([2.0, 2.0, 0.0]), 0.5, np.array([face]))

    # along x from -0.5 to 2: by Pythagoras and the rule of 0.6 m
    assert short((1.0, 1.2, 0.2)) == pytest.approx(0.4)
    assert short((-0.8, 1.2, 0.4)) == pytest.approx(0.1)
    assert short((2.6, 1.2, 0.8)) == 0
    assert mounting.overhead_short_m(np.zeros(2), np.array([2.0, 2.0, 0.0]), 0.5, np.empty((0, 3))) == 0


def test_two_arms_do_not_share_a_bag() -> None:
    kit = car(stands=[BOOM | {"counterweight_kg": 0}], weights=[{"id": "bag-1", "kg": 2}, {"id": "bag-2", "kg": 1}])
    made = solved(one(kit=kit))
    light = key_of(made)
    assert light.mounting is not None
    heavy = replace(light.mounting, counterweight_kg=2.5)
    twice = replace(made, lights=(replace(light, mounting=heavy), replace(light, mounting=heavy, letter="B")))
    # 3 kg of bags: the first takes both, the second lacks all of its 2.5 kg
    assert ballast.counterweight_short_kg(twice) == {"B": pytest.approx(2.5)}
    assert all(not r.bags for r in ballast.rigs(twice))


# Legs


def test_the_margin_printed_is_the_sum_of_moments_about_the_legs() -> None:
    bag, light = {"id": "bag", "kg": 9}, {"mass_kg": 3.0, "footprint_m": 1.2}
    stand = briefs.one_light_kit()["stands"][0] | light
    made = solved(one(kit=car(stands=[stand], weights=[bag])))
    rig = next(r for r in ballast.rigs(made) if r.letter == "A")
    # G14, statics by hand: edge at a quarter of 1.2 m; head 2.6 kg 5 cm behind the column, box 1.4 kg at half its
    # depth and 10 cm before it, foreshortened by its tilt; 3 kg of stand and 9 kg of bag on the column; 10 N aside
    light_ = key_of(made)
    level = math.hypot(light_.axis[0], light_.axis[2])
    tipping = level * abs(1.4 * (0.42 / 2 + 0.1) - 2.6 * 0.05)
    margin = G * ((2.6 + 1.4 + 3 + 9) * 0.3 - tipping) - 10 * light_.position[1]
    assert rig.margin_nm == pytest.approx(margin, rel=1e-9)
    assert told(one(kit=car(stands=[stand], weights=[bag]))).document["setups"][0]["lights"][0][
        "tipping_margin_nm"
    ] == math.floor(margin)


def test_without_a_bag_the_plan_says_how_many_kilograms_are_missing() -> None:
    plan = told(BY_BRIEF["sandbag_short"][1]).document
    light = plan["setups"][0]["lights"][0]
    row = next(p for p in plan["problems"] if p["limit"] == "load")
    assert row["short_by"] == light["sandbag_kg"] > 0
    assert row["unit"] == "kg"


def test_the_bag_wanted_just_stands_the_push() -> None:
    made = solved(one())
    for rig in ballast.rigs(made):
        just = replace(rig, bag_kg=rig.wanted_kg)
        # rounded up to 100 g, which about the legs' edge is at most G x 0.1 kg x the edge's way
        assert -1e-6 <= just.margin_nm <= G * 0.1 * rig.inside_m + 1e-6 or rig.wanted_kg == 0


def test_the_neediest_stand_gets_the_bag_that_just_does() -> None:
    bags = [{"id": "small", "kg": 2}, {"id": "large", "kg": 20}, {"id": "middle", "kg": 8}]
    kit = briefs.studio_kit() | {"weights": bags}
    made = solved(briefs.request(briefs.setup("soft"), briefs.sitter("Ada"), kit=kit))
    found = ballast.rigs(made)
    neediest = max(found, key=lambda r: r.wanted_kg)
    assert neediest.bags == ("middle",)
    # every bag hangs once
    assert sorted(b for r in found for b in r.bags) == sorted(w["id"] for w in bags)[: sum(len(r.bags) for r in found)]


def test_every_stand_gets_a_bag_while_there_are_any() -> None:
    # G15: always bag a stand that carries a light, published practice
    for name in briefs.DEMO:
        found = ballast.rigs(solved(briefs.demo(name)))
        assert all(r.bags and r.short_kg == 0 for r in found)


# Circuits


def lamps(watts: list[float], **head: Any) -> list[Light]:
    light = key_of(plain())
    assert light.emitter is not None
    return [
        replace(
            light,
            letter="ABCDEF"[n],
            emitter=replace(
                light.emitter,
                head=light.emitter.head.model_copy(
                    update={"id": f"head-{n}", "watts": w, "light": "steady", "modelling_watts": 0.0} | head
                ),
            ),
        )
        for n, w in enumerate(watts)
    ]


def test_feature_53_four_lamps_of_500_w_are_too_many_for_15_a_at_120_v() -> None:
    rows = circuits.loads(lamps([500.0] * 4), [Circuit(**CIRCUIT)])
    # G02: 15 A at 120 V carries 1440 W continuously, so four lamps of 500 W are 560 W too many
    assert (rows[0]["watts"], rows[0]["limit_watts"]) == (2000, 1440)
    made = plain()
    hung = replace(made, notes={**made.notes, "circuits": (Circuit(**CIRCUIT),)})
    found = [p for p in check_rigs.circuits(hung, {"load": rows}) if p.code == "circuit"]
    assert [(p.limit, p.short_by, p.unit) for p in found] == [("circuit", 560, "W")]


def test_lamps_hang_where_no_breaker_is_overloaded_if_there_is_a_way() -> None:
    # 80 % of 12.5 A and 7.5 A at 100 V: 1000 W and 600 W; 600 + 500 + 500 W fit in one way only, by hand
    two = [Circuit(label=f"c{a}", volts=100, breaker_amps=a) for a in (12.5, 7.5)]
    rows = circuits.loads(lamps([600.0, 500.0, 500.0]), two)
    assert [(r["watts"], r["letters"]) for r in rows] == [(1000, ["B", "C"]), (600, ["A"])]


@given(st.lists(st.integers(1, 9), min_size=1, max_size=5), st.lists(st.integers(1, 20), min_size=1, max_size=3))
@settings(max_examples=150, deadline=None)
def test_no_breaker_is_overloaded_where_any_way_keeps_them_all(watts: list[int], amps: list[int]) -> None:
    room = [Circuit(label=f"c{n}", volts=10, breaker_amps=a) for n, a in enumerate(amps)]
    rows = circuits.loads(lamps([10.0 * w for w in watts]), room)
    # brute force over every way to hang them, against four fifths of each breaker (G01)
    ways = product(range(len(amps)), repeat=len(watts))
    fits = any(
        all(sum(10 * w for w, at in zip(watts, way, strict=True) if at == n) <= 8 * a for n, a in enumerate(amps))
        for way in ways
    )
    assert fits == all(r["watts"] <= r["limit_watts"] for r in rows)
    assert sum(r["watts"] for r in rows) == sum(10 * w for w in watts)


def test_a_load_that_fits_no_way_is_still_hung_and_said() -> None:
    rows = circuits.loads(lamps([900.0, 900.0]), [Circuit(label="c", volts=100, breaker_amps=10)])
    assert rows[0]["watts"] == 1800
    assert rows[0]["limit_watts"] == 800


def test_flashes_on_one_circuit_peak_together_or_one_after_the_other() -> None:
    heads = lamps([300.0, 300.0], light="flash", peak_amps=6.0, modelling_watts=120.0)
    row = circuits.loads(heads, [Circuit(label="c", volts=120, breaker_amps=15)])[0]
    # currents add: 6 + 6 A at once; one at a time 6 A and 120 W / 120 V = 1 A of the other's modelling lamp
    assert (row["peak_amps"], row["staggered_amps"]) == (12.0, 7.0)


def test_a_head_on_a_battery_hangs_on_no_circuit() -> None:
    plan = told(SAID["a flash on a battery"]).document
    assert all(r["watts"] == 0 and not r["letters"] for r in plan["setups"][0]["expected"]["load"])
    assert not [c for c in plan["cautions"] if c.startswith("Cables")]


# Batteries


def test_the_frames_of_a_charge_follow_from_its_energy_and_the_power_planned() -> None:
    light = key_of(solved(SAID["a flash on a battery"]))
    # conservation of energy, 0.7 of 80 kWs used: at p stops below 400 Ws each flash takes 400 / 2^p
    assert batteries.frames(light) == math.floor(80_000 * 0.7 / (400 * 2**-light.power_stops) + 1e-9)
    counted = key_of(solved(SAID["a flash whose maker counts"]))
    assert batteries.frames(counted) == math.floor(150 * 2**counted.power_stops + 1e-9)
    assert batteries.frames(key_of(plain())) is None


def test_the_spare_batteries_asked_for_hold_the_rest_of_the_list() -> None:
    tree = one(kit=car(heads=[flash(battery_full_power_shots=1)]), must=["Ada alone."] * 8)
    plan = told(tree).document
    wanted = sum(s["frames"] for s in plan["shots"])
    holds = batteries.frames(key_of(solved(tree)))
    assert holds is not None
    # each charge is planned with four fifths of what it holds: common practice
    charges = wanted / (0.8 * holds)
    row = next(p for p in plan["problems"] if p["limit"] == "battery")
    assert row["short_by"] == math.ceil(charges - 1 - 1e-9) > 0


def test_a_head_is_ready_sooner_at_less_power() -> None:
    light = key_of(plain())
    # constant charging power: the energy of a flash and its recycling halve with each stop (F09)
    assert batteries.ready_s(light) == pytest.approx(1.2 * 2**-light.power_stops)
    assert batteries.ready_s(replace(light, power_stops=3.0)) == pytest.approx(1.2 / 8)


# Heat


def test_a_lamp_near_a_face_is_told_with_the_distance() -> None:
    made = solved(one(kit=car(modifiers=[DISH])))
    light = key_of(made)
    near = {n.letter: n for n in heat.near(made)}["A"]
    # lamp 2 cm behind the front, a head's half height before the bridge of the nose: geometry
    face = np.array(made.pose.seated[0].face_m)
    assert near.what == "a sitter"
    assert near.distance_m == pytest.approx(float(np.linalg.norm(light.at - 0.02 * light.axis - face)) - 0.115)
    assert near.distance_m < 0.46  # G23


@pytest.mark.parametrize("modelling", [0, 60])
def test_a_lamp_that_does_not_burn_warms_nothing(modelling: float) -> None:
    made = solved(one(kit=car(modifiers=[DISH], heads=[flash(modelling_watts=modelling)])))
    assert bool(heat.near(made)) == (modelling > 0)


# Dials


def test_a_head_that_cannot_be_turned_down_far_enough_is_said() -> None:
    plan = told(one(kit=car(heads=[flash(range_stops=0.5)]), preferences={"aperture": 2.8}))
    assert "power_low" in plan.problem_codes()
    row = next(p for p in plan.document["problems"] if "turned down" in p["says"])
    setup = plan.document["setups"][0]
    assert setup["lights"][0]["power_below_full_stops"] == pytest.approx(0.5)
    # the reading stands over f/2.8 (3 stops over f/1) by what the dial lacks: stops of f-numbers, to the tenth printed
    over = 2 * math.log2(setup["expected"]["setting_reading"]["f_number"]) - 3
    assert row["short_by"] == pytest.approx(over, abs=0.11)
    # a dial of eight stops reaches that far down
    assert "power_low" not in told(one(preferences={"aperture": 2.8})).problem_codes()


def test_a_fill_that_is_too_strong_is_named_by_its_letter() -> None:
    made = solved(briefs.demo("askew"))
    fill = made.light("fill")
    assert fill is not None
    strong = replace(made, notes={**made.notes, "over": {"fill": 1.24}})
    (found,) = check_rigs.dials(strong)
    assert (found.code, found.short_by, found.values) == ("power_low", 1.2, {"letter": fill.letter})
    assert list(check_rigs.dials(made)) == []


# Movement


def test_what_a_flash_smears_on_the_print_is_speed_times_time_times_enlargement() -> None:
    made = solved(one(briefs.sitter("Ada", tremor=True)))
    found = movement.smear(made)
    assert found is not None
    # F18, F21: 0.3 m/s x 3 x 0.6 ms; print 40 cm of the field's width; circle enlarged from the level sensor's 36 mm
    assert found.blur_mm == pytest.approx(0.3 * 3 * 0.0006 * 1000)
    assert found.print_mm == pytest.approx(found.blur_mm * 0.40 / made.camera.field_width_m)
    assert found.circle_mm == pytest.approx(made.camera.blur_mm * 400 / 36)


def test_a_toddler_held_is_told_and_a_toddler_free_is_a_limit() -> None:
    held, free = (solved(one(fast(posture=p), **LONG)) for p in ("lap", "standing"))
    told_, counted = movement.smear(held), movement.smear(free)
    assert told_ is not None
    assert counted is not None
    assert (told_.speed_m_s, told_.shows) == (1.0, False)  # hands, job.md row 48: common practice
    assert (counted.speed_m_s, counted.shows) == (2.0, True)
    # at the longest flash named the smear is as wide as the blur circle: proportion
    assert counted.print_mm * counted.longest_s / counted.lasting_s == pytest.approx(counted.circle_mm)


@pytest.mark.parametrize(("age", "speed"), [(1, 1.0), (2, 2.0), (5, 2.0), (6, None)])
def test_only_those_who_walk_may_run(age: float, speed: float | None) -> None:
    found = movement.smear(solved(one(fast(age_years=age, posture="floor"))))
    assert (found.speed_m_s if found else None) == speed  # hands 1, a toddler who is free 2 m/s: common practice


def test_the_flash_asked_for_is_short_enough_and_no_shorter_than_need_be() -> None:
    tree = BY_BRIEF["blur_flash"][1]
    found = movement.smear(solved(tree))
    assert found is not None
    row = next(p for p in told(tree).document["problems"] if p["limit"] == "sharpness" and "may run" in p["says"])
    part = float(row["mend"].split("1/")[1].split(" ")[0])
    # two figures, rounded to the shorter: at most a tenth shorter than v t = circle asks
    assert 0.9 * found.longest_s <= 1 / part <= found.longest_s + 1e-12
    # each stop is half the time
    assert row["short_by"] == pytest.approx(math.log2(found.lasting_s / found.longest_s), abs=0.051)


def test_steady_light_lasts_as_long_as_the_shutter() -> None:
    made = solved(one(briefs.sitter("Ada", tremor=True), kit=briefs.steady_kit()))
    found = movement.smear(made)
    assert found is not None
    assert found.blur_mm == pytest.approx(0.3 * made.camera.shutter_s * 1000)  # v t
    assert found.shows
    assert "blur_steady" in broken(made)


@pytest.mark.parametrize("lux", [100, 400])
def test_the_room_s_own_light_is_told_in_lux_and_stops(lux: float) -> None:
    plan = told(one(where=briefs.room(ambient_lux=lux)))
    values = next(v for code, v in plan.reasons if code == "ambient_under")
    assert float(values["lux"]) == lux
    # F25: 500 lx lie 6.0 under f/8, 1/200, ISO 100; 100 lx are log2 5 further down, 400 lx log2 1.25
    assert float(values["below"]) == pytest.approx(6.0 + math.log2(500 / lux), abs=0.051)


def test_a_shutter_over_sync_says_how_much_of_the_frame_is_lit() -> None:
    plan = told(one(preferences={"shutter_s": 0.002})).document
    row = next(p for p in plan["problems"] if p["limit"] == "sync")
    # F24: an ideal slit lights t over the sync time, 1/500 at 1/200 two fifths
    assert "about 40 % of the frame" in row["says"]


def test_nobody_restless_under_flash_needs_no_word() -> None:
    assert movement.smear(plain()) is None


# Packing and cautions


def test_feature_49_a_boomed_hair_light_adds_all_that_holds_it_to_the_packing() -> None:
    def packed(**kit: Any) -> Tree:
        base = briefs.studio_kit()
        heads = [flash(), flash(id="h-p", mount="bayonet P")]
        stands = [s for s in base["stands"] if s["id"] == "stand220-1"] + kit.pop("stands", [])
        strip = [m for m in base["modifiers"] if m["id"] in ("octa95-1", "strip30x120-1")]
        tree = briefs.request(
            briefs.setup("natural"), briefs.sitter("Juno", hair="dark"),
            kit=base | {"heads": heads, "stands": stands, "modifiers": strip, "panels": []} | kit)  # fmt: skip
        plan = told(tree).document
        return {row["item"]: row for row in plan["packing"]} | {"lights": plan["setups"][0]["lights"]}

    before, after = packed(), packed(stands=[BOOM | {"max_height_m": 3}])
    more = set(after) - set(before)
    hung = next(x for x in after["lights"] if x["stand"] == "boom")
    assert {"boom", "boom arm with grip", "safety cord", f"counterweight {hung['counterweight_kg']:g} kg"} <= more
    assert {hung["adapter"], "ring-p-s-1"} <= more
    assert len([i for i in after if i.startswith("sandbag")]) == len([i for i in before if i.startswith("sandbag")]) + 1


def test_a_battery_and_its_spare_are_packed_in_place_of_a_cable() -> None:
    packed = {row["item"] for row in told(SAID["a flash on a battery"]).document["packing"]}
    assert {"charged battery for h400-1", "spare battery for h400-1, charged"} <= packed
    assert not packed & {"mains cable", "spare mains cable", "cable cover"}
    fed = {row["item"] for row in told(one()).document["packing"]}
    assert {"mains cable", "spare mains cable", "spare batteries: meter, camera"} <= fed


ONLY_THERE = {
    "Boom:": (SAID["a boom alone"], one()),
    "A wheelchair": (one(briefs.sitter("Osric", posture="wheelchair")), one()),
    "Older sitters": (elder(), one()),
    "Infants": (one(fast()), one()),
    "Children": (one(briefs.sitter("Wilf", age_years=7, height_cm=122)), one(fast())),
    "Haze": (one(props=[{"label": "haze machine"}]), one(props=[{"label": "viola"}])),
    "Flash:": (one(), one(kit=briefs.steady_kit())),
    "The ceiling leaves": (one(where=briefs.room(9, 6, 2.2)), one(where=briefs.room(9, 6, 3.2))),
    "The room's circuits": (one(where=briefs.room(circuits=[])), one()),
    "Panels": (one(), one(kit=car(panels=[]))),
}


@pytest.mark.parametrize("start", ONLY_THERE)
def test_a_caution_is_said_where_the_plan_raises_it_and_nowhere_else(start: str) -> None:
    there, elsewhere = (told(tree).document["cautions"] for tree in ONLY_THERE[start])
    assert [c for c in there if c.startswith(start)]
    assert not [c for c in elsewhere if c.startswith(start)]


def test_a_note_on_somebody_who_is_not_in_the_picture_raises_no_caution() -> None:
    tree = one()
    tree["sitters"].append(briefs.sitter("Osric", posture="wheelchair", age_years=80))
    tree["brief"]["setups"][0]["people"] = ["Mirela"]
    said = told(tree).document["cautions"]
    assert not [c for c in said if c.startswith(("A wheelchair", "Older sitters"))]


def test_the_caution_on_weights_names_the_neediest_light() -> None:
    request = filled(one())
    made = solved(one())
    worst = max(ballast.rigs(made), key=lambda r: r.wanted_kg)
    said = told(one()).document["cautions"]
    assert any(f"{worst.wanted_kg:g} kg at least for light {worst.letter}" in c for c in said)
    assert request.kit.weights
