"""What is said and how: the catalogue, the plan as text, the packing list, the shot list, loads and patterns."""

from __future__ import annotations

import re
import string
from typing import Any

import pytest

from shotplans.planner import circuits, pattern, pose_cards, words
from shotplans.planner.describe import text
from tests.planner import briefs
from tests.planner.sets import Tree, filled, solved, told
from tests.planner.test_check import BOOM, car, one
from tests.planner.truths import PARTS

SENTENCES = [
    *(s for pair in words.PROBLEMS.values() for s in pair), *words.REASONS.values(), *words.SIDE_WHY.values(),
    *words.CAUTIONS.values(),
]  # fmt: skip
TENTHS = re.compile(r"(exact|accurate|guarantee|to a tenth|within a tenth)", re.I)
ALIKE = briefs.request(briefs.setup("even"), briefs.sitter("Mirela"))


@pytest.mark.parametrize("sentence", SENTENCES)
def test_a_sentence_promises_no_tenth_and_ends_as_a_sentence(sentence: str) -> None:
    assert not TENTHS.search(sentence)
    assert "  " not in sentence
    if sentence not in words.SIDE_WHY.values():
        assert sentence[0].isupper() or sentence.startswith(("{", "f/"))
        assert sentence.endswith((".", "{which}.", "}."))


def test_every_blank_in_the_catalogue_has_a_plain_name() -> None:
    for sentence in SENTENCES:
        for _, name, _, _ in string.Formatter().parse(sentence):
            assert name is None or re.fullmatch(r"[a-z_]+", name)


def test_a_problem_says_how_much_is_missing() -> None:
    says, mend = words.problem("too_high", {"letter": "B"}, 0.35)
    assert says == "Light B is above the reach of its stand."
    assert mend == "A stand 0.35 m taller."


NOTES = {"hearing": True, "low_vision": True, "tremor": True, "sensory": True, "stand_minutes": 3}
WORN = {"tone": "light", "shiny": True, "pattern": True, "bare_arms": True}
LAMPS = [briefs.studio_kit()["heads"][-1] | {"flicker_free": False}]
WARM = [m | {"max_modelling_watts": 62} for m in car()["modifiers"]]
CAUTIOUS = {
    "one flash": one(),
    "no flash": briefs.request(briefs.setup("even"), briefs.sitter("Nell", no_flash=True)),
    "a modelling lamp near its modifier's limit": one(kit=car(modifiers=WARM)),
    "a lamp that may flicker": one(kit=car(heads=LAMPS)),
    "a boom": one(kit=car(stands=[BOOM | {"counterweight_kg": 9}])),
    "old and young": one(briefs.setup("natural", "half"), [briefs.sitter("Old", age_years=70),
                                                           briefs.sitter("Young", age_years=2, posture="lap")]),
    "notes and clothes": one(sitter=briefs.sitter("Ada", clothes=WORN, **NOTES)),
}  # fmt: skip
for part in PARTS:
    CAUTIOUS |= part.CAUTIOUS


def starts(sentence: str) -> str:
    return re.escape(sentence).replace(r"\{", "{").replace(r"\}", "}")


def test_every_caution_is_met() -> None:
    said = [c for tree in CAUTIOUS.values() for c in told(tree).document["cautions"]]
    for code, sentence in words.CAUTIONS.items():
        form = re.compile(re.sub(r"\{[a-z_]+\}", ".+", starts(sentence)))
        assert any(form.fullmatch(s) for s in said), code
    assert not any("None" in s for s in said)


def test_cautions_name_nobody() -> None:
    for tree in CAUTIOUS.values():
        labels = [s["label"] for s in tree["sitters"]]
        assert not [c for c in told(tree).document["cautions"] for name in labels if re.search(rf"\b{name}\b", c)
                    and name != "Old"]  # fmt: skip


def test_the_text_says_what_the_document_says() -> None:
    document = told(briefs.demo("tarrant")).document
    shown = text(document)
    for setup in document["setups"]:
        assert f"Set-up: {setup['name']} ({setup['intent']})" in shown
        for light in setup["lights"]:
            assert f"{light['distance_m']:.2f} m" in shown
            assert str(light["dial"] or light["panel"]) in shown
        assert setup["camera"]["nearest_third"] in shown
    flat = " ".join(shown.split())
    for setup in document["setups"]:
        for reason in setup["reasons"]:
            assert " ".join(reason["because"].split()) in flat.replace("- ", "- ")
    assert "No limit is broken." in shown
    assert max(map(len, shown.splitlines())) <= 125


def test_a_ground_above_the_setting_is_read_as_over_it() -> None:
    tree = briefs.request(briefs.setup("bright", tone="white"), briefs.sitter("Mirela"))
    below = told(tree).document["setups"][0]["background"]["reading_below_setting_stops"]
    assert below < 0
    assert f"{-below:.1f} stops over the setting" in text(told(tree).document)


def test_lengths_are_read_in_feet_where_the_house_counts_in_feet() -> None:
    shown = text(told(ALIKE).document, "imperial")
    light = told(ALIKE).document["setups"][0]["lights"][0]
    feet = int(light["distance_m"] / 0.3048)  # a foot is 0.3048 m, by definition
    assert re.search(rf"A key +{feet} ?(ft|')", shown)


