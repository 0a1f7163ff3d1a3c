"""Sentences about other ways to do it: alternatives, what-if, how sure a reading is, the nearest plan."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}
REASONS: dict[str, str] = {}
CAUTIONS: dict[str, str] = {}

TEACHES = (
    "Read light {letter} ({role}) alone first: of all readings of one light it says most about the others. With it known, "
    "the setting reading is good to about {after} stop instead of {before}."
)
