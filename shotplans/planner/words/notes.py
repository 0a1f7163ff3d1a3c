"""Sentences about what notes and wishes ask for, and what was done where two of them disagree."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}

REASONS: dict[str, str] = {}

CAUTIONS: dict[str, str] = {}
