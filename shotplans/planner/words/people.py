"""Sentences about how several people are placed: rows, seats, what one face hides of another."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {}

REASONS: dict[str, str] = {}

CAUTIONS: dict[str, str] = {}
