"""Every page of the demo in every role that may open it: how long the server takes beside an empty signed-in page of
the same run. Belongs here: measuring through the whole server, and the limit. Not here: which pages there are
(`tests.browser.everywhere`)."""

from __future__ import annotations

import time
from statistics import median
from typing import Any

from tests.bench.desk import house_of

MOST_TIMES = 6.0  # issue 9, "Speed"
ROUNDS = 5
WORST = 10


def report() -> bool:
    """Print the ten slowest and all above the limit; whether there is none."""
    with house_of("sqlite"):
        from django.test import Client

        from tests.browser import everywhere

        world = everywhere.build()
        browsers = {role: world.browser_of(role) for role in world.members} | {everywhere.CLIENT: Client()}
        rows = [
            (*_times_empty(browsers[role], page.url, browsers["owner"]), page.name, role)
            for page in everywhere.addresses(world)
            for role in page.roles
        ]
    rows.sort(reverse=True)
    above = [row for row in rows if row[0] > MOST_TIMES]
    middle = median(row[0] for row in rows)
    print(f"{len(rows)} pages in their roles, median of {ROUNDS} rounds; the middle one takes {middle:.1f} empty pages")
    for times, ms, name, role in rows[: max(WORST, len(above))]:
        print(f"{name:20}{role:14}{times:6.1f} times an empty page, {ms:5.0f} ms")
    print(f"limit {MOST_TIMES:g} times: {'kept' if not above else f'broken by {len(above)}'}")
    return not above


def _times_empty(browser: Any, url: str, anybody: Any) -> tuple[float, float]:
    """Each round beside an empty page of the same moment, whose neighbours slow both alike; and milliseconds."""
    browser.get(url, follow=True)
    found = [(_seconds(browser, url), _seconds(anybody, "/find/")) for _ in range(ROUNDS)]
    return median(page / empty for page, empty in found), 1000 * median(page for page, _ in found)


def _seconds(browser: Any, url: str) -> float:
    """Of the slowest answer on the way: an address that leads to another page is two answers, each held by itself."""
    slowest = 0.0
    while url:
        started = time.process_time()
        answer = browser.get(url)
        slowest = max(slowest, time.process_time() - started)
        url = answer.headers.get("Location", "")
    return slowest
