"""Many who act at the same moment. Belongs here: letting them go at once and counting how each came out. Not here: what
they race for."""

from __future__ import annotations

import threading
from collections import Counter
from collections.abc import Callable

from django.db import connection

from bookings.refusals import Taken


def race(act: Callable[[int], object], threads: int) -> Counter[str]:
    """Let every thread act at once, each on a connection of its own. Told is who got a sentence why not; anything else
    that is not "done" is an error."""
    start, ends = threading.Barrier(threads), []

    def run(number: int) -> None:
        try:
            start.wait(timeout=60)
            act(number)
            ends.append("done")
        except Exception as error:
            is_told = isinstance(error, Taken) and str(error).endswith(".")
            ends.append(type(error).__name__ if is_told else repr(error))
        finally:
            connection.close()

    running = [threading.Thread(target=run, args=(number,)) for number in range(threads)]
    for thread in running:
        thread.start()
    for thread in running:
        thread.join(timeout=120)
    return Counter(ends)
