"""Notes that pull apart are told in the open: said where both are there, silent where one is missing, true in numbers.

Each sentence is held true of every plan of the suite in truths/notes.py; here its numbers are worked out by hand.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from shotplans.planner.words.notes import REASONS
from tests.planner import briefs
from tests.planner.sets import Tree, filled, solved, told
from tests.planner.truths.notes import DARK, GLASSES, HALF, SAID, SOFT, ada, alone, asks, bo, from_face

NOT_CONFLICTS = {"source_larger", "accent_on_dark", "glasses_low"}
# What silences each: the same brief with one of the two notes taken away.
ONE_LESS: dict[str, tuple[str, list[Tree]]] = {
    "glasses_deep_traded": (
        "glasses and deep-set eyes, soft", [alone(SOFT, glasses=GLASSES), alone(SOFT, eyes="deep set")]),
    "brim_glasses": ("a brim over glasses", [alone(HALF, glasses=GLASSES), alone(HALF, head="brim")]),
    "chin_deep": (
        "a chin below deep-set eyes", [alone(HALF, eyes="deep set"), alone(HALF, wishes=asks(("chin", "softer")))]),
    "wishes_in_numbers": (
        "lines softer, a scar shown",
        [alone(HALF, wishes=asks(("lines", "softer"))), alone(HALF, wishes=asks(("scar", "shown")))]),
    "turn_lenses": (
        "thick lenses in a wide face",
        [alone(HALF, face_width="wide"), alone(HALF, glasses={"lens": "strong"})]),
    "wide_narrow": (
        "a wide face beside a narrow one",
        [briefs.request(HALF, [ada(face_width="wide"), bo()]), briefs.request(HALF, [ada(), bo(face_width="narrow")])]),
    "sides_opposed": (
        "the better side not shown",
        [alone(HALF, better_side="own_left"), alone(HALF, wishes=[briefs.wish("scar", "shown", "own_right")])]),
    "hair_of_two": (
        "fair hair beside dark hair",
        [briefs.request(HALF, [ada(hair="fair"), bo()]), briefs.request(HALF, [ada(), bo(hair="dark")])]),
    "bare_on_dark": ("a bald head before a dark ground", [alone(DARK), alone(HALF, head="bald")]),
}  # fmt: skip


def values(tree: Tree, code: str) -> Tree:
    (found,) = [v for c, v in told(tree).reasons if c == code]
    return found


@pytest.mark.parametrize("code", ONE_LESS)
def test_a_conflict_is_told_where_both_notes_are_and_only_there(code: str) -> None:
    name, fewer = ONE_LESS[code]
    assert code in told(SAID[name]).codes()
    for tree in fewer:
        assert code not in told(tree).codes()


def test_every_conflict_is_among_them() -> None:
    assert set(REASONS) - NOT_CONFLICTS - {"glasses_deep_both"} == set(ONE_LESS)


@pytest.mark.parametrize("code", ONE_LESS)
def test_a_conflict_names_both_notes_and_another_way(code: str) -> None:
    document = told(SAID[ONE_LESS[code][0]]).document
    start = REASONS[code].split("{")[0]
    found = [r for r in document["setups"][0]["reasons"] if r["because"].startswith(start)]
    said = [r for r in found if "other way" in r["because"]]
    assert said
    if code != "bare_on_dark":  # there the other side is the ground, not a note
        assert len(set(said[0]["from"])) >= 2


def need_of(tree: Tree) -> float:
    """Height angle of the key's middle the trade asks for: 3 + 2 x chin-up + 5 and half the front (job.md row 19)."""
    setup = told(tree).document["setups"][0]
    far, _, _ = from_face(setup, next(x for x in setup["lights"] if x["role"] == "key"), "Ada")
    key = solved(tree).lights[0]
    assert key.emitter is not None
    across = key.width_m if key.emitter.disc else 0.9 * max(key.width_m, key.height_m)
    return 3 + 2 * setup["sitters"][0]["chin_deg"] + 5 + math.degrees(math.atan(across / 2 / far))


@pytest.mark.parametrize("name", ["glasses and deep-set eyes, soft", "glasses and deep-set eyes, chin up by its limit"])
def test_the_height_glasses_ask_for_is_the_trades_figure(name: str) -> None:
    plan = told(SAID[name])
    (said,) = [v for c, v in plan.reasons if c.startswith("glasses_deep")]
    assert float(said["need"]) == pytest.approx(need_of(SAID[name]), abs=1)
    assert (said["low"], said["high"]) == ("20", "30")  # job.md row 16
    # Each degree of tilt turns the mirror by two: the law of reflection
    assert float(said["tilt"]) == pytest.approx((need_of(SAID[name]) - 20) / 2, abs=1)


