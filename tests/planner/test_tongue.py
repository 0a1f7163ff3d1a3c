"""Everything the planner says reaches a translator: plans made in a language nobody speaks, and the sources themselves.

The language writes every vowel and a few consonants with an accent, so a plain word of a plan is data of the request, a
code of the document, or a sentence that no translation reaches.
"""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from shotplans.planner import whatif, words
from shotplans.planner.accent import AIM_WORDS, on_hair
from shotplans.planner.codec import Unreadable, read_request
from shotplans.planner.describe import text
from shotplans.planner.rules import RULES
from shotplans.planner.solve import plan
from studio import tongue
from studio.management.commands.makemessages import Command
from studio.tongue import gettext as _
from tests import pseudo
from tests.planner import briefs
from tests.planner.sets import best_alone, solved, told
from tests.planner.test_check import car, one
from tests.planner.truths import grounds

Tree = dict[str, Any]
PLANNER = Path(__file__).parents[2] / "shotplans" / "planner"
WORD = re.compile(r"[^\W\d_]{2,}")
PLAIN = re.compile(r"[aceinostuyACEINOSTUY]")
PATH = re.compile(r"\b[a-z_]+(\[\d*\])?(\.[a-z_0-9]+(\[\d*\])?)+")  # of the input, as a fault and a gap name a key
# Keys whose values are codes, by which programs go (recommend-io.md); what is read of them is said by who shows it.
CODES = {
    "engine", "fingerprint", "about", "axis", "card", "direction", "dome", "for", "framing", "from", "image_side",
    "intent", "item", "keeps", "key", "kind", "level", "limit", "orientation", "panels", "role", "rule", "side",
    "side_of_picture", "toward", "unit",
}  # fmt: skip


