"""Light from behind in a solved set: accents, what heads keep from the meter, noses, the lens; colours of lights."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from shotplans.light.units import direction
from shotplans.planner import accent, behind, colours
from shotplans.planner.plan import Light, Solved
from tests.planner import briefs
from tests.planner.sets import broken, found_in, meter, solved, told, with_light
from tests.planner.truths.grounds import MIRELA, SAID, warm_but_one

NATURAL = briefs.request(briefs.setup("natural"), MIRELA, key_side="camera_right")
BOTH = briefs.request(briefs.setup("bold", "half", "dark"), MIRELA, key_side="camera_right")


def accents_of(one: Solved) -> list[Light]:
    return [x for x in one.lights if x.role == "accent"]


def place_of(one: Solved, role: str) -> int:
    return next(n for n, x in enumerate(one.lights) if x.role == role)


def put(one: Solved, off_nose_deg: float, height_deg: float, distance_m: float = 1.5) -> Solved:
    """The first accent moved to a bearing off the nose, facing the head."""
    sitter = one.pose.seated[0]
    face = np.array(sitter.face_m)
    at = face + distance_m * direction(sitter.nose_deg + off_nose_deg, height_deg)
    place = (float(at[0]), float(at[1]), float(at[2]))
    return with_light(one, place_of(one, "accent"), position=place, aim=sitter.face_m)


def test_a_bold_light_before_a_dark_ground_draws_both_edges() -> None:
    one = solved(BOTH)
    first, second = accents_of(one)
    key = one.lights[0]
    # Behind the head on either side, the first on the shadow side: design.md section 6, common practice
    assert first.bearing_deg * key.bearing_deg < 0 < second.bearing_deg * key.bearing_deg
    assert min(abs(first.bearing_deg), abs(second.bearing_deg)) >= 110
    used = [(x.emitter.head.id, x.emitter.modifier.id) for x in one.lights if x.emitter]
    assert len({h for h, _ in used}) == len({m for _, m in used}) == len(used)  # nothing is used twice
    assert broken(one) == {}


@pytest.mark.parametrize(
    ("intent", "tone", "hair", "head", "kind"),
    [
        ("bold", "dark", "mid", "usual", "rim"),
        ("bold", "mid", "mid", "usual", None),
        ("character", "black", "dark", "usual", "hair"),
        ("character", "black", "white", "usual", None),
        ("character", "black", "dark", "bald", None),
        ("natural", "dark", "dark", "usual", None),
    ],
)
def test_a_second_accent_is_for_a_few(intent: str, tone: str, hair: str, head: str, kind: str | None) -> None:
    want = accent.second(intent, tone, hair, head)
    assert (want.kind if want else None) == kind  # common practice, no source


def test_an_accent_spares_noses_lens_and_meter() -> None:
    for tree in (NATURAL, BOTH):
        one = solved(tree)
        reads = meter(one)
        for light in accents_of(one):
            assert behind.on_nose(light, one.pose.seated[0]) == 0
            assert behind.lens_lift_stops(light, one.camera, reads.setting(), one.flags) < 0.1
        assert math.log2(behind.all_on(reads) / reads.setting()) <= 0.1


def test_a_light_reaches_the_nose_tip_up_to_the_tangent_past_the_cheek() -> None:
    one = solved(NATURAL)
    sitter = one.pose.seated[0]
    # By hand as in tests/light/test_accents.py, now with the tip 45 mm under the bridge: the head's section there is
    # smaller by sqrt(1 - (45/115)^2), so the tangent lies a little further round than at the level of the eyes
    shrink = math.sqrt(1 - (0.045 / 0.115) ** 2)
    half = math.asin(0.0975 * shrink / 0.1275)
    limit = 180 - math.degrees(math.atan2(0.075 * math.sin(half), 0.0975 * math.cos(half)))
    tip = behind.nose_tip(sitter)
    for off, dark in ((limit - 1.5, False), (limit + 1.5, True)):
        spot = tip + 3.0 * direction(sitter.nose_deg + off, 0.0)
        assert bool(behind.hidden(tip, spot[None], sitter)[0]) is dark


def test_the_head_keeps_light_from_behind_off_the_meter_and_a_gap_between_heads_does_not() -> None:
    one = put(solved(NATURAL), 175.0, 0.0)
    light = accents_of(one)[0]
    assert behind.seen_share(one.mark_eyes, light, one.pose) == 0
    pair = solved(briefs.request(briefs.setup("bold", "half"), [briefs.sitter("Edda"), briefs.sitter("Ruan")]))
    straight = replace(light, position=(0.0, pair.mark_eyes[1], -1.5), aim=(0.0, pair.mark_eyes[1], 0.0))
    assert behind.seen_share(pair.mark_eyes, straight, pair.pose) > 0.5


def test_with_all_lights_on_the_face_reads_the_setting_and_what_of_the_bounce_comes_back() -> None:
    one = solved(NATURAL)
    reads = meter(one)
    bare = replace(one, box=replace(one.box, reflectance=0.0))
    # In a black room nothing comes back, and the head hides the accent whole: the sum is the setting
    assert behind.all_on(meter(bare)) == pytest.approx(meter(bare).setting())
    assert behind.all_on(reads) >= reads.setting()


def test_the_last_step_of_the_meter_round_is_that_reading() -> None:
    plan = told(BOTH).document["setups"][0]
    one = solved(BOTH)
    assert plan["meter_round"][-1]["target"] == meter(one).shown(behind.all_on(meter(one)))


def test_light_on_the_lens_falls_off_with_the_square_and_with_the_cosine() -> None:
    one = solved(NATURAL)
    number = place_of(one, "accent")
    camera = one.camera
    lamp = next(x for x in accents_of(one))
    assert lamp.emitter is not None
    small = replace(lamp.emitter, modifier=lamp.emitter.modifier.model_copy(
        update={"grid_deg": None, "width_m": 0.05, "height_m": 0.05, "lip_m": 0.0}))  # fmt: skip
    lens = (float(camera.at[0]), float(camera.at[1]), float(camera.at[2]))

    def put_at(away: float, off_deg: float) -> float:
        spot = camera.at + away * direction(180.0 + off_deg, camera.pitch_deg)
        place = (float(spot[0]), float(spot[1]), float(spot[2]))
        moved = with_light(one, number, emitter=small, position=place, aim=lens)
        return behind.on_lens(moved.lights[number], camera)

    assert put_at(2.0, 0.0) / put_at(4.0, 0.0) == pytest.approx(4.0, rel=0.01)  # inverse square [CIE-DISTANCE]
    assert put_at(3.0, 60.0) / put_at(3.0, 0.0) == pytest.approx(0.5, rel=0.01)  # cosine law


BY_HAND = {
    "nose_struck": ("accent", lambda: with_light(put(solved(BOTH), 115.0, 10.0), 2, power_stops=1.0)),
    "lens_lit": ("accent", lambda: into_the_lens()),
    "fill_colour": ("colour", lambda: solved(briefs.request(briefs.setup("soft", "half"), MIRELA, kit=warm_but_one()))),
}


def into_the_lens() -> Solved:
    """The large rim without a grid, at full power, beside the picture and facing the lens, its flag taken away."""
    one = solved(SAID["a large rim without a grid"])
    lens = (float(one.camera.at[0]), float(one.camera.at[1]), float(one.camera.at[2]))
    turned = with_light(one, place_of(one, "accent"), position=(1.2, 1.8, 0.0), aim=lens, power_stops=0.0)
    return replace(turned, flags=())


@pytest.mark.parametrize("code", BY_HAND)
def test_what_spills_from_behind_is_found(code: str) -> None:
    limit, spoilt = BY_HAND[code]
    found_in(spoilt(), code, limit)


def test_less_power_by_the_shortage_mends_a_struck_nose() -> None:
    bad = BY_HAND["nose_struck"][1]()
    short = broken(bad)["nose_struck"].short_by
    mended = with_light(bad, 2, power_stops=bad.lights[2].power_stops + short)
    assert "nose_struck" not in broken(mended)


def test_a_filter_of_the_size_named_evens_the_fill() -> None:
    bad = BY_HAND["fill_colour"][1]()
    problem = broken(bad)["fill_colour"]
    fill = next(x for x in bad.lights if x.role == "fill")
    # 4300 K against 5600 K are 54 mired, less 5 for the cloth that the umbrella has not: definition of the mired
    assert float(problem.values["mired"]) == pytest.approx(1e6 / 4300 - 1e6 / 5600 - 5, abs=1)
    assert colours.warmer_mired(fill, bad.lights[0]) - problem.short_by <= 10.5  # seen from 10: common practice


def test_a_panel_has_no_colour_of_its_own_and_alike_pairs_do_not_differ() -> None:
    one = solved(NATURAL)
    shifts = {x.role: colours.shift_k(x, one.lights[0]) for x in one.lights}
    assert shifts["key"] == 0
    panel = next((x for x in one.lights if x.panel), None)
    assert panel is not None
    assert colours.kelvin(panel) is None
    assert colours.shift_k(panel, one.lights[0]) == 0


def test_the_printed_shift_is_that_of_the_cloths() -> None:
    plan = told(briefs.demo("dorrow")).document["setups"][0]
    key, rim = plan["lights"][0], plan["lights"][1]
    assert (key["modifier"], rim["modifier"]) == ("dish55", "strip30x120-1")
    # Two cloths of 5 mired each (value from memory) before 5600 K: 10^6/(178.6 + 10) = 5303 K
    assert rim["colour_shift_k"] == pytest.approx(5303 - 5600, abs=5)


def test_the_drift_with_power_is_a_width_and_none_for_steady_heads() -> None:
    one = solved(SAID["a box filled by an umbrella far down"])
    key, fill = one.lights[0], next(x for x in one.lights if x.role == "fill")
    apart = abs(key.power_stops - fill.power_stops)
    # 400 K over 8 stops at 5600 K are 12.8 mired (S127, weak); by stops its share
    assert colours.drift_mired(fill, key) == pytest.approx(12.8 * apart / 8, rel=0.03)
    steady = solved(briefs.request(briefs.setup("natural", "half"), MIRELA, kit=briefs.steady_kit()))
    assert {colours.drift_mired(x, steady.lights[0]) for x in steady.lights} == {0.0}
