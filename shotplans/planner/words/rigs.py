"""Sentences about what carries and feeds the lights: arms, weights, circuits, batteries, heat, motion."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}

REASONS: dict[str, str] = {}

CAUTIONS: dict[str, str] = {}
