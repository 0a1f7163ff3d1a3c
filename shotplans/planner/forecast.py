"""What a set comes out as with many values changed at once, while a hand is still on it: numbers, readings, limits.

Belongs here: a set-up of a plan made ready to be asked many times, and one answer. Gestures and the list of changes are
in `by_hand`, the numbers in `outcome`, the drawing in `sheets`. Pure, and nothing is searched.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from shotplans.planner import by_hand, document, hand_aim, outcome
from shotplans.planner.moves import Change, Refused
from shotplans.planner.placed import NothingPlaced, looked_at, standing
from shotplans.planner.plan import Point, Solved
from shotplans.planner.request import Request

__all__ = ["Base", "Change", "Forecast", "Refused", "aims", "answer", "base"]


@dataclass(frozen=True)
class Base:
    """A set-up as the planner suggested it, read back once. `request` has its defaults filled."""

    request: Request
    entry: dict[str, Any]
    stands: Solved


@dataclass(frozen=True)
class Forecast:
    """A changed set: `changes` stand for it, `setup` is printed as in a plan, no doubts or reasons, what breaks, and
    what a light may be pointed at by name."""

    changes: tuple[Change, ...]
    setup: dict[str, Any]
    problems: tuple[dict[str, Any], ...]
    aims: tuple[tuple[Point, str], ...]


def base(request: Request, entry: dict[str, Any]) -> Base:
    """Raises Refused where nothing stands, or the plan was printed before it held all that stands."""
    try:
        return Base(request, entry, standing(request, entry))
    except NothingPlaced:
        raise Refused("no_light", {"setup": entry["name"]}) from None
    except KeyError:
        raise Refused("older", {}) from None


def answer(of: Base, changes: Sequence[Change] = (), gesture: Change | None = None) -> Forecast:
    """The set with these changes and one thing more done by a hand. Raises Refused, and nothing is moved."""
    taken = by_hand.taken(of.request, of.stands, changes, gesture)
    stands = looked_at(of.request, by_hand.moved(of.request, of.stands, taken))
    found = outcome.at_once(of.request, stands)
    setup = {**document.setup(stands), "meter_round": found.meter_round, "expected": found.expected}
    return Forecast(taken, setup, tuple(p.printed() for p in found.problems), tuple(hand_aim.targets(stands)))


def aims(of: Base, changes: Sequence[Change]) -> tuple[tuple[Point, str], ...]:
    """What a light may be pointed at by name where these changes have been made: the place and its words."""
    return tuple(hand_aim.targets(by_hand.moved(of.request, of.stands, changes)))
