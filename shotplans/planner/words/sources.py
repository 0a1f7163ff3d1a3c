"""Sentences about modifiers as they are: beams, cores, lips and grids, strips, feathering, windows and flicker."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}

REASONS: dict[str, str] = {}

CAUTIONS: dict[str, str] = {}
