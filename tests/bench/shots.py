"""Sixty pictures put in order: how long that takes beside plain NumPy work of the same run, and how far the order is
from the best there is where every order can be tried.

What belongs here: the day of sixty, the small days, and the limits of the order: under 0.3 s, which is `MOST_TIMES`
the reference of `tests.bench`, and at most 2 % from the optimum.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np

from shotplans.planner import assumptions, codec, rules, shot_order, shotlist
from shotplans.planner.request import Request
from tests.bench.timing import best_seconds
from tests.planner import briefs
from tests.planner.sets import Tree
from tests.planner.shot_days import arrangement, cheapest, drawn
from tests.planner.test_check import one

COUNT, MOST_GAP = 60, 0.02
MOST_SECONDS, MOST_TIMES = 0.3, 30.0
SETUPS = ("all", "garden", "hall", "stairs")
AGES = (74, 71, 44, 41, 38, 36, 12, 8, 2)
SMALL_DAYS = 12


def day_of_sixty() -> tuple[Request, list[Tree]]:
    """A family of nine in four set-ups, sixty pictures of one to nine of them; every third must be taken."""
    rng = np.random.default_rng(60)
    names = [f"P{n}" for n in range(len(AGES))]
    people = [briefs.sitter(name, age_years=age) for name, age in zip(names, AGES, strict=True)]
    people[0]["stand_minutes"] = 5
    shots = [
        {"words": f"Picture {n}{' standing' if n % 7 == 0 else ''}.", "must": n % 3 == 0, "setup": SETUPS[n % 4],
         "who": sorted(rng.choice(names, int(rng.integers(1, 10)), replace=False).tolist())}
        for n in range(COUNT)
    ]  # fmt: skip
    tree = one(briefs.setup("natural", "half"), people, shots=shots, minutes=240)
    tree["brief"]["setups"] = [tree["brief"]["setups"][0] | {"name": name} for name in SETUPS]
    fronts = ("octa", "octa", "dish", "umbrella")
    setups = [arrangement(name, names, front) for name, front in zip(SETUPS, fronts, strict=True)]
    return assumptions.fill(codec.understand(tree))[0], setups


def plan_sixty() -> Callable[[], shotlist.Listed]:
    request, setups = day_of_sixty()
    house = rules.house(request.rules)
    return lambda: shotlist.listed(request, setups, set(), house)


def gaps() -> list[float]:
    """How much dearer than the cheapest the order found is, as a part, on days small enough to try every order."""
    found = []
    for seed in range(SMALL_DAYS):
        case = drawn(seed, 8 if seed % 4 == 0 else 7)
        found.append(shot_order.cost(case, shot_order.found(case)) / cheapest(case) - 1)
    return found


def report() -> bool:
    """Whether both limits hold."""
    million = np.linspace(-5.0, 0.0, 1_000_000)
    reference = best_seconds(lambda: np.exp(million), clock=time.process_time)
    seconds = best_seconds(plan_sixty(), clock=time.process_time)
    times, found = seconds / reference, gaps()
    print(f"{COUNT} pictures planned: {times:.1f} times a million exponentials ({1000 * seconds:.0f} ms here), at most "
          f"{MOST_TIMES:g} and {1000 * MOST_SECONDS:g} ms")  # fmt: skip
    print(f"{len(found)} small days beside every order: {100 * max(found):.2f} % dearer at worst, "
          f"{100 * float(np.mean(found)):.2f} % on the mean, at most {100 * MOST_GAP:g} %")  # fmt: skip
    return times <= MOST_TIMES and seconds <= MOST_SECONDS and max(found) <= MOST_GAP
