"""What the shortlist costs: scoring everything fully finds a key that is at most a hundredth better.

Twenty briefs with one to three modifiers each, so that everything can be scored.
"""

from __future__ import annotations

import pytest

from shotplans.planner import key, solve_setup
from shotplans.planner.solve_setup import Answer
from tests.planner import briefs
from tests.planner.sets import Tree, filled

MODIFIERS = ("octa150-1", "octa95-1", "strip30x120-1", "dish55", "umb180", "reflector18-2")
LOSS = 0.01  # of a score that runs from 0 to 1


def small(setup: Tree, sitters: Tree | list[Tree], which: tuple[int, ...], where: Tree | None = None) -> Tree:
    """A brief with one head and a few of the studio's modifiers."""
    wanted = tuple(MODIFIERS[n] for n in which)
    return briefs.request(setup, sitters, where, briefs.kit_of(heads=("h400-1",), modifiers=wanted))


def facing(intent: str, framing: str = "head_and_shoulders", view: str = "either", tone: str = "mid") -> Tree:
    return briefs.setup(intent, framing, tone, view=view)


PLAIN = briefs.sitter("Mirela")
GLASSES = briefs.sitter("Corin", glasses={"lens": "usual", "may_remove": False}, eyes="deep set")
PAIR = [briefs.sitter("Edda"), briefs.sitter("Ruan", height_cm=185)]
SMALL_ROOM = briefs.room(5, 4, 2.5)
TWENTY = {
    "soft": small(facing("soft"), PLAIN, (0,)),
    "soft, turned": small(facing("soft", view="profile"), PLAIN, (1,)),
    "soft, low": small(facing("soft", "half"), PLAIN, (0,), SMALL_ROOM),
    "soft, lined": small(facing("soft"), briefs.lined("softer"), (0, 3)),
    "soft, shown": small(facing("soft"), briefs.lined("shown"), (3,)),
    "even": small(facing("even"), PLAIN, (0, 4)),
    "even, glasses": small(facing("even"), GLASSES, (0,)),
    "even, glasses, low": small(facing("even"), GLASSES, (1,), SMALL_ROOM),
    "natural": small(facing("natural"), PLAIN, (0, 1)),
    "natural, strip": small(facing("natural"), PLAIN, (2,)),
    "natural, full length": small(facing("natural", "full"), briefs.sitter("Nell", posture="standing"), (4,)),
    "natural, brim": small(facing("natural"), briefs.sitter("Rafe", head="brim"), (1,)),
    "natural, white room": small(facing("natural"), PLAIN, (1,), briefs.white_room()),
    "bold": small(facing("bold", tone="dark"), PLAIN, (1, 3)),
    "bold, a head": small(facing("bold", "head", tone="black"), PLAIN, (5,)),
    "character": small(facing("character", tone="dark"), briefs.lined("shown"), (3, 5)),
    "bright": small(facing("bright", tone="light"), PLAIN, (0,)),
    "a pair": small(facing("natural", "half"), PAIR, (0,)),
    "a pair, bold": small(facing("bold", "half"), PAIR, (1,)),
    "three": small(facing("natural", "group"), briefs.family(3), (4,)),
}


def best(tree: Tree) -> tuple[float, float]:
    """Score of the best set-up, and how far it breaks limits."""
    request = filled(tree)
    answer = solve_setup.solve(request, request.brief.setups[0])
    assert isinstance(answer, Answer)
    broken = answer.best.notes["broken"]
    assert isinstance(broken, float)
    return answer.best.score, broken


@pytest.mark.parametrize("name", TWENTY)
def test_the_shortlist_costs_no_more_than_a_hundredth(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    score, broken = best(TWENTY[name])
    monkeypatch.setattr(key, "SHORTLIST", None)
    whole_score, whole_broken = best(TWENTY[name])
    assert broken == pytest.approx(whole_broken, abs=1e-6)
    assert whole_score - score <= LOSS  # ours: nobody sees a hundredth of our own score
