"""Sentences about other ways to do it: alternatives, what-if, how sure a reading is, the nearest plan."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}

REASONS: dict[str, str] = {}

CAUTIONS: dict[str, str] = {}
