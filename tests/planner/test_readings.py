"""Light in a solved set obeys the laws of light: inverse square, adding energies, mirrors, the sum of the setting.

Covers emitters, readings, rounds and expect on whole set-ups; formulas of light have tests of their own.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from shotplans.light import exposure
from shotplans.planner import document, readings, rounds, uncertainty
from shotplans.planner.emitters import Emitter
from shotplans.planner.expect import bearing_from_nose
from shotplans.planner.pairs import emitters
from shotplans.planner.plan import Light, Solved
from shotplans.planner.steps import steps
from tests.planner import briefs
from tests.planner.sets import filled, key_of, meter, solved, with_light

NATURAL = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), key_side="camera_right")
PAIR = briefs.request(
    briefs.setup("soft", "half"),
    [briefs.sitter("Edda", glasses={"lens": "usual"}), briefs.sitter("Ruan", height_cm=185)],
    key_side="camera_right",
)


def pairs(**kit: tuple[str, ...]) -> list[Emitter]:
    tree = briefs.request(briefs.setup("even"), briefs.sitter("Mirela"), kit=briefs.kit_of(**kit) if kit else None)
    request = filled(tree)
    return emitters(request.kit, request.corrections, steady=False)


def of(modifier: str) -> Emitter:
    return next(e for e in pairs() if e.modifier.id == modifier)


def round_of(one: Solved) -> list[dict[str, Any]]:
    taken = steps(one, meter(one))
    return rounds.numbered(one, meter(one), taken, uncertainty.printed(uncertainty.spread(one, taken)))


def strength(emitter: Emitter, distance_m: float) -> float:
    """On the axis of the front, at full power."""
    at, axis = np.zeros(3), np.array([0.0, 0.0, 1.0])
    return float(np.linalg.norm(emitter.vector(distance_m * axis, at, axis)))


@pytest.mark.parametrize("modifier", ["octa95-1", "dish55", "reflector18-2", "strip30x120-1"])
def test_far_off_twice_the_distance_costs_two_stops(modifier: str) -> None:
    far = 10 * max(of(modifier).width_m, of(modifier).height_m)
    # Ten times the size away the loss is 1.997 stops for a disc, 1.996 for others: light.md section 1
    assert np.log2(strength(of(modifier), far) / strength(of(modifier), 2 * far)) == pytest.approx(2.0, abs=0.005)


def test_near_a_big_source_twice_the_distance_costs_less() -> None:
    hot = of("octa150-1")
    octa = replace(hot, modifier=hot.modifier.model_copy(update={"core_stops": 0.0}))
    # A uniform disc: d/D 1 to 2 costs 1.766 stops, 0.5 to 1 costs 1.322 (light.md section 1)
    assert np.log2(strength(octa, 1.5) / strength(octa, 3.0)) == pytest.approx(1.766, abs=0.005)
    assert np.log2(strength(octa, 0.75) / strength(octa, 1.5)) == pytest.approx(1.322, abs=0.005)


@pytest.mark.parametrize("modifier", ["octa150-1", "dish55", "strip30x120-1"])
def test_at_a_metre_a_pair_gives_what_its_papers_say(modifier: str) -> None:
    emitter = of(modifier)
    # H = C N^2/S with C 250 (values.md E07), N the f-number at 1 m and ISO 100, less the modifier's loss
    rated = 250 * float(emitter.head.f_number_1m_iso100 or 0) ** 2 / 100 * 2.0**-emitter.modifier.loss_stops
    assert strength(emitter, 1.0) == pytest.approx(rated, rel=1e-6)


def test_a_correction_moves_the_light_by_as_much_and_makes_it_surer() -> None:
    def light(**more: object) -> Emitter:
        request = filled(briefs.request(briefs.setup("even"), briefs.sitter("Mirela"), **more))
        found = emitters(request.kit, request.corrections, steady=False)
        return next(e for e in found if (e.head.id, e.modifier.id) == ("h400-1", "octa150-1"))

    plain, learned = light(), light(corrections=[briefs.LEARNED])
    assert np.log2(strength(learned, 1) / strength(plain, 1)) == pytest.approx(-0.3)  # as the brief says
    assert plain.uncertainty_stops == 0.3  # common practice, no source
    # What the readings leave open, and a tenth for setting it up again, add as squares
    assert learned.uncertainty_stops == pytest.approx(np.hypot(0.1, 0.1))


def test_nothing_mounts_without_the_same_mount_or_a_ring() -> None:
    alone = {e.modifier.id for e in pairs(heads=("h400-1",), adapters=())}
    ringed = {e.modifier.id: e.adapter for e in pairs(heads=("h400-1",))}
    assert alone < set(ringed)
    assert all(ringed[m] for m in set(ringed) - alone)
    assert all(ringed[m] is None for m in alone)


def test_a_grid_takes_flux_from_the_room_and_nothing_from_the_axis() -> None:
    bare = of("octa150-1")
    gridded = replace(bare, modifier=bare.modifier.model_copy(update={"grid_deg": 40.0}))
    assert strength(gridded, 2.0) == pytest.approx(strength(bare, 2.0))
    # A cone of 20 degrees holds sin^2 20 = 0.12 of a matt front's light, and the grid takes over half of that: geometry
    assert gridded.flux < 0.06 * bare.flux


def test_a_lip_hides_the_front_from_the_side_only() -> None:
    whole = of("octa95-1")
    bare = replace(whole, modifier=whole.modifier.model_copy(update={"lip_m": 0.0}))
    lipped = replace(bare, modifier=bare.modifier.model_copy(update={"lip_m": 0.1}))
    at, axis = np.zeros(3), np.array([0.0, 0.0, 1.0])
    side = 2 * np.array([np.sin(1.0), 0.0, np.cos(1.0)])
    assert strength(lipped, 2.0) == pytest.approx(strength(bare, 2.0))
    # What two equal circles share that lie lip x tan apart: school geometry
    share = np.linalg.norm(lipped.vector(side, at, axis)) / np.linalg.norm(bare.vector(side, at, axis))
    x = 0.1 * np.tan(1.0) / bare.width_m
    assert share == pytest.approx(2 / np.pi * (np.arccos(x) - x * np.sqrt(1 - x**2)))


def test_two_lights_add_as_energies_with_their_bounce() -> None:
    one = solved(PAIR)
    key, fill = (one.light("key"), one.light("fill"))
    assert key is not None
    assert fill is not None
    face = np.array(one.pose.seated[0].face_m)
    axis = np.array([0.0, 0.0, 1.0])

    def reads(*on: Light) -> float:
        return readings.reading(face, axis, on, one.box)

    assert reads(key, fill) == pytest.approx(reads(key) + reads(fill))


@pytest.mark.parametrize("recessed", [False, True])
def test_the_setting_reading_is_key_and_fill_and_bounce_and_nothing_behind(recessed: bool) -> None:
    one = solved(PAIR)
    reads = meter(one, recessed)
    whole = reads.setting()
    parts = sum(reads.direct(x) for x in one.by_role("key", "fill"))
    even = readings.bounce_plane(list(one.by_role("key", "fill")), one.box, one.blocks)
    # A dome in even surroundings reads 1.5 times a plane: light.md section 4
    assert whole == pytest.approx(parts + even * (1.0 if recessed else 1.5))
    without = replace(one, lights=tuple(x for x in one.lights if x.role in ("key", "fill")))
    assert meter(without, recessed).setting() == pytest.approx(whole)


def test_the_setting_reading_is_the_working_aperture() -> None:
    for tree in (NATURAL, PAIR):
        one = solved(tree)
        off = exposure.stops_between(one.camera.aperture, readings.f_number(meter(one).setting(), one.camera, False))
        assert abs(float(off)) <= 0.1  # recommend-io.md, laws of the output


def test_half_the_power_of_all_is_one_stop_less() -> None:
    one = solved(NATURAL)
    dimmed = one
    for n, light in enumerate(one.lights):
        dimmed = with_light(dimmed, n, power_stops=light.power_stops + 1)
    assert np.log2(meter(one).setting() / meter(dimmed).setting()) == pytest.approx(1.0)


def test_a_mirrored_set_up_reads_the_same() -> None:
    one = solved(PAIR)
    other = one.mirrored()
    ours, theirs = document.expected(one, meter(one)), document.expected(other, meter(other))
    same = [k for k in ours if k not in ("per_sitter", "worst_pair")]
    assert {k: ours[k] for k in same} == {k: theirs[k] for k in same}
    for a, b in zip(ours["per_sitter"], theirs["per_sitter"], strict=True):
        assert a["relief_stops"] == pytest.approx(b["relief_stops"], abs=0.011)  # two parts, each to 0.01
        assert [g["margin_deg"] for g in a["glasses"]] == [g["margin_deg"] for g in b["glasses"]]
        assert sum(c["seen"] for c in a["catchlights"]) == sum(c["seen"] for c in b["catchlights"])
    back = other.mirrored()
    assert [x.position for x in back.lights] == [x.position for x in one.lights]
    assert back.pose == one.pose


def test_the_dome_at_the_key_reads_more_than_at_the_camera() -> None:
    one = solved(NATURAL)
    at_camera, at_key = meter(one).direct(key_of(one)), meter(one, at_key=True).direct(key_of(one))
    k, c = key_of(one).at - one.mark_eyes, one.camera.at - one.mark_eyes
    cos_t = float(k @ c / np.linalg.norm(k) / np.linalg.norm(c))
    # For a small source the dome loses log2((1 + cos t)/2): light.md section 4; a source this wide less, by a twentieth
    assert np.log2(at_key / at_camera) == pytest.approx(-np.log2((1 + cos_t) / 2), abs=0.05)


def test_the_meter_round_reads_each_head_alone_and_then_sets_the_camera_once() -> None:
    one = solved(PAIR)
    steps = round_of(one)
    assert [s["step"] for s in steps] == list(range(1, len(steps) + 1))
    assert [s["on"] for s in steps[: len(one.lights)]] == [[x.letter] for x in one.lights]
    assert [s["sets_camera"] for s in steps].count(True) == 1
    faces = [s for s in steps if s["place"].endswith("'s face")]
    assert len(faces) == 2
    assert all(s["uncertainty_stops"] >= 0.1 for s in steps)


def test_of_a_large_group_nine_faces_are_read() -> None:
    tree = briefs.request(briefs.setup("even", "group"), briefs.family(14), briefs.room(12, 9, 4))
    one = solved(tree)
    steps = round_of(one)
    assert len([s for s in steps if s["place"].endswith("'s face")]) == 9


def test_a_lean_changes_the_reading_by_no_more_than_inverse_square() -> None:
    one = solved(NATURAL)
    d = key_of(one).distance_m
    # 5 cm toward a point source gain 2 log2(d/(d - 0.05)) (values.md P37); the fill stands still, so the sum moves less
    most = 2 * np.log2(d / (d - 0.05))
    assert 0 <= document.expected(one, meter(one))["sway_stops"] <= most + 0.05


def test_bearing_off_the_nose_is_the_bearing_less_the_turn() -> None:
    one = solved(NATURAL)
    sitter = one.pose.seated[0]
    assert bearing_from_nose(key_of(one), sitter) == pytest.approx(key_of(one).bearing_deg - sitter.nose_deg, abs=0.5)
