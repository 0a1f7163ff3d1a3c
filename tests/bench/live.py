"""The set under a hand: milliseconds of the server from a drag of the demo's set-ups to its whole answer, beside an
empty signed-in page and squares added up in the same run (the answer is plain Python more than NumPy).

What belongs here: the post that the page's script sends, measured through the whole server, and the limit it must keep.
Not here: what a hand waits for in the browser, which `pytest -s tests/browser/test_live_set.py` prints.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from datetime import date
from statistics import median
from typing import Any
from urllib.parse import urlencode

from tests.bench.desk import house_of

MOST_MS = 30.0  # issue 9, item 1
REFERENCE_MS = 12.0  # 200,000 squares added up on a core that has nothing else to do: what the limit is meant for
ROUNDS = 25


def report() -> bool:
    """Print a line for each set-up; whether all keep the limit, on a machine as fast as the one it is meant for."""
    with house_of("sqlite"):
        from tests import lindenmere

        lindenmere.build(date.today())
        browser = lindenmere.client_of("photographer")
        empty = _reference_ms(lambda: browser.get("/find/"))
        print(f"ms of a core on which 200,000 squares take {REFERENCE_MS:.0f}; an empty signed-in page {empty:.1f}")
        kept = True
        for name in lindenmere.NUMBERS:
            for number, entry in enumerate(lindenmere.plan(name).setups, start=1):
                spent = _asked(browser, lindenmere.plan(name), number, entry)
                kept = kept and spent <= MOST_MS
                people = len(entry["sitters"])
                print(f"{name}, {entry['name']}, {people} people: {spent:.1f}, {spent / empty:.1f} times an empty page")
    print(f"limit {MOST_MS:.0f}: {'kept' if kept else 'broken'}")
    return kept


def _asked(browser: Any, plan: Any, number: int, entry: dict[str, Any]) -> float:
    address = f"/sittings/{plan.sitting.number}/plans/{plan.number}/setups/{number}/by-hand/"
    x, y, z = entry["lights"][0]["position_m"]
    moved = json.dumps([["light", "A", "place_m", f"{x + 0.1:.2f} {y:.2f} {z:.2f}"]])
    to = f"{x + 0.2:.2f} {z + 0.1:.2f}"
    fields = {"changes": moved, "thing": "light", "name": "A", "key": "floor_m", "value": to, "moving": "1"}

    def ask() -> Any:
        return browser.post(
            address, urlencode(fields), content_type="application/x-www-form-urlencoded", headers={"X-Fragment": "live"}
        )

    found = ask().json()
    assert not found["refused"], found["refused"]
    return _reference_ms(ask)


def _reference_ms(work: Callable[[], object]) -> float:
    """Processor time as on the reference core: each round beside squares of the same moment, whose neighbours slow both
    alike; the middle of all rounds."""
    ratios = [_seconds(work) / _seconds(_squares) for _ in range(ROUNDS)]
    return REFERENCE_MS * median(ratios)


def _seconds(work: Callable[[], object]) -> float:
    started = time.process_time()
    work()
    return time.process_time() - started


def _squares() -> object:
    return sum(n * n for n in range(200_000))
