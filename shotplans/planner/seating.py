"""Who sits where nobody said so: the stated default of a posture that the brief leaves open.

Belongs here: that one rule, on the raw tree, for the table in `gaps`. Postures that are noted are kept; see `arrange`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shotplans.planner.anatomy import GROWN_YEARS
from shotplans.planner.people import OLDER_YEARS

Entry = Mapping[str, Any]


def usual_posture(sitter: Entry, tree: Entry) -> str:
    """Seated; in a group only as many as there are chairs for, and no more than half unless more should not stand.

    Chairs go to hips, backs and short stands first, then to the oldest; the others stand. Common practice, no source.
    """
    groups = [s for s in tree["brief"]["setups"] if s["framing"] == "group" and sitter["label"] in s["people"]]
    if not groups:
        return "seated"
    together = set(max(groups, key=lambda s: len(s["people"]))["people"])
    people = [(n, p) for n, p in enumerate(tree["sitters"]) if p["label"] in together]
    half = (len(people) + 1) // 2
    chairs = min(len(tree["kit"]["seats"]), max(half, sum(_should_sit(p) for _, p in people)))
    left = chairs - sum(p["posture"] == "seated" for _, p in people)
    still_open = sorted((not _noted(p), -_age(p), n) for n, p in people if p["posture"] is None)
    mine = next(rank for rank, (_, _, n) in enumerate(still_open) if tree["sitters"][n]["label"] == sitter["label"])
    return "seated" if mine < left else "standing"


def _age(sitter: Entry) -> float:
    return GROWN_YEARS if sitter["age_years"] is None else float(sitter["age_years"])


def _noted(sitter: Entry) -> bool:
    return bool(sitter["hip_or_back"]) or sitter["stand_minutes"] is not None


def _should_sit(sitter: Entry) -> bool:
    return _noted(sitter) or _age(sitter) >= OLDER_YEARS
