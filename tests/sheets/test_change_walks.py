"""A change-over in walks: as few as things are carried, each the shortest way."""

from __future__ import annotations

from itertools import pairwise, permutations
from math import hypot

from shotplans.sheets import changeover, compose
from shotplans.sheets.change_walks import COME, GO, Move, walks
from shotplans.sheets.changeover import Standing
from tests.sheets import examples


def test_there_are_as_many_walks_as_the_larger_of_what_goes_and_what_comes() -> None:
    goes = [Move(f"out {n}", (1.0 + n, 0.0), GO) for n in range(2)]
    comes = [Move(f"in {n}", (-1.0 - n, 0.0), COME) for n in range(3)]
    stays = [Move("turn", (0.0, 1.0))]
    found = walks([*comes, *goes, *stays], (0.0, 3.0))
    assert [[m.words for m in w.moves] for w in found] == [["out 0", "turn", "in 0"], ["out 1", "in 1"], ["in 2"]]
    assert walks([], (0.0, 0.0)) == ()


def test_what_moves_within_the_set_is_done_on_the_shortest_way() -> None:
    spots = [(2.0, 1.0), (-2.0, 0.5), (2.5, -1.0), (-1.0, 2.0), (0.0, -2.0)]
    start = (0.0, 4.0)

    def metres(order: tuple[tuple[float, float], ...]) -> float:
        way = [start, *order, start]
        return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(way))

    (only,) = walks([Move(str(n), at) for n, at in enumerate(spots)], start)
    assert only.metres == round(min(metres(order) for order in permutations(spots)), 1)


def test_feature_44_set_two_says_only_what_differs_and_the_change_over_is_in_walks() -> None:
    document, given = examples.planned("tarrant")
    request = compose.filled(given)
    first, second = (Standing(setup, request) for setup in document["setups"])
    found = changeover.in_walks(first, second)
    said = [m.words for w in found for m in w.moves]
    assert sorted(said) == sorted(changeover.lines(first, second))
    assert changeover.in_walks(first, first) == ()
