"""Limits of the faces: catchlights, glasses, evenness, rows. Part of check.py."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.light.units import round_to
from shotplans.planner.plan import Solved
from shotplans.planner.problem import Problem


def eyes_and_glasses(solved: Solved, sitters: list[dict[str, Any]]) -> Iterator[Problem]:
    key = solved.lights[0].letter
    wanted = 2 if solved.targets.row.both_eyes and solved.setup.view not in ("profile", "three_quarter") else 1
    for entry in sitters:
        lit = sum(1 for c in entry["catchlights"] if c["light"] == key and c["seen"])
        if lit < wanted:
            yield Problem(
                None,
                "catchlight",
                float(wanted - lit),
                "eyes",
                "catchlight",
                {"label": entry["label"], "seen": lit, "wanted": wanted},
            )
        for g in entry["glasses"]:
            if g["cure"]:
                yield Problem(
                    None,
                    "glare",
                    max(1.0, 1.0 - g["margin_deg"]),
                    "deg",
                    "glare",
                    {"label": entry["label"], "letter": g["light"], "cure": g["cure"]},
                )


def evenness(solved: Solved, expected: dict[str, Any]) -> Iterator[Problem]:
    limit, spread = solved.targets.row.faces_stops, expected["evenness_stops"]
    if spread > float(round_to(limit, 0.1)) + 1e-9:
        bright, dim = expected["worst_pair"]
        yield Problem(
            None,
            "evenness",
            max(0.1, round(spread - limit, 1)),
            "stops",
            "evenness",
            {"spread": spread, "limit": limit, "bright": bright, "dim": dim},
        )


def people(solved: Solved) -> Iterator[Problem]:
    rows = {s.row for s in solved.pose.together}
    if len(rows) > 4:
        yield Problem(None, "people", float(len(rows) - 4), "rows", "too_many_rows", {"rows": len(rows)})
    if solved.targets.intent_offered:
        yield Problem(None, "people", float(len(solved.pose.together) - 3), "people", "character_for_many", {})
