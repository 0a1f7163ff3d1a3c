"""A change-over as walks: what is done on the way, in the fewest ways there and back.

The rule: one thing is carried each way. What goes is carried out to the store, what comes is carried back, so there
are as many walks as the larger of the two; what moves within the set is done on the first walk, in the shortest round,
starting and ending at the camera. Rounds of up to eight places are searched exactly, longer ones nearest first.
Belongs here: that. Not here: what differs (`changeover`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, permutations
from math import hypot

Spot = tuple[float, float]  # x and z on the floor, metres
EXACT = 8
GO, STAY, COME = "go", "stay", "come"


@dataclass(frozen=True)
class Move:
    """One thing to do and where on the floor: it goes, stays (and is changed or moved) or comes."""

    words: str
    at: Spot
    kind: str = STAY


@dataclass(frozen=True)
class Walk:
    """What is done on one way round, in order, and how far it is in metres."""

    moves: tuple[Move, ...]
    metres: float


def walks(moves: Sequence[Move], start: Spot) -> tuple[Walk, ...]:
    """The walks in order: what goes before what comes, so that its place is free."""
    goes, comes = [m for m in moves if m.kind == GO], [m for m in moves if m.kind == COME]
    stays = [m for m in moves if m.kind == STAY]
    count = max(len(goes), len(comes), 1 if stays else 0)
    found = []
    for n in range(count):
        first, last = goes[n : n + 1], comes[n : n + 1]
        middle = _shortest(stays, _end(first, start), _end(last, start)) if n == 0 else []
        order = (*first, *middle, *last)
        found.append(Walk(tuple(order), round(_metres([start, *(m.at for m in order), start]), 1)))
    return tuple(found)


def _end(moves: Sequence[Move], start: Spot) -> Spot:
    return moves[0].at if moves else start


def _shortest(moves: Sequence[Move], start: Spot, end: Spot) -> list[Move]:
    """The order in which these places are passed on the shortest way."""
    if len(moves) <= EXACT:
        orders = permutations(range(len(moves)))
        best = min(orders, key=lambda order: (_metres([start, *(moves[i].at for i in order), end]), order))
        return [moves[i] for i in best]
    left, found, here = list(moves), [], start
    while left:
        nearest = min(left, key=lambda m: hypot(m.at[0] - here[0], m.at[1] - here[1]))
        left.remove(nearest)
        found.append(nearest)
        here = nearest.at
    return found


def _metres(spots: Sequence[Spot]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(spots))
