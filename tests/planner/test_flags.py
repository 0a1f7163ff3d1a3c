"""Flags in a solved set: they keep dark what they are for, leave lit what must stay lit, and are nobody's twice."""

from __future__ import annotations

import math

import numpy as np
import pytest

from shotplans.light import screens, sources
from shotplans.planner import behind, flags, placed
from shotplans.planner.plan import Solved
from shotplans.planner.readings import flagged, front
from shotplans.sheets import blacks, pack, scene
from tests.planner import briefs, ruler
from tests.planner.sets import Tree, broken, filled, meter, solved, told
from tests.planner.truths.grounds import SAID

WHITE_SET = briefs.request(briefs.setup("bright", tone="white"), briefs.sitter("Willem", head="bald", skin="dark"))
FLAGGED = {
    "lens": SAID["a large rim without a grid"],
    "faces": WHITE_SET,
    "ground": SAID["a grey ground that is to be black"],
    "cloth": SAID["light cloth under a side light"],
}


def without_flags(tree: Tree) -> Tree:
    bare = dict(tree)
    bare["kit"] = tree["kit"] | {"flags": []}
    return bare


@pytest.mark.parametrize("keeps", FLAGGED)
def test_a_flag_hides_its_light_from_what_it_keeps_dark_and_the_faces_from_none(keeps: str) -> None:
    one = solved(FLAGGED[keeps])
    (flag,) = [f for f in one.flags if f.keeps == keeps][:1]
    light = next(x for x in one.lights if x.emitter and x.emitter.head.id == flag.head)
    faces = np.array([s.face_m for s in one.pose.together])
    dark = {"lens": one.camera.at[None], "faces": faces}.get(keeps)
    if dark is not None:
        assert float(flagged(light, dark, one.flags).max()) <= 0.4
    if keeps != "faces":
        assert float(flagged(one.lights[0], faces, one.flags).min()) >= 0.97
    assert broken(one) == {}


@pytest.mark.parametrize("keeps", FLAGGED)
def test_rays_to_sample_points_of_the_front_agree_with_the_share_hidden(keeps: str) -> None:
    one = solved(FLAGGED[keeps])
    flag = one.flags[0]
    light = next(x for x in one.lights if x.emitter and x.emitter.head.id == flag.head)
    point = np.array(one.camera.at if keeps == "lens" else one.pose.together[0].face_m)
    across, up = sources.panel_axes(np.array(flag.axis))
    middle, axis = ruler.vec(flag.at_m), ruler.vec(flag.axis)
    hit = 0
    spots = front(light)
    for spot in spots:
        # A ray by hand: where it meets the flag's plane, and whether that lies within its sides
        start, way = ruler.vec(point), ruler.minus(ruler.vec(spot), ruler.vec(point))
        share = ruler.dot(ruler.minus(middle, start), axis) / ruler.dot(way, axis)
        off = ruler.minus(ruler.plus(start, way, share), middle)
        inside = abs(ruler.dot(off, ruler.vec(across))) <= flag.width_m / 2
        hit += inside and abs(ruler.dot(off, ruler.vec(up))) <= flag.height_m / 2 and 0 < share < 1
    axes = (across, up)
    found = screens.hidden_share(point[None], spots, np.array(flag.at_m), axes, flag.width_m, flag.height_m)
    assert float(found[0]) == pytest.approx(hit / len(spots), abs=1e-9)


@pytest.mark.parametrize("keeps", FLAGGED)
def test_a_flag_is_printed_packed_and_used_once(keeps: str) -> None:
    plan = told(FLAGGED[keeps]).document
    setup = plan["setups"][0]
    rows = [b for b in setup["blocks"] if b["keeps"] == keeps]
    assert rows
    assert all(b["why"].startswith("keeps light ") and b["shades"] in b["why"] for b in rows)
    stands = [x["stand"] for x in setup["lights"]] + [b["stand"] for b in setup["blocks"]]
    assert len(set(stands)) == len(stands)
    ids = [b["id"] for b in setup["blocks"]] + [x["panel"] for x in setup["lights"] if x["panel"]]
    assert len(set(ids)) == len(ids)
    packed = {row["item"] for row in plan["packing"]}
    assert {b["id"] for b in rows} | {b["stand"] for b in rows} <= packed


def test_a_flag_stands_out_of_the_picture() -> None:
    for tree in FLAGGED.values():
        one = solved(tree)
        for flag in one.flags:
            corners = sources.rect_corners(
                np.array(flag.at_m), np.array(flag.axis), flag.width_m, flag.height_m
            )
            assert float(one.camera.clearance(corners)) >= 1