def strings(value: Any, key: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a document with the key it stands under."""
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from strings(inner, name)
    elif isinstance(value, list):
        for inner in value:
            yield from strings(inner, key)
    elif isinstance(value, str):
        yield key, value


def untold(value: Any, given: set[str]) -> list[str]:
    """Texts with a word that no translation reached; `given` are the words of the request, whatever their case."""
    return [
        f"{key}: {said}" for key, said in strings(value) if key not in CODES
        and any(PLAIN.search(w) and w.casefold() not in given for w in WORD.findall(PATH.sub("", said)))
    ]  # fmt: skip


def words_of(tree: Tree) -> set[str]:
    return {word.casefold() for _key, said in strings(tree) for word in WORD.findall(said)}


def read(tree: Tree) -> Any:
    return read_request(json.dumps(tree).encode())


NOTES = {"hearing": True, "sensory": True, "stand_minutes": 3, "glasses": {"lens": "usual", "may_remove": True}}
WORN = {"tone": "light", "shiny": True, "pattern": True, "bare_arms": True}
WISHES = [{"note": "lines", "wish": "softer"}, {"note": "nose", "wish": "softer"}]
RULE = {"rule": "glasses", "number": "extra_minutes", "value": 9}
NOTED = one(sitter=briefs.sitter("Mirela", clothes=WORN, wishes=WISHES, eyes="deep set", **NOTES)) | {"rules": [RULE]}
PLANNED: dict[str, Tree] = {
    "a couple, with other ways": briefs.demo("askew"),
    "people in turn, a standard": briefs.demo("marrowfield"),
    "a family of nine": briefs.demo("pellingham"),
    "notes, wishes and a rule": NOTED,
    "flags": grounds.SAID["light cloth under a side light"],
    "nothing to light with": one(kit=car(heads=[])),
    "a low room": one(where=briefs.room(4.0, 3.4, 2.1)),
}  # fmt: skip


@pytest.mark.parametrize("name", PLANNED)
def test_every_sentence_of_a_plan_is_said_in_the_readers_language(name: str) -> None:
    tree = PLANNED[name]
    with pseudo.said_by_all():
        document = (plan if "ways" in name else best_alone)(read(tree))
        printed = text(document)
    given = words_of(tree) | {"circuit", "weight", "trigger", "seat"}  # what has no name is numbered, for all to go by
    assert untold(document, given) == []
    codes = given | {w.casefold() for key, said in strings(document) if key in CODES for w in WORD.findall(said)}
    assert untold(printed.splitlines(), codes) == []


def test_a_hair_light_is_known_in_a_plan_of_another_language() -> None:
    soft = solved(briefs.request(briefs.setup("soft"), briefs.sitter("Mirela")))
    light, mark = soft.light("accent"), soft.mark_eyes
    assert light is not None
    with pseudo.said_by_all():
        hair = _(AIM_WORDS["hair"])
    rim = replace(light, aim=(float(mark[0]), float(mark[1]), float(mark[2])), aim_words=hair.replace("⟦", ""))
    assert on_hair(replace(light, aim_words=hair), mark)
    assert not on_hair(rim, mark)


def test_nothing_said_is_kept_for_a_reader_of_another_language() -> None:
    before = told(NOTED).document
    with pseudo.said_by_all():
        best_alone(read(NOTED))
    assert best_alone(read(NOTED)) | {"planning_seconds": 0} == before | {"planning_seconds": 0}


def test_a_change_that_is_tried_is_told_in_the_readers_language() -> None:
    tree = NOTED
    with pseudo.said_by_all():
        document = best_alone(read(tree))
        setup = document["setups"][0]
        letter = setup["lights"][0]["letter"]
        change = whatif.Change("light", letter, "height_angle_deg", str(setup["lights"][0]["height_angle_deg"] + 10))
        answer = whatif.what_if(read(tree), document, setup["name"], change)
        with pytest.raises(whatif.Refused) as refused:
            whatif.what_if(read(tree), document, "another", change)
    assert untold(answer.differences, words_of(tree) | {"mm"}) == []
    with pseudo.said_by_all():
        said = words.refusal(refused.value.code, refused.value.values)
    assert untold([said], {"another"}) == []


STRONG = briefs.studio_kit()["heads"][0] | {"f_number_1m_iso100": 900}
FAULTY: dict[str, bytes] = {
    "no JSON": b"{",
    "a number that is none": b'{"sitters": [{"label": "Ada", "age_years": NaN}], "extra": 1}',
    "values that do not go together": json.dumps(
        one(sitter=briefs.sitter("Ada", keep_with="Bo"), kit=car(heads=[STRONG]))
        | {"rules": [RULE | {"value": 900}, RULE | {"rule": "none"}]}
    ).encode(),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTY)
def test_faults_of_an_input_are_told_in_the_readers_language(name: str) -> None:
    with pseudo.said_by_all(), pytest.raises(Unreadable) as found:
        read_request(FAULTY[name])
    for fault in found.value.faults:
        assert "⟦" in fault, fault


def test_every_rule_is_said_in_the_readers_language() -> None:
    with pseudo.said_by_all():
        said = [
            *(w for rule in RULES.values() for w in (rule.said_when, rule.said_because, rule.said_source)),
            *(number.said for rule in RULES.values() for number in rule.numbers.values()),
        ]
    assert untold(said, set()) == []


# Names that a search or a program goes by, none of which is read.
NOT_SAID = {
    "very light", "deep set", "not noted", "as it is", "fine lines", "deep lines", "light grey", "small hand",
    "stops under the key", "a second", "upper lip", "fold beside the mouth, image left",
    "fold beside the mouth, image right", "in sight", "other sitter", "each other", "room around",
    "tenthstop planner 1", r"\b(each|every|both) household|\bhouseholds\b",
}  # fmt: skip
SAYING = ("_", "gettext", "ngettext", "noop")


def plainly(source: str) -> Iterator[str]:
    """Texts of two words or more that stand outside every call that says or marks a sentence; docstrings left out."""
    tree = ast.parse(source)
    told: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SAYING:
            told.update(ast.walk(node))
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            told.add(node.value)
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            told.update(node.values)
            said = "".join(str(v.value) if isinstance(v, ast.Constant) else "{}" for v in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            said = node.value
        else:
            continue
        if node not in told and said not in NOT_SAID and re.search(r"[A-Za-z]{2,}.*\s|\s.*[A-Za-z]{2,}", said):
            yield f"line {node.lineno}: {said}"


def test_no_sentence_stands_in_the_sources_unmarked() -> None:
    found = {str(p.relative_to(PLANNER)): list(plainly(p.read_text())) for p in sorted(PLANNER.rglob("*.py"))}
    assert {name: said for name, said in found.items() if said} == {}


def test_a_plain_sentence_is_found() -> None:
    source = '"""A docstring."""\nA = noop("It is marked.")\nB = f"Light {A} is not."\n_("It is said.").format(a=1)\n'
    assert list(plainly(source)) == ["line 3: Light {} is not."]
    assert untold({"says": "⟦Ťhé kéý⟧ stands", "limit": "room", "label": "Ada"}, {"ada"}) == ["says: ⟦Ťhé kéý⟧ stands"]


def test_what_marks_a_sentence_is_looked_for_where_catalogues_are_made() -> None:
    assert "--keyword=noop" in Command.xgettext_options
    assert tongue.noop("It is marked.") == "It is marked."
