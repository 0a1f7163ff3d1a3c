"""The rules as a studio keeps them: a table that can be edited, read by the planner, and refused where it cannot hold.

What each rule does to a plan is in test_consultation.py; here is that its numbers, and no constant beside them, do it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from unittest.mock import patch

import pytest

from shotplans.planner import codec, rules, set_changes, shot_case
from shotplans.planner.consequence import Asked, Consequence
from shotplans.planner.intents import SINGLE, Band
from shotplans.planner.pictures import Cast, Picture
from shotplans.planner.rules import RULES, UNCHANGED, House
from shotplans.planner.rules_of_intents import row_for
from shotplans.planner.solve import plan
from shotplans.planner.words.consequences import CONSEQUENCES
from tests.planner import briefs, shot_days
from tests.planner.briefs import ada
from tests.planner.sets import Tree, told
from tests.planner.smallest import everything, put, raw, spoilt
from tests.planner.test_check import one

NUMBERS = [(code, name) for code, rule in RULES.items() for name in rule.numbers]


def change(rule: str, number: str, value: float) -> Tree:
    return {"rule": rule, "number": number, "value": value}


def changed(tree: Tree, *changes: tuple[str, str, float]) -> Tree:
    return tree | {"rules": [change(*c) for c in changes]}


@pytest.mark.parametrize("code", RULES)
def test_a_rule_says_when_and_why_in_plain_sentences(code: str) -> None:
    rule = RULES[code]
    assert re.fullmatch(r"[a-z][a-z0-9_]*", code)
    assert rule.when[0].isupper()
    assert not rule.when.endswith(".")
    assert rule.because[0].isupper()
    assert rule.because.endswith(".")
    assert rule.source


@pytest.mark.parametrize(("code", "name"), NUMBERS)
def test_a_number_has_words_a_unit_and_a_first_value_inside_its_range(code: str, name: str) -> None:
    number = RULES[code].numbers[name]
    assert number.words
    assert number.unit
    assert number.low <= number.value <= number.high
    assert number.low < number.high


def test_the_house_as_it_comes_crosses_no_pair() -> None:
    assert list(rules.crossed(UNCHANGED)) == []
    # One end beyond the other is named, whichever was moved
    assert list(rules.crossed(House({("deep_set", "height_low_deg"): 40}))) == [
        ("deep_set", "height_low_deg", "height_high_deg")
    ]


def test_every_band_of_an_intent_is_two_numbers() -> None:
    for name, row in SINGLE.items():
        bands = [b for b in ("nose", "camera", "height", "source", "fill", "ground", "accent", "relief")
                 if getattr(row, b) is not None]  # fmt: skip
        assert len(RULES[f"intent_{name}"].numbers) == 2 * len(bands) + 1  # and how alike the faces are
        assert row_for(name, 1, UNCHANGED) == row


@pytest.mark.parametrize(
    ("people", "rule", "low", "high"),
    [(1, "intent_soft", "nose_low_deg", "nose_high_deg"),
     (2, "intent_couple_soft", "camera_low_deg", "camera_high_deg"),
     (4, "intent_group_small", "height_low_deg", "height_high_deg"),
     (9, "intent_group_large", "source_low_deg", "source_high_deg")],
)  # fmt: skip
def test_a_studios_own_band_is_the_one_planned_with(people: int, rule: str, low: str, high: str) -> None:
    own = row_for("soft", people, House({(rule, low): 11, (rule, high): 22}))
    assert getattr(own, low.split("_")[0]) == Band(11, 22)


def test_the_size_of_a_large_group_is_the_studios() -> None:
    at_six, at_nine = (row_for("soft", 6, House({("group_large", "people"): n})).height for n in (6, 9))
    assert at_six != at_nine


FAULTS = [
    ([change("older_pear", "heads_apart_m", 0.5)], "rules[0].rule: 'older_pear' is no rule"),
    ([change("older_pair", "heads_m", 0.5)], "rules[0].number: 'heads_m' is no number of 'older_pair'"),
    ([change("older_pair", "heads_apart_m", 5)], "rules[0].value: is 5, expected 0.3 to 0.8 m"),
    ([change("older_pair", "heads_apart_m", 0.5)] * 2, "rules[1]: a second value for 'heads_apart_m' of 'older_pair'"),
    ([change("deep_set", "height_low_deg", 40)], "rules[0].value: puts 'height_low_deg' of 'deep_set' above"),
    ([{"rule": "older_pair", "number": "heads_apart_m"}], "rules[0].value: missing"),
    ([change("older_pair", "heads_apart_m", 0.5) | {"why": "taste"}], "rules[0].why: "),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "says"), FAULTS)
def test_a_change_that_cannot_hold_is_a_fault_with_its_path(changes: list[Tree], says: str) -> None:
    with pytest.raises(codec.Unreadable) as refused:
        codec.read_request(spoilt(put("rules", changes)))
    assert [line.replace('"', "'") for line in refused.value.faults if line.replace('"', "'").startswith(says)]


def test_a_pair_moved_together_is_no_fault() -> None:
    changes = [change("deep_set", "height_low_deg", 35), change("deep_set", "height_high_deg", 40)]
    codec.read_request(spoilt(put("rules", changes)))


def test_a_changed_rule_changes_the_fingerprint() -> None:
    before = codec.fingerprint(codec.read_request(raw(everything())))
    own = codec.read_request(spoilt(put("rules", [change("older_pair", "heads_apart_m", 0.5)])))
    assert codec.fingerprint(own) != before


def apart(tree: Tree) -> float:
    first, second = told(tree).document["setups"][0]["sitters"]
    return float(abs(first["face_m"][0] - second["face_m"][0]))


def test_feature_67_the_plan_follows_the_owner_s_number_for_an_older_pair() -> None:
    """The owner moves the heads of an older pair apart without code: the two faces of the plan follow."""
    assert apart(briefs.demo("askew")) == pytest.approx(0.45, abs=0.005)  # design.md section 9
    assert apart(changed(briefs.demo("askew"), ("older_pair", "heads_apart_m", 0.6))) == pytest.approx(0.60, abs=0.005)


def first(tree: Tree) -> Tree:
    setup: Tree = told(tree).document["setups"][0]
    return setup


def asks(note: str) -> Tree:
    return {"wishes": [briefs.wish(note, "softer")]}


HALF, DARK = briefs.setup("natural", "half"), briefs.setup("even", tone="dark")
PAIR = [ada(age_years=70), briefs.sitter("Bo", age_years=70)]
MOVES: dict[str, tuple[Tree, tuple[str, str, float], Callable[[Tree], Any]]] = {
    "the key's height for deep-set eyes": (
        one(HALF, ada(eyes="deep set")), ("deep_set", "height_high_deg", 22),
        lambda s: s["lights"][0]["height_angle_deg"]),
    "the chin behind glasses": (
        one(HALF, ada(glasses={})), ("glasses", "chin_down_deg", 6), lambda s: s["sitters"][0]["chin_deg"]),
    "the camera over a chin": (
        one(HALF, ada(**asks("chin"))), ("chin_softer", "camera_up_cm", 25), lambda s: s["camera"]["height_m"]),
    "the turn of a wide face": (
        one(HALF, ada(face_width="wide")), ("face_wide", "turn_low_deg", 20),
        lambda s: s["sitters"][0]["nose_bearing_deg"]),
    "the turn with thick lenses": (
        one(HALF, ada(glasses={"lens": "strong"}, face_width="wide")), ("lenses_strong", "turn_most_deg", 10),
        lambda s: s["sitters"][0]["nose_bearing_deg"]),
    "how far a wish moves the light": (
        one(HALF, ada(**asks("lines"))), ("lines_softer", "pull_share", 0),
        lambda s: s["lights"][0]["bearing_from_nose_deg"]),
    "an intent's band": (one(HALF, ada()), ("intent_natural", "nose_high_deg", 29),
                         lambda s: s["lights"][0]["bearing_from_nose_deg"]),
}  # fmt: skip


@pytest.mark.parametrize("what", MOVES)
def test_the_plan_follows_the_studios_own_number(what: str) -> None:
    tree, own, read = MOVES[what]
    assert read(first(changed(tree, own))) != read(first(tree))


def test_what_is_said_follows_the_studios_own_number() -> None:
    tree = one(HALF, PAIR, minutes=90)
    own = changed(tree, ("older_pair", "sitting_minutes", 25), ("blink", "frames_least", 6))
    said = [c["says"] for c in told(own).document["consequences"]]
    assert [s for s in said if s.startswith("Seated 25 minutes at most")]
    assert [s for s in said if s.startswith("6 frames of everybody")]
    assert told(own).document["shots"][0]["frames"] == 6


def test_a_share_of_a_frame_is_a_frame_more() -> None:
    tree = one(HALF, ada(), copy_space="right")
    own = changed(tree, ("blink", "frames_least", 3.5), ("space_for_words", "more_frames", 0.5))
    assert told(own).document["shots"][0]["frames"] == 4 + 1


NOTED = {
    "glasses": {"lens": "strong"}, "eyes": "deep set", "face_width": "wide", "hair": "fair", "skin": "very light",
    "sensory": True, "hearing": True, "low_vision": True, "tremor": True, "shy": True, "broad_seat": True,
    "big_hair": True, "hip_or_back": True, "stand_minutes": 4, "head": "usual",
    "clothes": {"tone": "light", "shiny": True, "pattern": True, "bare_arms": True},
    "wishes": [briefs.wish(n, "softer") for n in ("lines", "chin", "nose", "width")],
}  # fmt: skip
WORN = [
    # together they read every number there is; what each does is in test_consultation.py
    one(HALF, ada(**NOTED), print_width_cm=80, viewing_m=2, furniture_width_cm=120, crops=[1], copy_space="left",
        event_in_days=40, decider_present=False, minutes=60, standard={"head_share": 0.4}),
    one(HALF, ada(wishes=[briefs.wish("lines", "shown"), briefs.wish("scar", "softer")], skin="dark")),
    one(HALF, ada(wishes=[briefs.wish("lines", "shown")], glasses={"lens": "reactive"}, head="brim", no_flash=True)),
    one(briefs.setup("soft", "half", "dark"), ada(head="bald", **asks("shine"))),
    one(DARK, ada(hair="dark")), one(DARK, ada(clothes={"tone": "dark"})), one(DARK, ada(skin="dark")),
    one(briefs.setup("soft", "half", "dark"), ada(hair="dark")), one(HALF, ada(hair="dark")),
    one(briefs.setup("soft", "half"), ada(hair="fair")), one(HALF, ada(face_width="narrow")),
    one(HALF, PAIR, where=briefs.room(5, 2.9, 2.5)),
    one(HALF, [ada(skin="very light", age_years=0.1, height_cm=55, posture="floor"),
               briefs.sitter("Bo", skin="dark", age_years=9, height_cm=130, posture="wheelchair")]),
    one(HALF, ada(age_years=2, height_cm=87, posture="floor")),
    one(briefs.setup("soft", "group"), briefs.family(4)), one(briefs.setup("soft", "group"), briefs.family(8)),
]  # fmt: skip


def test_no_number_stands_in_the_table_unread() -> None:
    """A number nobody reads would be a promise to the owner that nothing keeps."""
    read: set[tuple[str, str]] = set()
    number, printed = House.number, Consequence.printed

    def heard(self: House, rule: str, name: str) -> float:
        read.add((rule, name))
        return number(self, rule, name)

    def blanks(self: Any, rule: str) -> dict[str, str]:
        return {name: f"{number(self.house, rule, name):g}" for name in RULES[rule].numbers}

    def worded(self: Consequence) -> Tree:
        read.update((self.rule, name) for name in re.findall(r"{([a-z_]+)}", CONSEQUENCES[self.code]))
        return printed(self)

    # Every blank of a rule's sentence is filled from the whole rule; only what something asks for or a sentence prints
    # counts as read.
    with (
        patch.object(House, "number", heard),
        patch.object(Asked, "blanks", blanks),
        patch.object(Consequence, "printed", worded),
    ):
        hall = shot_days.arrangement("hall", ["A"])
        set_changes.minutes(hall, shot_days.arrangement("yard", ["A"], ground="canvas", iso=200))
        ada = codec.understand(one(briefs.setup("soft", "half"), [briefs.sitter("A", posture="seated")])).sitters[0]
        cast = Cast(None, [hall], {"A": ada}, frozenset({"hall"}))  # type: ignore[arg-type]
        shot_case.most(cast, Picture("hall", ("A",), "half", "", True), UNCHANGED)
        for intent in SINGLE:
            for people in (1, 2, 4, 9):
                row_for(intent, people, UNCHANGED)
        for tree in WORN:
            plan(codec.understand(tree))
    assert set(NUMBERS) - read == set()
