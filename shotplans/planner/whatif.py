"""What if one value of a plan were another: what follows and which limits break. Nothing is searched.

A change names a thing of the set (`light A`, `camera`, `background`, `sitter Ottoline`), one of its values and the new
one. It is set on the steps a person can set (5 cm, 5 degrees, the dial's own), everything else stays where it stands,
and the same functions as the plan's reckon the rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shotplans.planner import assumptions, differences, document, moves
from shotplans.planner.moves import Change, Refused
from shotplans.planner.outcome import outcome
from shotplans.planner.placed import NothingPlaced, looked_at, standing
from shotplans.planner.request import Request

__all__ = ["Answer", "Change", "Refused", "what_if"]


@dataclass(frozen=True)
class Answer:
    """What follows from one change: `setup` as the plan would print it, what it `was`, and the limits broken now."""

    setup: dict[str, Any]
    was: dict[str, Any]
    taken_as: str
    problems: list[dict[str, Any]]
    differences: list[dict[str, str]]


def what_if(request: Request, document_of_plan: dict[str, Any], setup: str, change: Change | None) -> Answer:
    """The set-up of a plan with one value changed. `request` is the plan's own input, defaults or not.

    Without a change the plan's own numbers come out again. Raises Refused, with a sentence, for a value that cannot be
    set, and where the set-up has no light, is not in the plan, or was printed before the plan held all that stands.
    """
    filled, _ = assumptions.fill(request)
    was = next((s for s in document_of_plan["setups"] if s["name"] == setup), None)
    if was is None:
        raise Refused("no_setup", {"setup": setup})
    try:
        stands = standing(filled, was)
    except NothingPlaced:
        raise Refused("no_light", {"setup": setup}) from None
    except KeyError:
        raise Refused("older", {}) from None
    taken_as = ""
    if change is not None:
        stands, taken_as = moves.changed(filled, stands, change)
    stands = looked_at(filled, stands)
    found = outcome(filled, stands)
    entry = {
        **document.setup(stands), "meter_round": found.meter_round, "teaches_most": found.teaches_most,
        "expected": found.expected,
    }  # fmt: skip
    return Answer(entry, was, taken_as, [p.printed() for p in found.problems], differences.between(was, entry))
