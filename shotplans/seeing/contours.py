"""Lines of equal value through a field on an upright grid: marching squares, joined to lines.

Belongs here: tracing alone. Not here: what the field is, or how lines are drawn. Our own sixty lines, because a library
for it would be one more thing to install for one drawing.
"""

from __future__ import annotations

from collections import defaultdict

import numpy as np
from numpy.typing import NDArray

F = NDArray[np.float64]
Point = tuple[float, float]
Edge = tuple[int, int, int]  # row, column, 0 along the row or 1 along the column
# For each of the sixteen cases (bit 1 upper left, 2 upper right, 4 lower right, 8 lower left above the level), the
# sides a line goes between: 0 top, 1 right, 2 bottom, 3 left. The two saddles are settled by the cell's mean.
_SIDES: dict[int, tuple[tuple[int, int], ...]] = {
    1: ((3, 0),), 2: ((0, 1),), 3: ((3, 1),), 4: ((1, 2),), 6: ((0, 2),), 7: ((3, 2),), 8: ((2, 3),), 9: ((2, 0),),
    11: ((2, 1),), 12: ((1, 3),), 13: ((1, 0),), 14: ((0, 3),),
}  # fmt: skip
_SADDLES = {5: (((3, 2), (1, 0)), ((3, 0), (1, 2))), 10: (((0, 3), (2, 1)), ((0, 1), (2, 3)))}


def trace(x: F, y: F, values: F, level: float) -> list[list[Point]]:
    """Lines through the field where it has the level; `values` (len(y), len(x)), linear between neighbours.

    A closed line ends where it began. A value that is the level itself counts as above it. Longest line first.
    """
    above = values >= level
    case = above[:-1, :-1] * 1 + above[:-1, 1:] * 2 + above[1:, 1:] * 4 + above[1:, :-1] * 8
    meets: dict[Edge, list[Edge]] = defaultdict(list)
    for row, column in np.argwhere((case > 0) & (case < 15)).tolist():
        for one, other in _pairs(int(case[row, column]), values, row, column, level):
            a, b = _edge(row, column, one), _edge(row, column, other)
            meets[a].append(b)
            meets[b].append(a)
    lines = [[_place(x, y, values, level, edge) for edge in chain] for chain in _chains(meets)]
    return sorted(lines, key=length, reverse=True)


def length(line: list[Point]) -> float:
    """How long a line is, in the unit of its points."""
    return float(np.hypot(*np.diff(np.array(line), axis=0).T).sum()) if len(line) > 1 else 0.0


def _pairs(case: int, values: F, row: int, column: int, level: float) -> tuple[tuple[int, int], ...]:
    if case not in _SADDLES:
        return _SIDES[case]
    joined = float(values[row : row + 2, column : column + 2].mean()) >= level
    return _SADDLES[case][0 if joined else 1]


def _edge(row: int, column: int, side: int) -> Edge:
    return ((row, column, 0), (row, column + 1, 1), (row + 1, column, 0), (row, column, 1))[side]


def _place(x: F, y: F, values: F, level: float, edge: Edge) -> Point:
    row, column, down = edge
    there = (row + 1, column) if down else (row, column + 1)
    first, second = float(values[row, column]), float(values[there])
    share = 0.5 if first == second else (level - first) / (second - first)
    if down:
        return float(x[column]), float(y[row] + share * (y[row + 1] - y[row]))
    return float(x[column] + share * (x[column + 1] - x[column])), float(y[row])


def _chains(meets: dict[Edge, list[Edge]]) -> list[list[Edge]]:
    """Edges in the order a pen meets them; open lines from their ends, closed ones from anywhere."""
    left = {edge: list(others) for edge, others in meets.items()}
    ends = [edge for edge, others in meets.items() if len(others) == 1]
    found = []
    for start in [*ends, *meets]:
        if not left[start]:
            continue
        chain = [start]
        while left[chain[-1]]:
            ahead = left[chain[-1]].pop()
            left[ahead].remove(chain[-1])
            chain.append(ahead)
        found.append(chain)
    return found
