"""Planning the five demo sittings: seconds a set-up, and candidates looked at.

What belongs here: the work to be timed, by name. How it is timed and against what is in `__main__`.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

from shotplans.planner.codec import read_request
from shotplans.planner.solve import plan

BRIEFS = Path(__file__).parents[2] / "fixtures" / "briefs"


def planning() -> dict[str, Callable[[], object]]:
    """A plan of each demo brief; the name holds its set-ups and candidates."""
    works: dict[str, Callable[[], object]] = {}
    for path in sorted(BRIEFS.glob("*.json")):
        request = read_request(path.read_bytes())
        document = plan(request)
        setups, scored = len(document["setups"]), document["candidates_scored"]
        works[f"plan of {path.stem}, {setups} set-ups, {scored:,} candidates"] = lambda request=request: plan(request)
    return works


def setups_of(name: str) -> int:
    """How many set-ups a work of `planning` plans: its time is shared among them."""
    return len(json.loads((BRIEFS / f"{name.split()[2].rstrip(',')}.json").read_text())["brief"]["setups"])
