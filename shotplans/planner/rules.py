"""Rules of taste as data: what a note asks of light, camera, pose, gear and minutes, each with its reason.

Belongs here: the table, and what a studio changed in it. A rule's numbers are the studio's own to edit; what a rule
does with them is in `notes` (light), `poses` (people) and `frame` (camera). Physics is no rule. Common practice, no
source, unless the row names one.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from shotplans.planner.fields import Label, Part


@dataclass(frozen=True)
class Number:
    """One number of a rule: what it is, its value out of the box, and the range a studio may set it in."""

    words: str
    value: float
    low: float
    high: float
    unit: str


@dataclass(frozen=True)
class Rule:
    """One rule: when it speaks, the reason in one sentence, and its numbers by name."""

    when: str
    because: str
    numbers: dict[str, Number]
    source: str = "common practice, no source"


class RuleChange(Part):
    """A studio's own value for one number of one rule; the codes are those of `RULES`."""

    rule: Label
    number: Label
    value: Annotated[float, Field(ge=-100_000, le=100_000)]


RULES: dict[str, Rule] = {
    "older_pair": Rule(
        "Two people in one picture, one of them 65 or older",
        "An older pair sits close, one broad light covers both, and standing is kept short.",
        {
            "heads_apart_m": Number("heads apart", 0.45, 0.30, 0.80, "m"),
            "sitting_minutes": Number("longest sitting", 40, 10, 120, "min"),
            "standing_minutes": Number("longest standing", 5, 1, 30, "min"),
        },
    ),
}


@dataclass(frozen=True)
class House:
    """The rules as this studio keeps them."""

    changed: dict[tuple[str, str], float]

    def number(self, rule: str, number: str) -> float:
        """A rule's number: the studio's own where it set one. KeyError for a rule or number that is not there."""
        return self.changed.get((rule, number), RULES[rule].numbers[number].value)


def house(changes: tuple[RuleChange, ...]) -> House:
    """The rules with a studio's changes."""
    return House({(c.rule, c.number): c.value for c in changes})
