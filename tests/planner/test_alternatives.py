"""Other ways to do a set-up: of another kind, as good as they say, and never breaking what the plan keeps.

What belongs here: alternatives.py and the sentences that say how a way differs and what it costs.
"""

from __future__ import annotations

import json
import re
from functools import cache
from itertools import combinations
from typing import Any

import pytest

from shotplans.planner import alternatives, words
from shotplans.planner import document as printed
from shotplans.planner.alternatives import Way, differing
from shotplans.planner.outcome import outcome
from shotplans.planner.plan import Solved
from shotplans.planner.solve_setup import Answer, solve
from tests.planner import briefs
from tests.planner.contract import faults
from tests.planner.sets import Tree, filled, solved, told

MANY = {name: briefs.demo(name) for name in briefs.DEMO} | {
    name: tree for name, tree in briefs.varied().items()
    if name in ("two set-ups", "a couple, bold", "natural, one sitter")
}  # fmt: skip


def answers(tree: Tree) -> list[Answer]:
    return _answers(json.dumps(tree))


@cache
def _answers(text: str) -> list[Answer]:
    request = filled(json.loads(text))
    found = [solve(request, s) for s in request.brief.setups]
    return [a for a in found if isinstance(a, Answer)]


def ways(tree: Tree, which: int = 0) -> list[Way]:
    """Every way that can be built, the chosen ones or not."""
    return _ways(json.dumps(tree), which)


@cache
def _ways(text: str, which: int) -> list[Way]:
    every, request = _answers(text), filled(json.loads(text))
    others = [a.best for a in every if a is not every[which]]
    broken = {p.limit for p in outcome(request, every[which].best).problems}
    return list(alternatives._ways(request, every[which], others, broken))


def of_kind(tree: Tree, kind: str, which: int = 0) -> Way:
    found = [w for w in ways(tree, which) if w.kind == kind]
    assert found, f"no way of kind {kind}"
    return found[0]


def heads(one: Solved) -> int:
    return sum(x.emitter is not None for x in one.lights)


@pytest.mark.parametrize("name", MANY)
def test_a_plan_shows_up_to_two_ways_of_different_kinds(name: str) -> None:
    for entry in told(MANY[name], ways=True).document["setups"]:
        kinds = [a["kind"] for a in entry["alternatives"]]
        assert len(kinds) <= 2
        assert len(set(kinds)) == len(kinds)


def test_every_demo_sitting_has_another_way() -> None:
    for name in briefs.DEMO:
        for entry in told(briefs.demo(name), ways=True).document["setups"]:
            assert entry["alternatives"], f"{name}, {entry['name']}"


@pytest.mark.parametrize("name", briefs.DEMO)
def test_another_way_printed_in_the_plans_place_keeps_the_contract(name: str) -> None:
    """Its lights and numbers are laws of light and place too: the same independent check, nothing left out."""
    tree = briefs.demo(name)
    for number, answer in enumerate(answers(tree)):
        setup = answer.best.setup.name
        for way in ways(tree, number):
            if {p.limit for p in way.outcome.problems}:
                continue
            document = dict(told(tree, ways=True).document)
            entry = next(s for s in document["setups"] if s["name"] == setup)
            instead = entry | printed.setup(way.solved) | {
                "meter_round": way.outcome.meter_round, "expected": way.outcome.expected, "reasons": [],
            }  # fmt: skip
            document["setups"] = [instead if s["name"] == setup else s for s in document["setups"]]
            told_off = [f for f in faults(tree, document) if "not packed" not in f]
            assert told_off == [], way.kind


def test_the_modifier_is_of_another_kind() -> None:
    tree = briefs.demo("askew")
    way, best = of_kind(tree, "modifier"), solved(tree)
    kinds = [x.lights[0].emitter.modifier.kind for x in (way.solved, best) if x.lights[0].emitter]
    assert len(set(kinds)) == 2


def test_fewer_lights_are_fewer() -> None:
    tree = briefs.demo("tarrant")
    way = of_kind(tree, "fewer", 1)
    assert heads(way.solved) < heads(solved(tree, 1))
    assert way.values == {"heads": heads(way.solved), "was": heads(solved(tree, 1))}


TWO = briefs.request(
    [briefs.setup("soft"), briefs.setup("character", tone="dark") | {"name": "the other"}], briefs.sitter("Ada"),
    briefs.room(9, 6, 3.2),
)  # fmt: skip


def test_from_what_is_packed_takes_nothing_that_the_other_set_ups_do_not() -> None:
    every = answers(TWO)
    found = [w for n in range(2) for w in ways(TWO, n) if w.kind == "packed"]
    assert found
    for way in found:
        packed = {p for a in every if a.best.setup.name != way.solved.setup.name for p in alternatives._pieces(a.best)}
        own = next(a.best for a in every if a.best.setup.name == way.solved.setup.name)
        assert set(alternatives._pieces(way.solved)) <= packed
        assert set(way.values["spared"].split(", ")) == set(alternatives._pieces(own)) - packed


