"""The plan as text: how sure, what to read first, other ways and what follows from the notes are in it.

What belongs here: that the text holds what the document holds. Its older parts are looked at in test_words.py.
"""

from __future__ import annotations

import pytest

from shotplans.planner.describe import text
from tests.planner import briefs
from tests.planner.sets import Tree, told
from tests.planner.test_check import car, one


def flat(document: Tree) -> str:
    return " ".join(text(document).split())


@pytest.mark.parametrize("name", briefs.DEMO)
def test_how_sure_the_setting_is_and_what_to_read_first_are_told(name: str) -> None:
    document = told(briefs.demo(name)).document
    said = flat(document)
    for entry in document["setups"]:
        e, parts = entry["expected"], entry["expected"]["setting_uncertainty_parts"]
        assert f"give or take {e['setting_uncertainty_stops']:g} stop (heads {parts['output']:g}," in said
        assert " ".join(entry["teaches_most"]["because"].split()) in said


@pytest.mark.parametrize("name", briefs.DEMO)
def test_other_ways_are_told_with_their_costs_and_their_lights(name: str) -> None:
    document = told(briefs.demo(name), ways=True).document
    said = flat(document)
    for entry in document["setups"]:
        for other in entry["alternatives"]:
            assert f"{other['differs']} {other['costs']}" in said
            for light in other["lights"]:
                assert f"{light['letter']} {light['role']} {light['modifier'] or light['panel']}" in said


def test_what_follows_from_the_notes_is_told() -> None:
    document = told(briefs.demo("askew")).document
    said = flat(document)
    assert document["consequences"]
    assert all(" ".join(c["says"].split()) in said for c in document["consequences"])


def test_a_nearest_plan_is_told_with_its_mends() -> None:
    document = told(one(kit=car(stands=[{"id": "s", "kind": "stand", "max_height_m": 2, "min_height_m": 1,
                                         "max_load_kg": 0.1}]))).document  # fmt: skip
    said = flat(document)
    assert "A key" in said
    assert all(f"{p['says']} Mend: {p['mend']}" in said for p in document["problems"])
