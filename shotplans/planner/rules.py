"""Rules of taste as data: what a note asks of light, camera, pose, gear and minutes, each with its reason.

Belongs here: the whole table, and what a studio changed in it. A rule's numbers are the studio's own to edit; what a
rule does with them is in `notes` (light), `poses` (people), `frame` (camera), `shots` and `consequences` (the rest).
Physics is no rule. Common practice, no source, unless the row names one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from shotplans.planner.fields import Label, Part
from shotplans.planner.intents import Band
from shotplans.planner.rule import Number as Number
from shotplans.planner.rule import Rule as Rule
from shotplans.planner.rules_of_intents import INTENTS
from shotplans.planner.rules_of_light import LIGHT
from shotplans.planner.rules_of_people import PICTURE


class RuleChange(Part):
    """A studio's own value for one number of one rule; the codes are those of `RULES`."""

    rule: Label
    number: Label
    value: Annotated[float, Field(ge=-100_000, le=100_000)]


RULES: dict[str, Rule] = {**LIGHT, **PICTURE, **INTENTS}


@dataclass(frozen=True)
class House:
    """The rules as this studio keeps them."""

    changed: dict[tuple[str, str], float]

    def number(self, rule: str, number: str) -> float:
        """A rule's number: the studio's own where it set one. KeyError for a rule or number that is not there."""
        return self.changed.get((rule, number), RULES[rule].numbers[number].value)

    def band(self, rule: str, stem: str, unit: str) -> Band:
        """The two numbers `<stem>_low_<unit>` and `<stem>_high_<unit>` of a rule; without a stem `low_<unit>`."""
        start = f"{stem}_" if stem else ""
        return Band(self.number(rule, f"{start}low_{unit}"), self.number(rule, f"{start}high_{unit}"))


UNCHANGED = House({})


def house(changes: Iterable[RuleChange]) -> House:
    """The rules with a studio's changes."""
    return House({(c.rule, c.number): c.value for c in changes})


def crossed(kept: House) -> Iterator[tuple[str, str, str]]:
    """Rule, lower and upper number wherever a studio's lower end is above its upper one.

    A table with such a pair cannot be planned with; the page where numbers are set asks this before it keeps one.
    """
    for code, rule in RULES.items():
        for low in rule.numbers:
            high = low.replace("low_", "high_", 1)
            if high != low and high in rule.numbers and kept.number(code, low) > kept.number(code, high):
                yield code, low, high
