"""Head pictures: what a plate of each example takes, first and with its view kept, beside a million exponentials.

What belongs here: the plates and the limit they must keep.
"""

from __future__ import annotations

import json
import time
from pathlib import Path

import numpy as np

from shotplans.planner import assumptions, codec, solve
from shotplans.planner.expect import main_sitter
from shotplans.planner.outcome import meter_of
from shotplans.planner.placed import placed
from shotplans.seeing import head, plate
from tests.bench.timing import best_seconds

BRIEFS = Path(__file__).parents[2] / "fixtures" / "briefs"
MOST_S = 0.5


def report() -> bool:
    """Print every plate's time against the limit; whether all keep it."""
    million = np.linspace(-5.0, 0.0, 1_000_000)
    reference = best_seconds(lambda: np.exp(million))
    print(f"reference: a million exponentials in {1000 * reference:.1f} ms = 1.0")
    started = time.perf_counter()
    head.the_head()
    print(f"the head's shape and horizons, once a process: {time.perf_counter() - started:.2f} s")
    kept = True
    for path in sorted(BRIEFS.glob("*.json")):
        kept &= _plate(path, reference)
    return kept


def _plate(path: Path, reference: float) -> bool:
    given = codec.understand(json.loads(path.read_text(encoding="utf-8")))
    document = solve.plan(given)
    request, _ = assumptions.fill(given)
    meter = meter_of(request, placed(request, document["setups"][0]))

    def first() -> object:
        plate.look.cache_clear()
        return plate.render(meter, main_sitter(meter.solved))

    afresh, again = best_seconds(first), best_seconds(lambda: plate.render(meter, main_sitter(meter.solved)))
    lights = len(meter.solved.lights)
    print(
        f"{path.stem}, {lights} lights, {plate.PIXELS} px: {afresh:.2f} s = {afresh / reference:.0f}, "
        f"an alternative beside it {again:.2f} s (limit {MOST_S:.1f} s)"
    )
    return afresh <= MOST_S
