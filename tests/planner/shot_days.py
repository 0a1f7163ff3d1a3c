"""Days of pictures for the tests of the shot list: drawn at random from a seed, and set-ups without any light."""

from __future__ import annotations

from itertools import permutations
from typing import Any

import numpy as np

from shotplans.planner.shot_order import Case, costs

Tree = dict[str, Any]


def drawn(seed: int, count: int, setups: int = 3) -> Case:
    """A day of that many pictures in a few set-ups: changes of 3 to 12 minutes, dates, musts before wishes."""
    rng = np.random.default_rng(seed)
    where = rng.integers(0, setups, count)
    apart = rng.uniform(3, 12, (setups, setups))
    np.fill_diagonal(apart, 0.0)
    come = rng.uniform(0, 1.2, (count, count))
    np.fill_diagonal(come, 0.0)
    must = rng.random(count) < 0.5
    before = must[:, None] & ~must[None, :] & (where[:, None] == where[None, :])
    small = rng.random(count) < 0.2
    minutes = rng.uniform(2, 6, count)
    span = float(minutes.sum() + 3 * 8)
    prefer = np.where(rng.random((count, count)) < 0.05, 4.0, 0.0) * ~(before | before.T)
    np.fill_diagonal(prefer, 0.0)
    return Case(
        minutes=minutes, prefer=prefer, between=apart[np.ix_(where, where)] + come,
        weight=2.0 * must + 3.0 * small + 0.4,
        due=np.where(small, 0.4 * span, np.where(must, 0.6 * span, span)), late=np.where(small, 4.0, 2.0 * must + 0.3),
        place=np.zeros(count), before=before, block=2 * where + ~must,
    )  # fmt: skip


def cheapest(case: Case) -> float:
    """The cost of the best order there is, found by trying every one."""
    every = np.array(list(permutations(range(len(case)))), dtype=np.intp)
    return float(costs(case, every).min())


def arrangement(name: str, people: list[str], front: str = "octa", ground: str = "grey", iso: int = 100) -> Tree:
    """A set-up as far as the shot list looks at it."""
    light = {"modifier": front, "panel": None, "head": "h1", "distance_m": 2.0, "bearing_deg": 30,
             "centre_height_m": 2.0, "dial": "1/2"}  # fmt: skip
    camera = {"lens": "85", "distance_m": 3.0, "height_m": 1.2, "orientation": "upright", "aperture": 8.0, "iso": iso}
    return {"name": name, "sitters": [{"label": w, "seat": None} for w in people], "lights": [light],
            "background": {"id": ground, "distance_m": 2.0}, "camera": camera}  # fmt: skip
