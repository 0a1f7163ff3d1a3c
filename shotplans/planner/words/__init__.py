"""One catalogue for everything the planner says: problems with their mends, reasons, cautions. Codes in, sentences out.

Sentences carry the numbers they are given and nothing else; they are neutral about people and fit to be read by them.
Reasons of notes stay with those who may see notes: paper and desk take the numbers without them. A code stands in one
part only; the parts are named for what they speak of.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shotplans.planner.words import cautions, grounds, notes, people, problems, reasons, rigs, sources, ways
from shotplans.planner.words.reasons import SIDE_WHY as SIDE_WHY

_PARTS = (people, sources, grounds, notes, rigs, ways)
PROBLEMS: dict[str, tuple[str, str]] = dict(problems.PROBLEMS)
REASONS: dict[str, str] = dict(reasons.REASONS)
CAUTIONS: dict[str, str] = dict(cautions.CAUTIONS)
for _part in _PARTS:
    PROBLEMS |= _part.PROBLEMS
    REASONS |= _part.REASONS
    CAUTIONS |= _part.CAUTIONS


def problem(code: str, values: Mapping[str, Any], short_by: float) -> tuple[str, str]:
    """What a problem says and the smallest change that mends it."""
    says, mend = PROBLEMS[code]
    filled = {**values, "short": f"{short_by:g}"}
    return says.format(**filled), mend.format(**filled)


def reason(code: str, values: Mapping[str, Any]) -> str:
    """A reason in one or two sentences."""
    return REASONS[code].format(**values)


def caution(code: str, values: Mapping[str, Any] | None = None) -> str:
    """A caution in one sentence."""
    return CAUTIONS[code].format(**(values or {}))


def teaches(letter: str, role: str, before_stops: float, after_stops: float) -> str:
    """Which reading to take first, and what it does for the setting reading."""
    values = {"letter": letter, "role": role, "before": f"{before_stops:.1f}", "after": f"{after_stops:.1f}"}
    return ways.TEACHES.format(**values)


def alternative(modifier: str, distance_m: float, size_deg: float) -> str:
    """How another plan differs."""
    return f"With {modifier} as key, {distance_m:.2f} m off, seen {size_deg:.0f} degrees across."


def costs(other: Mapping[str, Any], ours: Mapping[str, Any]) -> str:
    """What another way changes, number against number."""
    relief = [sum(s["relief_stops"] for s in e["per_sitter"]) / len(e["per_sitter"]) for e in (other, ours)]
    said = [
        f"nose shadow's edge {other['shadow_edge_mm']:.0f} mm instead of {ours['shadow_edge_mm']:.0f}",
        f"relief {relief[0]:.2f} stops instead of {relief[1]:.2f}",
        f"fill {other['fill_below_key_stops']:.1f} stops under the key instead of {ours['fill_below_key_stops']:.1f}",
    ]
    if ours["worst_pair"]:
        said.append(f"faces within {other['evenness_stops']:.1f} stop instead of {ours['evenness_stops']:.1f}")
    return f"{'; '.join(said)}.".capitalize()
