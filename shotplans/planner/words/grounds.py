"""Sentences about what is behind and beside: ground lights, accents, flags, flare, wrap, colour."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}

REASONS: dict[str, str] = {}

CAUTIONS: dict[str, str] = {}
