"""The meter round as printed: where the meter stands, where its dome points, what is on, and each target.

Targets include the bounce. The readings themselves are in steps.py, how sure each is in uncertainty.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from shotplans.planner.expect import Meter
from shotplans.planner.plan import Solved
from shotplans.planner.steps import Step

TOLERANCE = {"key": 0.2, "fill": 0.2, "accent": 0.3, "background": 0.2, "setting": 0.2, "faces": 0.3, "all": 0.3}
MATCHED_TOLERANCE = 0.1


def numbered(
    solved: Solved, meter: Meter, taken: Sequence[Step], sure: Sequence[dict[str, Any]]
) -> list[dict[str, Any]]:
    """The steps in the order they are done, numbered from 1, each with how sure it is."""
    return [{"step": n + 1, **_step(solved, meter, s, sure[n])} for n, s in enumerate(taken)]


def _step(solved: Solved, meter: Meter, step: Step, sure: dict[str, Any]) -> dict[str, Any]:
    matched = solved.setup.intent == "even" and step.kind in ("key", "setting")
    standard = solved.notes["brief"].standard_of(solved.setup)  # type: ignore[attr-defined]
    own = standard.tolerance_stops if standard is not None and step.kind in ("key", "setting") else None
    panels = step.panels_in and bool(meter.panels or solved.blocks)
    return {
        "place": step.place,
        "dome": "recessed" if step.recessed else "out",
        "toward": "light" if step.to_light else "camera",
        "on": [x.letter for x in step.on],
        "panels": "in" if panels else "out",
        "target": meter.shown(step.value),
        **sure,
        "tolerance_stops": own or (MATCHED_TOLERANCE if matched else TOLERANCE[step.kind]),
        "sets_camera": step.kind == "setting",
    }