def test_a_problem_and_an_unlit_set_up_can_be_read() -> None:
    shown = text(told(one(kit=car(heads=[]))).document)
    assert "No usable light: see the problems." in shown
    assert "[kit] the picture: There is no head in the free kit" in shown


@pytest.mark.parametrize("tree", [CAUTIOUS["a boom"], briefs.demo("dorrow"), one(sitter=[
    briefs.sitter(f"Person {i}", height_cm=150 + 8 * i) for i in range(4)])])  # fmt: skip
def test_any_plan_can_be_read(tree: Tree) -> None:
    assert "Meter round" in text(told(tree).document)


def test_everything_the_plan_uses_is_packed() -> None:
    for name in ("askew", "dorrow", "marrowfield"):
        document = told(briefs.demo(name)).document
        packed = {row["item"] for row in document["packing"]}
        for setup in document["setups"]:
            for light in setup["lights"]:
                assert {v for k in ("head", "modifier", "adapter", "stand", "panel") if (v := light[k])} <= packed
            assert {setup["camera"]["body"], setup["camera"]["lens"], setup["background"]["id"]} <= packed
            assert {s["seat"] for s in setup["sitters"] if s["seat"]} <= packed


def test_a_boom_is_packed_with_its_weight_and_cord() -> None:
    packed = {row["item"] for row in told(CAUTIOUS["a boom"]).document["packing"]}
    assert "safety cord" in packed
    assert any(item.startswith("counterweight ") for item in packed)


def test_what_the_house_has_none_of_is_packed_in_words() -> None:
    bare = one(kit=car(weights=[], triggers=[]))
    packed = {row["item"]: row["count"] for row in told(bare).document["packing"]}
    assert packed["trigger with a spare battery"] == 1
    assert packed["sandbag"] == len([x for x in told(bare).document["setups"][0]["lights"] if x["stand"]])


@pytest.mark.parametrize(
    ("notes", "says"),
    [
        ({"posture": "wheelchair"}, "brakes"), ({"age_years": 4}, "within reach"), ({"age_years": 80}, "Well back"),
        ({"hip_or_back": True}, "Well back"), ({}, "Front half"), ({"posture": "standing"}, "back foot"),
    ],
)  # fmt: skip
def test_a_cue_suits_the_sitter(notes: Tree, says: str) -> None:
    who = filled(briefs.request(briefs.setup("even"), briefs.sitter("Ada", **notes))).sitters
    assert says in pose_cards.said(pose_cards.printed(pose_cards.HOUSE[pose_cards.kind_of(who)], who))


def test_must_comes_before_wished_and_seated_before_standing() -> None:
    people = [briefs.sitter("Ada"), briefs.sitter("Bo", posture="standing")]
    tree = one(
        briefs.setup("natural", "half"), people, must=["Bo alone", "Ada alone"], wished=["Both laughing"], minutes=40
    )
    shots = told(tree).document["shots"]
    assert [s["must"] for s in shots] == sorted((s["must"] for s in shots), reverse=True)
    alone = [s["who"] for s in shots if len(s["who"]) == 1]
    assert alone[0] == ["Ada"]
    assert 0 < sum(s["minutes"] for s in shots) <= 40


def test_the_heaviest_head_goes_where_most_is_left() -> None:
    lit = solved(briefs.demo("askew")).lights
    room = filled(briefs.request(briefs.setup("even"), briefs.sitter("A"))).room
    rows = circuits.loads(lit, room.circuits)
    heads = [x.emitter.head for x in lit if x.emitter]
    assert sum(r["watts"] for r in rows) == pytest.approx(
        sum(circuits.drawn(h.watts, h.modelling_watts, h.light) for h in heads)
    )
    # Four fifths of 230 V and 16 A: the rule of values.md G05
    assert {r["limit_watts"] for r in rows} == {0.8 * 230 * 16}
    assert circuits.loads(lit, ()) == []


PATTERNS = [(0, 30, "butterfly"), (5, 5, "flat front"), (30, 30, "loop"), (50, 35, "triangle"), (50, 20, "open loop"),
            (70, 30, "half-light"), (90, 20, "split"), (130, 20, "edge")]  # fmt: skip


@pytest.mark.parametrize(("off", "height", "name"), PATTERNS)
def test_a_pattern_has_the_same_name_on_both_sides(off: float, height: float, name: str) -> None:
    assert pattern.name(off, height) == pattern.name(-off, height) == name  # borders: common practice, no source


@pytest.mark.parametrize(
    ("nose", "off", "side"), [(20, 30, "short"), (20, -30, "broad"), (0, 30, "none"), (20, 1, "none")]
)
def test_short_light_falls_on_the_far_cheek(nose: float, off: float, side: str) -> None:
    assert pattern.side(nose, off) == pattern.side(-nose, -off) == side


def test_no_plan_names_a_maker() -> None:
    said: list[Any] = [told(briefs.demo(name)).document for name in briefs.DEMO]
    assert not re.search(r"[®™]", str(said))
