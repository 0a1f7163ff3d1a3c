"""What must hold for any room, kit, people and brief; the long run is `python -m tests.planner.properties [PLANS]`.

What belongs here: the properties, each a function of one drawn request that lists what is wrong, and the drawing of
larger requests than briefs.py draws. test_laws.py runs each a few times in the suite. A property says what a studio
relies on: nothing broken unsaid, more kit or more room is never worse, a mirrored room gives a mirrored plan.
"""

from __future__ import annotations

import copy
import json
import sys
import time
from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as reseeded
from hypothesis import strategies as st

from shotplans.planner import solve_setup
from shotplans.planner.codec import read_request
from shotplans.planner.key import BROKEN_COST
from shotplans.planner.solve_setup import Answer
from tests.planner import briefs, contract
from tests.planner.sets import best_alone, filled

Tree = dict[str, Any]
Found = list[str]
LOSS = 0.01  # of a score that runs from 0 to 1: what more kit may cost at most
LESS_BOUNCE_STOPS = 0.3  # walls a metre further off give a ground so much less at most
LARGER_M = 1.0
STEP_M, STEP_DEG = 0.05, 5.0


@st.composite
def families(draw: st.DrawFn) -> Tree:
    """A group of four to fourteen people in a room that may or may not hold them."""
    people = briefs.family(draw(st.integers(4, 14)))
    for one in people:
        one["posture"] = draw(st.sampled_from(["standing", "standing", "seated", "floor", "wheelchair"]))
        one["glasses"] = draw(st.none() | st.none() | st.just({"lens": "usual"}))
        one["hip_or_back"] = draw(st.booleans()) and one["posture"] == "seated"
    one = briefs.setup(draw(st.sampled_from(["soft", "even", "natural", "bold", "bright"])), "group",
                       draw(st.sampled_from(["dark", "mid", "light", "white"])))  # fmt: skip
    where = briefs.room(draw(st.integers(16, 40)) / 4, draw(st.integers(16, 40)) / 4, draw(st.integers(24, 38)) / 10)
    return briefs.request(one, people, where, key_side=draw(st.sampled_from(["camera_left", "camera_right", "either"])))


def requests() -> st.SearchStrategy[Tree]:
    """Any request: one to three people with any notes and kit, or a group."""
    return st.one_of(briefs.requests(), briefs.requests(), families())


def planned(tree: Tree) -> Tree:
    document: Tree = json.loads(json.dumps(best_alone(read_request(json.dumps(tree).encode()))))
    return document


def nothing_is_broken_unsaid(tree: Tree) -> Found:
    """The independent contract, worked out again from the printed places, finds no limit broken that is not said."""
    return contract.faults(tree, planned(tree))


def printed_on_steps(tree: Tree) -> Found:
    """Distances on 5 cm, angles on 5 degrees, from rounded places: rounding is done before limits are looked at."""
    wrong = []
    for setup in planned(tree)["setups"]:
        for light in setup["lights"]:
            for key, step in (("distance_m", STEP_M), ("bearing_deg", STEP_DEG), ("height_angle_deg", STEP_DEG)):
                over = light[key] / step
                if abs(over - round(over)) > 1e-6:
                    wrong.append(f"light {light['letter']}: {key} {light[key]} is not on a step of {step}")
    return wrong


def _value(tree: Tree) -> float | None:
    """How good the best plan of the one set-up is, limits broken taken off; None where no light stands."""
    request = filled(tree)
    answer = solve_setup.solve(request, request.brief.setups[0])
    if not isinstance(answer, Answer):
        return None
    broken = float(answer.best.notes["broken"])  # type: ignore[arg-type]
    return answer.best.score - BROKEN_COST * broken - (1.0 if broken > 0 else 0.0)


def more_kit_is_never_worse(tree: Tree) -> Found:
    """Every piece of the studio's kit added to a smaller kit leaves the best score where it was, or lifts it."""
    richer, whole = copy.deepcopy(tree), briefs.studio_kit()
    for part in ("heads", "modifiers", "adapters", "stands", "panels"):
        have = {row["id"] for row in richer["kit"][part]}
        richer["kit"][part] += [row for row in whole[part] if row["id"] not in have]
    before, after = _value(tree), _value(richer)
    if before is not None and (after is None or after < before - LOSS):
        return [f"{before:.4f} with less kit, {after} with more"]
    return []


def a_larger_room_is_never_worse(tree: Tree) -> Found:
    """What can be kept in a room can be kept in one a metre longer, wider and higher, surfaces being the same."""
    if planned(tree)["problems"]:
        return []
    larger = copy.deepcopy(tree)
    for side in ("width_m", "depth_m", "ceiling_m"):
        larger["room"][side] += LARGER_M
    there, here = planned(larger), planned(tree)
    paler = _by_spill_alone(here) and _by_spill_alone(there) and _ground_lost(here, there) <= LESS_BOUNCE_STOPS
    return [f"{p['limit']}: {p['says']}" for p in there["problems"] if not (paler and p["limit"] == "background")]


