"""What a note or a wish does to the targets, and what it must not do; and where everybody sits and looks.

Covers notes, intents, people and poses. Bands are rules of taste: the tests hold directions, not their sizes.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from shotplans.planner import poses
from shotplans.planner.brief import Setup
from shotplans.planner.intents import SINGLE, Band, blended
from shotplans.planner.notes import Targets, targets
from shotplans.planner.people import Person, Stage, persons
from shotplans.planner.rules import UNCHANGED
from shotplans.planner.rules_of_intents import row_for
from tests.planner import briefs
from tests.planner.sets import Tree, filled, solved, told


def people(*sitters: Tree, mirror: bool = False, intent: str = "natural") -> tuple[list[Person], Setup]:
    request = filled(briefs.request(briefs.setup(intent), list(sitters)))
    setup = request.brief.setups[0]
    return persons(request.sitters, setup.people, request.kit.seats, mirror), setup


def aimed(*sitters: Tree, intent: str = "natural", **standard: Any) -> Targets:
    who, setup = people(*sitters, intent=intent)
    brief = filled(briefs.request(briefs.setup(intent), list(sitters), standard=standard or None)).brief
    return targets(setup, who, len(who), brief.standard, 1.5 if standard else None)


def asks(note: str, wanted: str, side: str = "both") -> Tree:
    return {"wishes": [briefs.wish(note, wanted, side)]}


def codes(found: Targets) -> set[str]:
    return {m.code for m in found.moved}


def test_opposite_wishes_for_lines_give_opposite_light() -> None:
    plain = aimed(briefs.sitter("A")).row
    softer = aimed(briefs.sitter("A", **asks("lines", "softer"))).row
    shown = aimed(briefs.sitter("A", **asks("lines", "shown"))).row
    assert softer.nose.mid < plain.nose.mid < shown.nose.mid
    assert softer.source.mid > plain.source.mid > shown.source.mid
    assert softer.fill.mid < plain.fill.mid < shown.fill.mid  # fill lies fewer stops under the key where it is soft


def test_age_and_lines_without_a_wish_move_nothing() -> None:
    old = aimed(briefs.sitter("A", age_years=80, texture="deep lines", wishes=[briefs.wish("lines", "as it is")]))
    assert old.row == aimed(briefs.sitter("A")).row
    assert codes(old) == set()


def test_wishes_that_pull_apart_leave_the_intent_where_it_is() -> None:
    both = aimed(briefs.sitter("A", **asks("lines", "softer")), briefs.sitter("B", **asks("lines", "shown")))
    assert both.row == aimed(briefs.sitter("A"), briefs.sitter("B")).row
    assert "wishes_opposed" in codes(both)


def test_who_wishes_a_change_weighs_four_times_the_others() -> None:
    found = aimed(briefs.sitter("A", **asks("scar", "softer")), briefs.sitter("B"))
    assert found.minds == pytest.approx((0.8, 0.2))  # common practice, no source


@pytest.mark.parametrize(("notes", "code"), [({"head": "brim"}, "brim"), ({"eyes": "deep set"}, "deep_set")])
def test_shaded_eyes_bring_the_key_down(notes: Tree, code: str) -> None:
    found = aimed(briefs.sitter("A", **notes))
    assert found.row.height.mid < aimed(briefs.sitter("A")).row.height.mid
    assert code in codes(found)


def test_a_chin_wished_softer_raises_key_and_camera() -> None:
    found = aimed(briefs.sitter("A", **asks("chin", "softer")))
    assert found.row.height.mid > aimed(briefs.sitter("A")).row.height.mid
    wished = briefs.request(briefs.setup("natural"), briefs.sitter("A", **asks("chin", "softer")))
    assert solved(wished).camera.height_m > solved(wished).pose.eye_m + 0.05


def test_a_narrow_face_is_widened_and_a_wide_one_narrowed() -> None:
    narrow, wide = aimed(briefs.sitter("A", face_width="narrow")), aimed(briefs.sitter("A", face_width="wide"))
    assert narrow.row.nose.mid < wide.row.nose.mid
    assert narrow.short_side < 0 < wide.short_side  # broad light widens, short light narrows: common practice
    assert "narrow_face" in codes(narrow)


def test_skins_far_apart_put_the_fairer_farther() -> None:
    assert aimed(briefs.sitter("A", skin="light"), briefs.sitter("B", skin="dark")).fairer_far
    assert not aimed(briefs.sitter("A", skin="light"), briefs.sitter("B", skin="very light")).fairer_far


@pytest.mark.parametrize(
    ("notes", "intent", "why"),
    [
        ({"age_years": 1}, "natural", "infant"), (asks("shine", "softer"), "natural", "shine"),
        ({"head": "bald"}, "natural", "bald"), ({"hair": "white"}, "soft", "white_hair"), ({}, "even", "not_wanted"),
    ],
)  # fmt: skip
def test_no_light_comes_from_behind_where_it_would_do_harm(notes: Tree, intent: str, why: str) -> None:
    found = aimed(briefs.sitter("A", **notes), intent=intent)
    assert found.no_accent == why
    assert found.accent_band is None


def test_fair_hair_takes_less_light_than_dark() -> None:
    fair, dark = (aimed(briefs.sitter("A", hair=h)).accent_band for h in ("fair", "dark"))
    assert fair is not None
    assert dark is not None
    assert fair.mid > dark.mid  # more stops under the key


def test_a_standard_narrows_every_band_it_names_and_no_other() -> None:
    free = aimed(briefs.sitter("A")).row
    held = aimed(briefs.sitter("A"), key_m=1.4, key_height_deg=35, key_bearing_deg=-30, fill_below_key_stops=1.5,
                 background_lightness=49).row  # fmt: skip
    assert held.fill == Band(1.35, 1.65)
    assert held.ground == Band(46, 52)  # design.md section 6: company standard +-3
    assert held.camera.mid == 30  # a side is no part of it
    assert held.height.low <= 35 <= held.height.high
    # A disc of 1.5 m seen from 1.4 m: 2 atan(0.75/1.4) = 56.4 degrees, geometry
    assert held.source.mid == pytest.approx(56.4, abs=0.1)
    assert held.nose == free.nose
    assert aimed(briefs.sitter("A"), lens_mm=85).row == free


def test_character_for_many_becomes_bold_and_says_so() -> None:
    many = aimed(*(briefs.sitter(f"P{i}") for i in range(4)), intent="character")
    assert many.intent_offered == "bold"
    assert aimed(briefs.sitter("A"), intent="character").intent_offered is None


@pytest.mark.parametrize("better", ["own_left", "own_right"])
def test_the_better_side_faces_the_lens(better: str) -> None:
    tree = briefs.request(briefs.setup("natural"), briefs.sitter("A", better_side=better))
    nose = told(tree).document["setups"][0]["sitters"][0]["nose_bearing_deg"]
    # Own left is the picture's right: it comes forward when the nose turns to camera left (bearing below 0).
    assert (nose < 0) == (better == "own_left")


@pytest.mark.parametrize(("wanted", "shown"), [("shown", "own_left"), ("softer", "own_right")])
def test_a_sided_wish_turns_that_side_to_the_lens_or_away(wanted: str, shown: str) -> None:
    assert aimed(briefs.sitter("A", **asks("scar", wanted, "own_left"))).better == shown


def test_the_mirror_swaps_everybodys_sides() -> None:
    sitter = briefs.sitter("A", better_side="own_left", **asks("scar", "shown", "own_right"))
    mirrored = people(sitter, mirror=True)[0][0]
    assert mirrored.better_side == "own_right"
    assert mirrored.wishes[0].side == "own_left"


def test_the_rows_of_the_intents_stand_in_order() -> None:
    noses = [SINGLE[i].nose.mid for i in ("soft", "even", "natural", "bold")]
    assert noses == sorted(noses)
    assert blended(SINGLE["soft"], SINGLE["bold"], 0.0) == SINGLE["soft"]
    assert blended(SINGLE["soft"], SINGLE["bold"], 1.0).nose == SINGLE["bold"].nose
    # Farther off the same source is smaller: one, two, five, nine people (design.md section 6)
    sizes = [row_for("natural", n, UNCHANGED).source.mid for n in (1, 2, 5, 9)]
    assert sizes == sorted(sizes, reverse=True)


def pose_of(sitters: list[Tree], across_m: float = 8.0) -> Any:
    who, _ = people(*sitters)
    return poses.group(who, Stage(across_m))


def test_a_group_is_centred_on_its_mark() -> None:
    found = pose_of([briefs.sitter(f"S{i}", posture=("seated", "standing")[i % 2]) for i in range(9)])
    for axis in (0, 2):
        assert sum(s.face_m[axis] for s in found.seated) == pytest.approx(0, abs=0.01)


def test_a_child_on_a_lap_sits_before_the_one_named() -> None:
    adult, child = briefs.sitter("Osric"), briefs.sitter("Wilf", age_years=2, posture="lap", keep_with="Osric")
    found = {s.person.label: s for s in pose_of([adult, briefs.sitter("Edda"), child]).seated}
    assert found["Wilf"].face_m[2] > found["Osric"].face_m[2]
    assert abs(found["Wilf"].face_m[0] - found["Osric"].face_m[0]) < 0.2


def test_only_laps_still_make_a_picture() -> None:
    assert len(pose_of([briefs.sitter(f"C{i}", age_years=2, posture="lap") for i in range(2)]).seated) == 2


def test_many_standing_people_make_two_rows_the_short_ones_before() -> None:
    tall = [briefs.sitter(f"P{i}", posture="standing", height_cm=150 + 5 * i) for i in range(8)]
    found = pose_of(tall).seated
    front, back = ([s.face_m[1] for s in found if s.row == n] for n in (1, 2))
    assert max(front) < min(back)


def test_households_stand_together() -> None:
    sitters = [briefs.sitter(f"P{i}", posture="seated", household=f"House {i % 2}") for i in range(6)]
    row = sorted(pose_of(sitters).seated, key=lambda s: s.face_m[0])
    homes = [s.person.sitter.household for s in row]
    assert sum(a != b for a, b in pairwise(homes)) == 1


@pytest.mark.parametrize(("side", "sign"), [("short", 1), ("broad", -1)])
def test_the_face_side_ordered_is_the_side_planned(side: str, sign: int) -> None:
    tree = briefs.request(briefs.setup("natural", face_side=side), briefs.sitter("A"), key_side="camera_right")
    setup = told(tree).document["setups"][0]
    assert setup["sitters"][0]["nose_bearing_deg"] * sign > 0
    assert setup["lights"][0]["side"] == side


def test_stiff_hips_and_neck_keep_the_turn_within_the_limit() -> None:
    stiff = briefs.sitter("A", hip_or_back=True, turn_limit_deg=10)
    setup = told(briefs.request(briefs.setup("natural"), stiff)).document["setups"][0]
    assert abs(setup["sitters"][0]["nose_bearing_deg"]) <= 10


@pytest.mark.parametrize(("limit", "most"), [(0, 0), (3, 3), (13, 13), (40, 20)])
def test_a_body_is_turned_no_further_from_the_face_than_the_neck_was_noted_to_turn(limit: int, most: int) -> None:
    one = briefs.sitter("A", turn_limit_deg=limit)
    (who,) = told(briefs.request(briefs.setup("natural"), one)).document["setups"][0]["sitters"]
    turned = abs(who["body_turn_deg"] - who["nose_bearing_deg"])
    assert turned <= most
    assert most - turned < 5  # and as far as that lets it


def test_seats_with_arms_go_to_those_who_need_them() -> None:
    old, young = briefs.sitter("Old", age_years=80), briefs.sitter("Young", age_years=20)
    who, _ = people(young, old)
    arms = {s["id"]: bool(s.get("arms")) for s in briefs.studio_kit()["seats"]}
    assert arms[str(next(p.seat for p in who if p.label == "Old"))]
    assert len({p.seat for p in who}) == 2  # nothing is used twice
