"""How much better a key could be: ten small kits, the planner's choice against an exhaustive search twice as fine.

What belongs here: the ten briefs, the search that leaves nothing out (every placement on steps of 2.5 cm and 2.5
degrees, every pose, every aim, the full score of each), and the limit: a hundredth of a score that runs from 0 to 1.
"""

from __future__ import annotations

from contextlib import ExitStack
from unittest.mock import patch

import numpy as np

from shotplans.planner import candidates, feather, key, solve_setup
from shotplans.planner.candidates import Grid
from shotplans.planner.key import BROKEN_COST
from shotplans.planner.solve_setup import Answer
from tests.planner import briefs
from tests.planner.sets import Tree, filled
from tests.planner.test_shortlist import GLASSES, PAIR, PLAIN, SMALL_ROOM, facing, small

LOSS = 0.01
FINE_M, FINE_DEG = candidates.STEP_M / 2, candidates.STEP_DEG / 2
TEN: dict[str, Tree] = {
    "soft, octabox": small(facing("soft", view="full"), PLAIN, (0,), SMALL_ROOM),
    "soft, lines softer": small(facing("soft", view="full"), briefs.lined("softer"), (1,), SMALL_ROOM),
    "even, glasses and deep-set eyes": small(facing("even", view="full"), GLASSES, (1,), SMALL_ROOM),
    "even, white room": small(facing("even", view="full"), PLAIN, (1,), briefs.white_room()),
    "natural, strip": small(facing("natural", view="seven_eighths"), PLAIN, (2,), SMALL_ROOM),
    "natural, brim": small(facing("natural", view="full"), briefs.sitter("Rafe", head="brim"), (1,), SMALL_ROOM),
    "bold, dish": small(facing("bold", tone="dark", view="full"), PLAIN, (3,), SMALL_ROOM),
    "character, reflector": small(
        facing("character", tone="dark", view="full"), briefs.lined("shown"), (5,), SMALL_ROOM
    ),
    "bright, octabox": small(facing("bright", tone="light", view="full"), PLAIN, (1,), SMALL_ROOM),
    "a pair, octabox": small(facing("natural", "half", view="full"), PAIR, (1,), SMALL_ROOM),
}  # fmt: skip


def fine_grid(eye_m: float, distances: tuple[float, float], bearings: tuple[float, float]) -> Grid:
    """The planner's grid, twice as fine in each of its three directions."""
    nearest, farthest = distances
    d = np.arange(nearest, max(nearest, min(candidates.FARTHEST_M, farthest)) + 1e-9, FINE_M)
    b = np.arange(bearings[0], bearings[1] + 1e-9, FINE_DEG)
    h = np.arange(0.0, candidates.HIGHEST_DEG + 1e-9, FINE_DEG)
    dd, bb, hh = (a.ravel() for a in np.meshgrid(d, b, h, indexing="ij"))
    toward = candidates.direction(bb, hh)
    return Grid(dd, bb, hh, toward, np.array([0.0, eye_m, 0.0]) + dd[:, None] * toward, (d, b, h))


def value(tree: Tree) -> tuple[float, int]:
    """How good the best plan's key is, limits broken taken off, and how many were considered."""
    request = filled(tree)
    answer = solve_setup.solve(request, request.brief.setups[0])
    assert isinstance(answer, Answer), answer
    broken = float(answer.best.notes["broken"])  # type: ignore[arg-type]
    return answer.best.score - BROKEN_COST * broken - (1.0 if broken > 0 else 0.0), answer.best.candidates


def exhaustive(tree: Tree) -> tuple[float, int]:
    """The same with nothing left out, on the fine grid."""
    with ExitStack() as stack:
        for where, name, changed in ((key, "grid", fine_grid), (key, "SHORTLIST", None), (key, "NO_MATCH", np.inf),
                                     (key, "NO_MATCH_GLASSES", np.inf), (feather, "FEATHERED", 2000),
                                     (feather, "FEATHER_DEG", tuple(np.arange(FINE_DEG, 30.1, FINE_DEG)))):  # fmt: skip
            stack.enter_context(patch.object(where, name, changed))
        return value(tree)


def report() -> bool:
    """Prints both scores of each kit; False when the planner's falls short by more than a hundredth."""
    held = True
    for name, tree in TEN.items():
        (ours, few), (best, every) = value(tree), exhaustive(tree)
        held &= best - ours <= LOSS
        print(f"{name:32} planner {ours:.4f} of {few:>9,}, exhaustive {best:.4f} of {every:>10,}: {best - ours:+.4f}")
    return held
