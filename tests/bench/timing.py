"""How long work takes on this machine, other programs aside. Belongs here: the least of some rounds, by the wall or by
this process alone. Not here: what is timed, or how long it may take."""

from __future__ import annotations

import time
from collections.abc import Callable

Clock = Callable[[], float]


def best_seconds(work: Callable[[], object], rounds: int = 5, clock: Clock = time.perf_counter) -> float:
    """Least time of some rounds; `time.process_time` as the clock leaves out what other programs take."""
    times = []
    for _ in range(rounds):
        started = clock()
        work()
        times.append(clock() - started)
    return min(times)
