"""Why people are placed as they are: turns, pairs, rows. Called by reasons.py."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from shotplans.planner import pattern
from shotplans.planner.expect import bearing_from_nose
from shotplans.planner.plan import Solved
from shotplans.planner.poses import ROW_SPACING_M
from shotplans.planner.reason import TRADE, Reason


def people(solved: Solved, at: str) -> Iterator[Reason]:
    together, key = solved.pose.together, solved.lights[0]
    framing = (f"{at}.framing",)
    if solved.pose.in_turn:
        yield Reason("changes_per_person", "in_turn", framing, TRADE, {"people": len(solved.pose.seated)})
    if len(together) == 1 and together[0].nose_deg:
        s = together[0]
        rel = bearing_from_nose(key, s)
        which = pattern.side(s.nose_deg, rel)
        yield Reason(
            "sitters[0].nose_bearing_deg",
            "turn",
            framing,
            TRADE,
            {
                "label": s.person.label if not solved.pose.in_turn else "Each sitter",
                "turn": f"{abs(s.nose_deg):.0f}",
                "side": "right" if s.nose_deg > 0 else "left",
                "rel": f"{abs(rel):.0f}",
                "which": "" if which == "none" else f": {which} light",
            },
        )
    if len(together) == 2 and solved.setup.framing != "group":
        far, near = sorted(together, key=lambda s: -float(np.linalg.norm(key.at - np.array(s.face_m))))
        yield Reason(
            "sitters",
            "pair",
            framing,
            TRADE,
            {
                "far": far.person.label,
                "near": near.person.label,
                "turn": f"{abs(far.nose_deg):.0f}",
            },
        )
    if len(together) > 3:
        zs = [s.face_m[2] for s in together]
        rows = len({s.row for s in together})
        yield Reason(
            "sitters",
            "rows" if rows > 1 else "one_row",
            framing,
            TRADE,
            {
                "rows": rows,
                "spacing": ROW_SPACING_M,
                "depth": f"{max(zs) - min(zs):.2f}",
            },
        )