def _by_spill_alone(document: Tree) -> bool:
    """Whether no ground has a light of its own: what a larger room gives back less then falls to the ground."""
    return not any(light["role"] == "background" for setup in document["setups"] for light in setup["lights"])


def _ground_lost(here: Tree, there: Tree) -> float:
    pairs = zip(here["setups"], there["setups"], strict=True)
    below = "reading_below_setting_stops"
    return max(float(b["background"][below] - a["background"][below]) for a, b in pairs if a["background"])


SWAP = {"own_left": "own_right", "own_right": "own_left", "camera_left": "camera_right", "camera_right": "camera_left"}


def mirrored(tree: Tree) -> Tree:
    """The request seen in a mirror: key side, own sides and the walls with windows."""
    other = copy.deepcopy(tree)
    other["brief"]["key_side"] = SWAP.get(tree["brief"]["key_side"], "either")
    for sitter in other["sitters"]:
        sitter["better_side"] = SWAP.get(sitter.get("better_side", "none"), "none")
        for wish in sitter.get("wishes", []):
            wish["side"] = SWAP.get(wish["side"], "both")
    return other


def _flipped(points: list[list[float]]) -> list[list[float]]:
    return sorted([[round(0.0 - p[0], 3) + 0.0, *p[1:]] for p in points])


def _targets(setup: Tree) -> list[Tree]:
    """The readings but for those at single faces: of a large group some are left out, from camera left onward."""
    return [s["target"] for s in setup["meter_round"] if not s["place"].endswith("'s face")]


def a_mirror_gives_the_mirror(tree: Tree) -> Found:
    """A brief for the other side gives the same plan seen in a mirror."""
    if tree["brief"]["key_side"] not in SWAP:
        tree = copy.deepcopy(tree)
        tree["brief"]["key_side"] = "camera_right"
    wrong = []
    for one, other in zip(planned(tree)["setups"], planned(mirrored(tree))["setups"], strict=True):
        for name, key in (("lights", "position_m"), ("sitters", "face_m")):
            here = sorted([round(v, 3) + 0.0 for v in x[key]] for x in one[name])
            if here != _flipped([x[key] for x in other[name]]):
                wrong.append(f"{name} are no mirror image")
        if one["camera"] != other["camera"]:
            wrong.append("the camera is another")
        if _targets(one) != _targets(other):
            wrong.append("the readings are others")
    return wrong


PROPERTIES: dict[str, tuple[Callable[[Tree], Found], st.SearchStrategy[Tree], int]] = {
    # the property, what it is drawn from, and how many plans one draw takes
    "nothing is broken unsaid": (nothing_is_broken_unsaid, requests(), 1),
    "printed on steps": (printed_on_steps, requests(), 1),
    "more kit is never worse": (more_kit_is_never_worse, briefs.requests(), 2),
    "a larger room is never worse": (a_larger_room_is_never_worse, requests(), 2),
    "a mirror gives the mirror": (a_mirror_gives_the_mirror, requests(), 2),
}


def run(name: str, draws: int, seed: int | None = None) -> list[tuple[Found, Tree]]:
    """Draws requests and asks one property of each; all that break it. The suite's draws are the same every time."""
    asked, drawn, _ = PROPERTIES[name]
    broken: list[tuple[Found, Tree]] = []

    @settings(max_examples=draws, deadline=None, derandomize=seed is None, database=None,
              suppress_health_check=list(HealthCheck), phases=[Phase.generate])  # fmt: skip
    @given(drawn)
    def each(tree: Tree) -> None:
        try:
            found = asked(tree)
        except Exception as error:  # a plan that cannot be made is told with its request like any other fault
            found = [f"{type(error).__name__}: {error}"]
        if found:
            broken.append((found, tree))

    (each if seed is None else reseeded(seed)(each))()
    return broken


def main(arguments: list[str]) -> int:
    """The long run: plans shared among the properties; prints each broken one with its request."""
    plans = int(arguments[0]) if arguments else 2000
    seed = int(arguments[1]) if len(arguments) > 1 else 1
    wrong = 0
    for name, (_, _, each) in PROPERTIES.items():
        draws, start = max(1, plans // len(PROPERTIES) // each), time.perf_counter()
        broken = run(name, draws, seed)
        wrong += len(broken)
        took = time.perf_counter() - start
        print(f"{name}: {draws} requests, {draws * each} plans, {len(broken)} broken, {took:.0f} s")
        for found, tree in broken[:5]:
            print("  ", "; ".join(found[:3]))
            print("  ", json.dumps(tree))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