def test_a_key_between_both_is_said_to_keep_both() -> None:
    both = [
        v for name in (*SAID, "varied") for c, v in told(SAID[name] if name in SAID else
        briefs.varied()["glasses and deep-set eyes"]).reasons if c == "glasses_deep_both"
    ]  # fmt: skip
    assert both
    for said in both:
        assert float(said["need"]) - 1 <= float(said["height"]) <= float(said["high"]) + 1


def test_chin_and_eyes_are_searched_between() -> None:
    said = values(SAID["a chin below deep-set eyes"], "chin_deep")
    # 20 to 30 for the eyes, three degrees up for the chin: job.md rows 16 and 17
    assert (said["low"], said["most"], said["up"]) == ("23", "33", "3")


def test_the_opposite_wishes_are_put_in_degrees_on_either_side_of_what_is_kept() -> None:
    found = values(SAID["lines softer, a scar shown"], "wishes_in_numbers")
    said = {k: float(v) for k, v in found.items() if k != "label"}
    assert said["soft_high"] < said["high"] < said["shown_high"]
    assert said["soft_low"] < said["low"] < said["shown_low"]
    # Softer pulls 60 % of the way from 28-40 to 10-25, then 3 and 5 degrees nearer: arithmetic on design.md section 6
    assert said["soft_low"] == pytest.approx(28 - 0.6 * 18 - 3, abs=0.5)
    assert said["soft_high"] == pytest.approx(40 - 0.6 * 15 - 5, abs=0.5)


def test_thick_lenses_win_over_the_turn_of_a_wide_face() -> None:
    setup = told(SAID["thick lenses in a wide face"]).document["setups"][0]
    assert abs(setup["sitters"][0]["nose_bearing_deg"]) == 20  # job.md row 21, value from memory
    wide = told(alone(HALF, face_width="wide")).document["setups"][0]
    assert abs(wide["sitters"][0]["nose_bearing_deg"]) == 30  # job.md row 14


def test_the_better_side_leads_over_a_wish_about_the_other() -> None:
    tree = SAID["the better side not shown"]
    # Own left is the picture's right and comes forward when the nose turns to camera left
    assert told(tree).document["setups"][0]["sitters"][0]["nose_bearing_deg"] < 0
    assert values(tree, "sides_opposed")["forward"] == "to camera left"


def test_the_light_on_two_kinds_of_hair_keeps_to_the_fairer() -> None:
    said = values(SAID["fair hair beside dark hair"], "hair_of_two")
    assert (said["low"], said["high"], said["level"]) == ("1.5", "2.5", "2")  # design.md section 6: 2 for fair hair
    assert float(said["less"]) == pytest.approx(2 - 1.0)  # one stop under the key for dark hair: job.md row 22


def test_several_light_haired_people_are_no_conflict() -> None:
    both = briefs.request(HALF, [ada(hair="fair"), bo(hair="white")])
    assert "hair_of_two" not in told(both).codes()


def test_a_light_low_for_somebodys_glasses_is_named_once_with_who_is_worst_off() -> None:
    pair = briefs.request(HALF, [ada(glasses=GLASSES, chin_limit_deg=0), bo(glasses=GLASSES, head="brim")])
    low = [v for c, v in told(pair).reasons if c == "glasses_low"]
    letters = [v["letter"] for v in low]
    assert letters
    assert len(set(letters)) == len(letters)
    assert {v["label"] for v in low} == {"Ada"}  # her chin cannot go down, so she asks for more


def test_the_rules_of_a_request_reach_the_conflict() -> None:
    own = SAID["glasses and deep-set eyes, soft"] | {
        "rules": [{"rule": "glasses", "number": "slack_deg", "value": 0}]
    }  # fmt: skip
    before, after = (
        next(v for c, v in told(t).reasons if c.startswith("glasses_deep"))
        for t in (SAID["glasses and deep-set eyes, soft"], own)
    )
    assert filled(own).rules
    assert float(after["need"]) < float(before["need"])


def test_a_conflict_of_a_whole_group_is_not_kept_silent() -> None:
    people: list[Any] = [briefs.sitter(f"Person {i}", posture="seated") for i in range(6)]
    people[1] |= {"glasses": GLASSES}
    people[4] |= {"eyes": "deep set"}
    codes = told(briefs.request(briefs.setup("natural", "group"), people)).codes()
    assert codes & {"glasses_deep_both", "glasses_deep_traded"}
