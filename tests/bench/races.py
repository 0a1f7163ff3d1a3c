"""Sixty-four clients who ask for the same hour at the same moment, a hundred times. Belongs here: the long run of what
the suite does twice. Not here: the race itself (`tests.bookings.racing`)."""

from __future__ import annotations

import os
import time
from collections import Counter
from typing import Any

from tests.bench.desk import house_of

ROUNDS, CLIENTS = 100, 64


def report(vendor: str = "sqlite") -> bool:
    """Print how each round came out; true when one got the hour and all others were told, every time."""
    rounds = int(os.environ.get("RACE_ROUNDS", ROUNDS))
    ends: Counter[str] = Counter()
    with house_of(vendor):
        from tests.bookings.making import make_house

        house, kept, began = make_house(), 0, time.perf_counter()
        for number in range(rounds):
            came = _round(house, number)
            kept += came == {"done": 1, "Taken": CLIENTS - 1}
            ends += came
        seconds = (time.perf_counter() - began) / rounds
        from bookings.models import Sitting

        numbers = set(Sitting.objects.values_list("number", flat=True))
    print(f"{vendor}: {kept} of {rounds} rounds of {CLIENTS} clients for one hour: one got it, {CLIENTS - 1} were told")
    print(f"all ends: {dict(ends)}; {len(numbers)} numbers; {seconds:.1f} s a round")
    return kept == rounds == len(numbers)


def _round(house: Any, number: int) -> Counter[str]:
    from tests.bookings.making import at
    from tests.bookings.racing import race

    people = [house.members["photographer"], house.members["assistant"]]

    def book(thread: int) -> None:
        photographer, assistant = people if thread % 2 else reversed(people)
        house.book(starts_at=at(9, days=number), photographer=photographer, assistant=assistant)

    return race(book, CLIENTS)
