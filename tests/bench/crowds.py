"""A full plan of a crowd from a large kit: seconds, memory, and how both grow with people and with pairs.

What belongs here: the kit of thirty heads and thirty modifiers, the crowds, and the figures that issue and design set
as limits (under a second on one core, under 500 MB, linear in people, in pairs no faster than pairs). Each plan runs
in a process of its own, so that its memory is its own.
"""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

from tests.planner import briefs

Tree = dict[str, Any]
HEADS = MODIFIERS = 30
MOST_SECONDS, MOST_MB = 1.0, 500.0
CHILD = """
import json, resource, sys, time
from shotplans.planner.codec import read_request
from shotplans.planner.solve import plan
request = read_request(sys.stdin.buffer.read())
best, lights = 1e9, 0
for _ in range(int(sys.argv[1])):
    start = time.perf_counter()
    document = plan(request)
    best = min(best, time.perf_counter() - start)
used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
lights = [x["role"] for x in document["setups"][0]["lights"]]
print(json.dumps([best, used, document["candidates_scored"], lights]))
"""


def large_kit(heads: int = HEADS, modifiers: int = MODIFIERS) -> Tree:
    """The studio's kit grown: heads of many outputs, modifiers of many sizes, every one of them different."""
    kit = briefs.studio_kit()
    flashes = [h for h in kit["heads"] if h["light"] == "flash"]
    kit["heads"] = [
        flashes[0] | {"id": f"head-{n}", "f_number_1m_iso100": 40 + n, "energy_ws": 300 + 20 * n} for n in range(heads)
    ]
    shapes = [m for m in kit["modifiers"] if m["mount"] == flashes[0]["mount"]]
    kit["modifiers"] = []
    for n in range(modifiers):
        shape, grown = shapes[n % len(shapes)], 1 + 0.02 * (n // len(shapes))
        sizes = {k: round(shape[k] * grown, 3) for k in ("diameter_m", "width_m", "height_m") if shape.get(k)}
        kit["modifiers"].append(shape | sizes | {"id": f"modifier-{n}"})
    return kit


def crowd(people: int, kit: Tree) -> Tree:
    """People of several households before a wide white ground, which takes two lights of its own, in a hall."""
    where = briefs.room(16, 12, 4.0)
    grounds = [g | {"width_m": 12.0} for g in kit["backgrounds"] if g["id"] == "white270"]
    return briefs.request(briefs.setup("bright", "group", "white"), briefs.family_of(people), where,
                          kit | {"backgrounds": grounds})  # fmt: skip


def measured(tree: Tree, rounds: int = 3) -> tuple[float, float, int, list[str]]:
    """Best seconds, megabytes, candidates and roles of the lights of a plan in a process of its own."""
    done = subprocess.run([sys.executable, "-c", CHILD, str(rounds)], input=json.dumps(tree).encode(),
                          capture_output=True, check=True)  # fmt: skip
    seconds, used, candidates, lights = json.loads(done.stdout)
    return seconds, used, candidates, lights


def report() -> bool:
    """Prints the figures; False when one is over its limit."""
    kit = large_kit()
    seconds, used, candidates, lights = measured(crowd(9, kit))
    print(f"nine people, {HEADS} heads, {MODIFIERS} modifiers, {len(lights)} lights: {seconds:.2f} s (limit "
          f"{MOST_SECONDS}), {used:.0f} MB (limit {MOST_MB:.0f}), {candidates:,} candidates")  # fmt: skip
    held = seconds <= MOST_SECONDS and used <= MOST_MB
    base = None
    for people in (2, 8, 32):
        took = measured(crowd(people, kit))[0]
        base = base or took
        print(f"  {people} people: {took:.2f} s, {took / base:.2f} of the time for {people // 2} times the people")
        held &= took <= base * max(1.3, people / 2)
    one = None
    for heads, modifiers in ((8, 8), (15, 15), (30, 30)):
        took = measured(crowd(9, large_kit(heads, modifiers)))[0]
        one = one or took
        pairs = heads * modifiers / 64
        print(f"  {heads} heads and {modifiers} modifiers: {took:.2f} s, {took / one:.2f} of the time for {pairs:.1f} "
              "times the pairs")  # fmt: skip
        held &= took <= one * max(1.3, pairs)
    return held