def test_the_other_side_is_the_mirror_with_the_same_numbers() -> None:
    tree = briefs.demo("askew")
    way, best = of_kind(tree, "side"), solved(tree)
    assert way.solved.lights[0].bearing_deg == -best.lights[0].bearing_deg
    ours = outcome(filled(tree), best).expected
    # The set stands on the room's middle line, so its mirror reads alike: symmetry
    same = [k for k in ours if k not in ("per_sitter", "worst_pair")]
    assert {k: way.outcome.expected[k] for k in same} == {k: ours[k] for k in same}


def test_no_other_side_where_it_is_ordered_or_serves_somebody() -> None:
    ordered = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela"), key_side="camera_left")
    sided = briefs.request(briefs.setup("natural"), briefs.sitter("Mirela", better_side="own_left"))
    assert not [w for tree in (ordered, sided) for w in ways(tree) if w.kind == "side"]


def test_the_other_way_of_the_room_is_along_its_other_side() -> None:
    tree = briefs.demo("marrowfield")
    way = of_kind(tree, "facing")
    assert way.solved.box.axis != answers(tree)[0].best.box.axis
    assert all(x.mounting is not None for x in way.solved.lights)


@pytest.mark.parametrize("name", MANY)
def test_those_shown_differ_most_of_what_can_be_built_and_keeps_the_limits(name: str) -> None:
    """The two shown differ from the plan and from each other in no fewer kinds than any other two of different kind."""
    tree = MANY[name]
    request = filled(tree)
    for number, answer in enumerate(answers(tree)):
        kept = {p.limit for p in outcome(request, answer.best).problems}
        good = [w for w in ways(tree, number) if {p.limit for p in w.outcome.problems} <= kept]
        pairs = [p for p in combinations(good, 2) if p[0].kind != p[1].kind]
        entry = next(s for s in told(tree, ways=True).document["setups"] if s["name"] == answer.best.setup.name)
        if not pairs:
            assert len(entry["alternatives"]) == min(1, len(good))
            continue
        most = max(_apart(answer.best, pair) for pair in pairs)
        kinds = tuple(a["kind"] for a in entry["alternatives"])
        assert any(_apart(answer.best, p) == most and (p[0].kind, p[1].kind) == kinds for p in pairs)


def _apart(best: Solved, pair: tuple[Way, ...]) -> int:
    return sum(differing(a, b) for a, b in combinations([best, *(w.solved for w in pair)], 2))


@pytest.mark.parametrize("name", MANY)
def test_a_cost_is_the_ways_own_number_and_its_difference_from_the_plans(name: str) -> None:
    for entry in told(MANY[name], ways=True).document["setups"]:
        for other in entry["alternatives"]:
            ours, own = _weighed(entry, entry["lights"]), _weighed(other, other["lights"])
            for key, (number, by) in _said(other["costs"]).items():
                assert float(number) == pytest.approx(own[key], abs=0.51 if key == "edge" else 0.006), key
                assert float(by) == pytest.approx(float(number) - ours[key], abs=0.51 if key == "edge" else 0.006), key
                assert float(by) != 0


SAID = {
    "edge": r"nose shadow's edge (\S+) mm \((\S+)\)", "relief": r"relief (\S+) stops \((\S+)\)",
    "fill": r"fill and bounce (\S+) stops under the key \((\S+)\)", "faces": r"faces within (\S+) stop \((\S+)\)",
    "heads": r"heads to set (\S+) \((\S+)\)",
}  # fmt: skip


def _said(costs: str) -> dict[str, tuple[str, str]]:
    found = {key: re.search(form, costs, re.I) for key, form in SAID.items()}
    return {key: (m.group(1), m.group(2)) for key, m in found.items() if m}


def _weighed(entry: Tree, lights: list[Tree]) -> dict[str, Any]:
    block = entry["expected"]
    relief = [s["relief_stops"] for s in block["per_sitter"]]
    return {
        "edge": block["shadow_edge_mm"], "relief": sum(relief) / len(relief), "fill": block["fill_below_key_stops"],
        "faces": block["evenness_stops"], "heads": sum(x["head"] is not None for x in lights),
    }  # fmt: skip


def test_what_is_the_same_is_said_to_be_the_same() -> None:
    setup = told(briefs.demo("askew"), ways=True).document["setups"][0]
    way = next(a for a in setup["alternatives"] if a["kind"] == "side")
    assert way["costs"] == "No number of the plan changes."


def test_a_light_that_is_left_out_is_named() -> None:
    found = [
        a for n in briefs.DEMO for s in told(briefs.demo(n), ways=True).document["setups"] for a in s["alternatives"]
        if a["kind"] == "fewer"
    ]  # fmt: skip
    assert found
    assert all("no " in a["costs"] or a["costs"].startswith("No ") for a in found)


def test_every_kind_has_its_sentence() -> None:
    met = {w.kind for tree in (*MANY.values(), TWO) for n in range(len(answers(tree))) for w in ways(tree, n)}
    assert met == set(words.ways.DIFFERS)
