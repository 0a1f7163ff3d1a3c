"""Small builders for the tests of the planner's parts: requests filled, set-ups solved, plans with their codes.

What belongs here: the way from a tree of briefs.py to the values the planner works with. The trees are there.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from functools import cache
from typing import Any
from unittest.mock import patch

from shotplans.planner import alternatives, assumptions, check, document, solve_setup, words
from shotplans.planner.codec import read_request
from shotplans.planner.expect import Meter
from shotplans.planner.plan import Light, Solved
from shotplans.planner.request import Request
from shotplans.planner.solve import plan
from shotplans.planner.solve_setup import Answer
from tests.planned_once import once

Tree = dict[str, Any]


@dataclass(frozen=True)
class Told:
    """A plan's document, and every reason and problem it words, by code and values, in the order of the words."""

    document: Tree
    reasons: tuple[tuple[str, Tree], ...]
    problems: tuple[tuple[str, Tree], ...]

    def codes(self) -> set[str]:
        return {code for code, _ in self.reasons}

    def limits(self) -> set[str]:
        return {p["limit"] for p in self.document["problems"]}

    def problem_codes(self) -> set[str]:
        """Codes of the problems of the plan itself; those of its alternatives are left out."""
        said = {p["says"] for p in self.document["problems"]}
        return {code for code, values in self.problems if values["says"] in said}


def filled(tree: Tree) -> Request:
    """The request with every open value filled."""
    request, _ = assumptions.fill(read_request(json.dumps(tree).encode()))
    return request


def told(tree: Tree, ways: bool = False) -> Told:
    """The plan of a request; its other ways only where they are asked for: they take nearly half of the time."""
    return _told(json.dumps(tree), ways)


@cache
def _told(text: str, ways: bool) -> Told:
    return once(f"told-{ways}", text, lambda: _heard(text, ways))


def best_alone(request: Request) -> Tree:
    """The document of a request without other ways, for what is asked of the plan itself."""
    with patch.object(alternatives, "alternatives", lambda *_: []):
        return plan(request)


def _heard(text: str, ways: bool) -> Told:
    reasons: list[tuple[str, Tree]] = []
    problems: list[tuple[str, Tree]] = []
    reason, problem = words.reason, words.problem

    def heard(code: str, values: Tree) -> str:
        reasons.append((code, dict(values)))
        return reason(code, values)

    def asked(code: str, values: Tree, short_by: float) -> tuple[str, str]:
        says, mend = problem(code, values, short_by)
        problems.append((code, {**values, "says": says}))
        return says, mend

    with patch.object(words, "reason", heard), patch.object(words, "problem", asked):
        made = (plan if ways else best_alone)(read_request(text.encode()))
    return Told(made, tuple(reasons), tuple(problems))


def solved(tree: Tree, which: int = 0) -> Solved:
    """One set-up of a request, solved; the test fails when nothing lights it."""
    return _solved(json.dumps(tree), which)


@cache
def _solved(text: str, which: int) -> Solved:
    return once(f"solved-{which}", text, lambda: _worked_out(text, which))


def _worked_out(text: str, which: int) -> Solved:
    request = filled(json.loads(text))
    answer = solve_setup.solve(request, request.brief.setups[which])
    assert isinstance(answer, Answer), answer
    return answer.best


def meter(one: Solved, recessed: bool = False, at_key: bool = False) -> Meter:
    return Meter(one, recessed, at_key)


def broken(one: Solved) -> dict[str, check.Problem]:
    """What the checker says of a set-up, by code, everything computed anew."""
    reads = meter(one)
    block = document.expected(one, reads)
    return {p.code: p for p in check.problems(one, reads, block["per_sitter"], block)}


def with_light(one: Solved, number: int = 0, **changed: Any) -> Solved:
    """The set-up with one light changed, nothing else looked after."""
    lights = list(one.lights)
    lights[number] = replace(lights[number], **changed)
    return replace(one, lights=tuple(lights))


def key_of(one: Solved) -> Light:
    return one.lights[0]


def has_problem(tree: Tree, code: str, limit: str) -> None:
    """The plan of a request says this problem, under this limit, with how much is missing and what would mend it."""
    plan = told(tree)
    assert code in plan.problem_codes()
    rows = [p for p in plan.document["problems"] if p["limit"] == limit]
    assert rows
    assert all(p["short_by"] > 0 and p["unit"] and p["mend"] for p in rows)


def found_in(one: Solved, code: str, limit: str) -> tuple[float, str]:
    """By how much a set-up breaks this limit, and the mend; it is told in whole sentences."""
    found = broken(one)
    assert code in found
    assert found[code].limit == limit
    assert found[code].short_by > 0
    says, mend = words.problem(code, found[code].values, found[code].short_by)
    assert says.endswith(".")
    assert mend.endswith(".")
    return found[code].short_by, mend