def test_a_flag_before_the_lens_takes_the_veil_away() -> None:
    one = solved(FLAGGED["lens"])
    light = next(x for x in one.lights if x.emitter and x.emitter.head.id == one.flags[0].head)
    before = behind.lens_lift_stops(light, one.camera, meter(one).setting())
    after = behind.lens_lift_stops(light, one.camera, meter(one).setting(), one.flags)
    # Hidden by four fifths at least, the light on the lens falls by log2 5: the veil with it, being in proportion
    assert after <= 0.25 * before


def test_a_flag_before_the_ground_makes_it_darker_than_without() -> None:
    with_flag, bare = solved(FLAGGED["ground"]), solved(without_flags(FLAGGED["ground"]))
    assert bare.flags == ()
    assert with_flag.ground is not None
    assert bare.ground is not None
    assert with_flag.ground.reading_above_setting <= bare.ground.reading_above_setting - 0.1


def test_the_size_a_flag_needs_is_that_of_similar_triangles() -> None:
    one = solved(FLAGGED["lens"])
    light = next(x for x in one.lights if x.role == "accent")
    width, height = flags.size_for_lens_m(light, one.camera.at, 0.5)
    away = float(np.linalg.norm(one.camera.at - light.at))
    off = math.acos(float(light.axis @ (one.camera.at - light.at)) / away)
    # A disc of 0.95 m seen askew is 0.95 wide one way at most and 0.95 cos the other at least; a lens of 0.1 m
    share = 0.5 / away
    most, least = (0.95 * f * (1 - share) + 0.1 * share for f in (1.0, math.cos(off)))
    assert least - 0.05 <= min(width, height)
    assert max(width, height) <= most + 0.05


def test_without_flags_or_stands_the_plan_says_no_less() -> None:
    kit = briefs.studio_kit() | {"flags": [], "panels": []}
    bare = solved(briefs.request(briefs.setup("bright", tone="white"), briefs.sitter("Willem"), kit=kit))
    assert bare.flags == ()


def test_a_flag_without_a_size_is_taken_as_small_and_said_so() -> None:
    tree = FLAGGED["ground"] | {"kit": FLAGGED["ground"]["kit"] | {"flags": [{"id": "flag-9"}]}}
    plan = told(tree).document
    assert any("0.6 m" in line and "flag" in line for line in plan["assumptions"])
    assert not any("flags" in line and "not used" in line for line in plan["assumptions"])


@pytest.mark.parametrize("keeps", FLAGGED)
def test_a_flag_is_read_back_from_paper_as_it_hung(keeps: str) -> None:
    tree = FLAGGED[keeps]
    entry = told(tree).document["setups"][0]
    back: Solved = placed.placed(filled(tree), entry)
    hung = solved(tree).flags
    assert [(f.item.id, f.head, f.keeps, f.at_m, f.stand) for f in back.flags] == [
        (f.item.id, f.head, f.keeps, f.at_m, f.stand) for f in hung
    ]
    for ours, theirs in zip(back.flags, hung, strict=True):
        assert ours.axis == pytest.approx(theirs.axis, abs=2e-3)


def test_a_flag_is_drawn_on_the_sheet_with_its_own_size() -> None:
    tree = FLAGGED["cloth"]
    setup = told(tree).document["setups"][0]
    drawn = scene.read(setup, filled(tree))
    assert drawn is not None
    row = setup["blocks"][-1]
    panel = drawn.panels[-1]
    assert [panel.width_m, panel.height_m] == row["size_m"]
    assert list(panel.at) == row["at_m"]
    assert blacks.note(row).says.endswith(f"high. It keeps light {row['shades']} off the light cloth.")


def test_the_set_ups_own_list_names_the_flag_and_its_stand() -> None:
    tree = FLAGGED["cloth"]
    document = told(tree).document
    setup = document["setups"][0]
    listed = {row.item for row in pack.for_setup(document, setup, filled(tree))}
    assert {setup["blocks"][-1]["id"], setup["blocks"][-1]["stand"]} <= listed


@pytest.mark.parametrize("keeps", FLAGGED)
def test_a_mirrored_brief_hangs_the_same_flags_mirrored(keeps: str) -> None:
    tree = FLAGGED[keeps]
    left, right = (
        told(tree | {"brief": tree["brief"] | {"key_side": side}}).document["setups"][0]
        for side in ("camera_left", "camera_right")
    )
    assert left["blocks"]
    for a, b in zip(left["blocks"], right["blocks"], strict=True):
        assert a["at_m"] == [pytest.approx(-b["at_m"][0]), *b["at_m"][1:]]
        assert (a["id"], a["shades"], a["keeps"], a["size_m"]) == (b["id"], b["shades"], b["keeps"], b["size_m"])
