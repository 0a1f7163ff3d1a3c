"""One consequence of what is known of people and picture: what to do, its number, and the rule it follows from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from shotplans.planner.brief import Sitter
from shotplans.planner.plan import Solved
from shotplans.planner.request import Request
from shotplans.planner.rules import RULES, House
from shotplans.planner.words.consequences import CONSEQUENCES
from studio.tongue import gettext as _


@dataclass(frozen=True)
class Consequence:
    """`kind` is light, camera, pose, gear, people or minutes; `values` fill the blanks of the code's sentence."""

    kind: str
    code: str
    rule: str
    paths: tuple[str, ...] = ()
    number: float | None = None
    unit: str | None = None
    values: dict[str, Any] = field(default_factory=dict)

    def printed(self) -> dict[str, Any]:
        return {
            "kind": self.kind,
            "says": _(CONSEQUENCES[self.code]).format(**self.values),
            "number": self.number,
            "unit": self.unit,
            "rule": self.rule,
            "from": list(self.paths),
        }


@dataclass(frozen=True)
class Asked:
    """What is asked: the request as filled, the set-ups that are lit, and the rules as the house keeps them."""

    request: Request
    solved: tuple[Solved, ...]
    house: House

    def number(self, rule: str, name: str) -> float:
        return self.house.number(rule, name)

    def blanks(self, rule: str) -> dict[str, str]:
        """A rule's numbers by name, as they are printed."""
        return {name: f"{self.house.number(rule, name):g}" for name in RULES[rule].numbers}

    def of(
        self, kind: str, code: str, rule: str, paths: tuple[str, ...] = (), name: str | None = None, **values: Any
    ) -> Consequence:
        """A consequence of a rule; `name` is the number of the rule it stands by."""
        number = self.house.number(rule, name) if name else None
        unit = RULES[rule].numbers[name].unit if name else None
        return Consequence(kind, code, rule, paths, number, unit, {**self.blanks(rule), **values})

    def placed(self, *labels: str) -> Solved | None:
        """The first lit set-up with all of these people."""
        return next((s for s in self.solved if set(labels) <= {x.person.label for x in s.pose.seated}), None)


def wishes(sitter: Sitter, wish: str, *notes: str) -> bool:
    """Whether a sitter wishes any of these features so."""
    return any(w.note in notes and w.wish == wish for w in sitter.wishes)
