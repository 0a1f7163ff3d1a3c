"""Modifiers as they are: cores, beams, spill, strips both ways, feathering; windows and flicker; one search a front.

What the formulas say is tested in tests/light; here, that the plan goes by them.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from shotplans.planner import feather, front_search, key, readings
from shotplans.planner.candidates import extent, grid, tangents
from shotplans.planner.emitters import Emitter
from shotplans.planner.expect import main_sitter
from shotplans.planner.pairs import both_ways, emitters
from shotplans.planner.sitter_view import view
from shotplans.sheets import scene
from tests.planner import briefs, ruler
from tests.planner.contract import faults
from tests.planner.sets import Tree, filled, key_of, meter, solved, told, with_light
from tests.planner.truths.sources import LIT, SAID, STEADY, only

FOUR = briefs.request(briefs.setup("natural", "group"), briefs.family(5), kit=only("octa95-1", beam_deg=80))
PLAIN = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"))


def of(modifier: str, **changed: Any) -> Emitter:
    request = filled(briefs.request(briefs.setup("even"), briefs.sitter("Mirela")))
    found = next(e for e in emitters(request.kit, (), steady=False) if e.modifier.id == modifier)
    return replace(found, modifier=found.modifier.model_copy(update=changed))


def key_in(tree: Tree) -> Tree:
    found: Tree = told(tree).document["setups"][0]["lights"][0]
    return found


def test_a_hot_core_makes_the_front_work_smaller_and_changes_nothing_at_a_metre() -> None:
    even, hot = of("dish55", core_stops=0.0), of("dish55", core_stops=3.0)
    at, axis = np.zeros(3), np.array([0.0, 0.0, 1.0])
    far = [float(np.linalg.norm(e.vector(axis, at, axis))) for e in (even, hot)]
    assert far[1] == pytest.approx(far[0])  # the papers' number is taken at a metre, on the axis
    # Equal second moment of a disc that fades by 3 stops, by summing rings: 0.82 of its width
    rings = (np.arange(5000) + 0.5) / 5000
    weight = 2.0 ** (-3 * rings**2) * rings
    assert hot.disc_size_m == pytest.approx(0.55 * math.sqrt(2 * (weight * rings**2).sum() / weight.sum()), rel=1e-6)
    # The nearer to a point, the nearer to inverse square: light.md section 1
    near = [float(np.linalg.norm(e.vector(0.5 * axis, at, axis))) for e in (even, hot)]
    assert near[0] / far[0] < near[1] / far[1] < 4.0


def test_an_umbrella_s_spill_reaches_room_and_ground_and_its_closed_one_hardly() -> None:
    one = solved(briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=only("umb180")))
    light = key_of(one)
    assert light.emitter is not None

    def bounce(kind: str, cloth: bool) -> float:
        shaped = light.emitter.modifier.model_copy(update={"kind": kind, "outer_cloth": cloth})  # type: ignore[union-attr]
        return readings.bounce_plane([replace(light, emitter=replace(light.emitter, modifier=shaped))], one.box, ())

    plain = bounce("octabox", True)
    # Common practice, no source, and sure to a factor of two: as much again of 0.6, 0.15 and 0.05 leaves backwards.
    assert np.log2(bounce("umbrella_through", True) / plain) == pytest.approx(np.log2(1.6))
    assert np.log2(bounce("umbrella_back", False) / plain) == pytest.approx(np.log2(1.15))
    assert np.log2(bounce("umbrella_back", True) / plain) == pytest.approx(np.log2(1.05))
    through = replace(light.emitter, modifier=light.emitter.modifier.model_copy(update={"kind": "umbrella_through"}))
    assert one.ground is not None
    wall, out = np.array([[0.0, 1.2, -one.ground.distance_m]]), np.array([0.0, 0.0, 1.0])
    before, after = (
        float(readings.plane(wall, out, [replace(light, emitter=e)], one.box)[0]) for e in (light.emitter, through)
    )
    assert after > before


def test_what_spills_backwards_is_seen_from_behind_as_light_and_adds_up() -> None:
    umbrella = of("umb180", kind="umbrella_through", outer_cloth=True, core_stops=0.0, beam_deg=120.0)
    at, axis = np.zeros(3), np.array([0.0, 0.0, 1.0])
    ahead, behind = (float(np.linalg.norm(umbrella.vector(z * axis, at, axis))) for z in (3.0, -3.0))
    # A matt front sends pi L A forwards; an even back with 0.6 of that has 0.6 of its radiance: Lambert
    assert behind / ahead == pytest.approx(0.6)
    assert not of("octa150-1").vector(-3.0 * axis, at, axis).any()


def test_only_fronts_with_unequal_sides_are_tried_both_ways() -> None:
    ways = both_ways([of("strip30x120-1"), of("octa150-1"), of("strip30x120-1", width_m=1.2)])
    assert [(e.width_m, e.height_m, e.roll_deg) for e in ways] == [
        (0.3, 1.2, 0.0), (1.2, 0.3, 90.0), (1.5, 1.5, 0.0), (1.2, 1.2, 0.0),
    ]  # fmt: skip


def test_a_strip_hung_across_reaches_as_far_sideways_as_it_did_up() -> None:
    level = np.array([0.0, 0.0, 1.0])
    upright, across = both_ways([of("strip30x120-1")])
    np.testing.assert_allclose(extent(level, upright.width_m, upright.height_m, False), [0.15, 0.6, 0.0], atol=1e-12)
    np.testing.assert_allclose(extent(level, across.width_m, across.height_m, False), [0.6, 0.15, 0.0], atol=1e-12)


@pytest.mark.parametrize(("ceiling", "roll"), [(3.2, 0.0), (2.1, 90.0)])
def test_a_strip_hangs_across_where_the_ceiling_is_low(ceiling: float, roll: float) -> None:
    bare = only("strip30x120-1", grid_deg=None, lip_m=0.0)
    tree = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), briefs.room(9, 6, ceiling), bare)
    light = key_in(tree)
    assert light["roll_deg"] == roll
    assert light["aim_words"] == "at the bridge of the nose" + (", its long side level" if roll else "")
    # Its highest point by the contract's own ruler, which turns the front by the printed roll
    assert abs(light["top_height_m"] - ruler.top_of_front_m(light, tree["kit"])) <= 0.35
    assert light["top_height_m"] <= ceiling
    drawn = scene.read(told(tree).document["setups"][0], filled(tree))
    assert drawn is not None
    assert (drawn.sources[0].width_m, drawn.sources[0].height_m) == ((1.2, 0.3) if roll else (0.3, 1.2))
    assert faults(tree, told(tree).document) == []


def test_the_relief_under_a_strip_hangs_on_the_side_that_skims() -> None:
    one = solved(SAID["a strip alone"])
    light, sitter = key_of(one), main_sitter(one)
    assert light.emitter is not None
    turned = with_light(one, emitter=replace(light.emitter, roll_deg=90.0 - light.emitter.roll_deg))
    found = [view(s, meter(s), sitter)["relief_stops"] for s in (one, turned)]
    assert found[0] != found[1]
    # By hand for skin facing the camera: 1.155 x half of the side that lies in the plane of incidence (light.md
    # section 3), and a mean of both by their squares where the plane lies askew to them.
    normal, face = np.array([[0.0, 0.0, 1.0]]), np.array(sitter.face_m)
    far = light.at - face
    s = far / np.linalg.norm(far)
    t = normal[0] - (normal[0] @ s) * s
    t = t / np.linalg.norm(t)
    across, up = tangents(-light.axis)
    half = np.hypot(0.15 * (across @ t), 0.6 * (up @ t)) * 1.1547
    width, height = light.emitter.even_sides
    expected = np.arctan(half * width / 0.3 / np.linalg.norm(far))  # its core makes both sides work a little shorter
    assert light.alpha_on(face, normal)[0] == pytest.approx(float(expected), rel=0.02)
    assert height / width == pytest.approx(4.0, rel=0.02)


def test_a_key_is_aimed_past_the_near_face_where_that_evens_them() -> None:
    one = solved(FOUR)
    light = key_of(one)
    straight = with_light(one, aim=light.distance_to)
    spread = [
        float(np.ptp([np.log2(meter(s).setting(np.array(p.face_m))) for p in s.pose.together])) for s in (one, straight)
    ]
    assert spread[0] < spread[1] - 0.02  # more than it costs, in stops
    document = told(FOUR).document["setups"][0]
    printed = document["lights"][0]
    assert printed["feather_deg"] > 0
    assert printed["feather_deg"] % 5 == 0
    assert "past the middle" in printed["aim_words"]
    mark = (0.0, light.distance_to[1], 0.0) if light.distance_to else None
    assert mark is not None
    at, aim = ruler.vec(printed["position_m"]), ruler.vec(printed["aim_m"])
    # The distance printed is to the middle of the faces, and the aim lies as far off: recommend-io.md, to a centimetre
    assert ruler.length(ruler.minus(at, mark)) == pytest.approx(printed["distance_m"], abs=0.012)
    assert ruler.length(ruler.minus(at, aim)) == pytest.approx(printed["distance_m"], abs=0.012)
    near = min(one.pose.together, key=lambda p: float(np.linalg.norm(np.array(p.face_m) - light.at)))
    off = [ruler.between_deg(ruler.minus(a, at), ruler.minus(ruler.vec(near.face_m), at)) for a in (mark, aim)]
    assert off[1] > off[0]  # away from the near face
    assert faults(FOUR, told(FOUR).document) == []


def test_one_face_and_people_in_turn_are_aimed_at() -> None:
    turns = briefs.request(briefs.setup("even"), [briefs.sitter(f"P{n}", height_cm=165 + 5 * n) for n in range(4)])
    assert key_in(PLAIN)["aim_words"] == "at the bridge of the nose"
    for tree in (PLAIN, turns):
        light = key_in(tree)
        assert light["feather_deg"] == 0.0
        assert light["aim_m"][0] == light["aim_m"][2] == 0.0


def test_an_aim_turns_across_the_front_s_own_height_by_so_much() -> None:
    g = grid(1.2, (2.0, 2.0), (20.0, 20.0), (30.0, 30.0))
    turned = feather.aimed(g, np.array([15.0]))
    assert math.degrees(math.acos(float(turned.back[0] @ g.back[0]))) == pytest.approx(15.0)
    np.testing.assert_array_equal(turned.position, g.position)
    # At camera right the axis swings to camera left: away from whoever sits nearest
    assert (-turned.back[0])[0] < (-g.back[0])[0]


def test_a_front_is_reckoned_once_for_all_the_heads_behind_it(monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[int] = []
    front = front_search.front

    def counted(*args: Any) -> Any:
        looked.append(1)
        return front(*args)

    monkeypatch.setattr(front_search, "front", counted)

    def fronts(heads: int) -> int:
        kit = only("octa150-1", "octa95-1", "dish55")
        first = kit["heads"][0]
        kit["heads"] = [first | {"id": f"h{n}", "f_number_1m_iso100": 64 - 0.5 * n} for n in range(heads)]
        request = filled(briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), kit=kit))
        pose = solved(PLAIN)
        looked.clear()
        key.search(
            (pose.pose,), emitters(request.kit, (), steady=False), targets=pose.targets, camera=pose.camera,
            box=pose.box, stands=tuple(request.kit.stands), needed=200.0, iso_room_stops=3.0, view="either",
        )  # fmt: skip
        return len(looked)

    assert fronts(1) == fronts(12) == 3


def window_lux() -> float:
    """A face 1.5 m before a window 1.2 m square, by hand: glass 0.7, sky 30 degrees up, 10,000 lx outside."""
    a = 0.6 / 1.5
    factor = 4 * (2 * a / math.hypot(1, a) * math.atan(a / math.hypot(1, a))) / (2 * math.pi)  # values.md P14, a = b
    luminance = 9 * 10_000 / (7 * math.pi) * (1 + 2 * 0.5) / 3  # the standard overcast sky
    return 0.7 * math.pi * luminance * factor


def test_without_flash_and_steady_light_a_window_is_offered_with_its_numbers() -> None:
    flash = briefs.kit_of(heads=("h400-1",))
    tree = briefs.request(briefs.setup("even"), briefs.sitter("Nell", no_flash=True), kit=flash)
    problem = next(p for p in told(tree).document["problems"] if p["limit"] == "flash")
    lux = window_lux()
    number = math.sqrt(lux / 125 * 800 / 250)  # E t = C N^2/S with C 250: values.md E07
    assert f"about {50 * round(lux / 50)} lux" in problem["mend"]
    third = min(ruler.THIRDS, key=lambda n: abs(math.log2(ruler.exact(float(n)) / number)))
    assert f"f/{third} at 1/125 and ISO 800" in problem["mend"]
    assert "1.5 m before one of 1.2 x 1.2 m" in problem["mend"]
    assert "1.5 stops either way" in problem["mend"]
    tree["room"]["windows"] = LIT
    wider = next(p for p in told(tree).document["problems"] if p["limit"] == "flash")
    assert "one of 1.5 x 1.4 m" in wider["mend"]


def test_windows_add_to_the_room_s_light_unless_it_is_blacked_out() -> None:
    def codes(**room: Any) -> set[str]:
        return told(briefs.request(briefs.setup("even"), briefs.sitter("Mirela"), briefs.room(**room))).codes()

    assert "windows" in codes(windows=LIT, black_out=False)
    assert "windows" not in codes(windows=LIT, black_out=True)
    assert "windows" not in codes(black_out=False)


def test_a_glass_house_is_too_light_for_flash_without_blinds() -> None:
    walls = [{"wall": name, "width_m": 8, "height_m": 3} for name in ("north", "south")]
    glass = briefs.request(
        briefs.setup("even"), briefs.sitter("Mirela"),
        briefs.room(windows=walls, surfaces={"walls": "white", "ceiling": "white", "floor": "light grey"}),
        preferences={"aperture": 4},
    )  # fmt: skip
    assert "ambient" in told(glass).problem_codes()
    shut = briefs.request(
        briefs.setup("even"), briefs.sitter("Mirela"), glass["room"] | {"black_out": True}, preferences={"aperture": 4}
    )
    assert "ambient" not in told(shut).problem_codes()


@pytest.mark.parametrize(
    ("volts", "mains", "safe"), [(230, 50, "1/100, 1/50 or 1/33"), (120, 60, "1/120, 1/60 or 1/40")]
)
def test_a_lamp_that_may_flicker_is_said_with_what_it_would_do(volts: float, mains: int, safe: str) -> None:
    circuits = [{"label": "circuit 1", "volts": volts, "breaker_amps": 20}]
    tree = briefs.request(
        briefs.setup("even"), briefs.sitter("Mirela"), briefs.room(circuits=circuits),
        briefs.studio_kit() | {"heads": STEADY}, preferences={"shutter_s": 0.004},
    )  # fmt: skip
    said = next(c for c in told(tree).document["cautions"] if "flicker" in c)
    turn = math.pi * 2 * mains * 0.004
    share = 0.35 * abs(math.sin(turn) / turn)  # by hand: the integral of one sine over the shutter
    assert f"by up to {math.log2((1 + share) / (1 - share)):.1f} stop" in said
    assert f"{mains} Hz" in said
    assert f"at {safe} they do not" in said


def test_a_box_without_its_inner_cloth_is_taken_as_narrower() -> None:
    def beam(**cloths: Any) -> float | None:
        kit = briefs.kit_of(modifiers=("octa95-1",))
        bare = {k: v for k, v in kit["modifiers"][0].items() if k not in ("beam_deg", "inner_cloth", "outer_cloth")}
        kit["modifiers"] = [bare | cloths]
        return filled(briefs.request(briefs.setup("even"), briefs.sitter("A"), kit=kit)).kit.modifiers[0].beam_deg

    # Values from memory, sure to 15 degrees; what is known is their order: the more cloth, the wider
    assert beam() == 120
    assert beam(inner_cloth=False) == 95
    assert beam(inner_cloth=False, outer_cloth=False) == 70
