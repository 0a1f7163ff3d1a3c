"""What a rule of taste is made of: when it speaks, why, and the numbers a studio may set. The rows are in `rules`."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Number:
    """One number of a rule: what it is, its value out of the box, and the range a studio may set it in."""

    words: str
    value: float
    low: float
    high: float
    unit: str


@dataclass(frozen=True)
class Rule:
    """One rule: when it speaks, the reason in one sentence, and its numbers by name."""

    when: str
    because: str
    numbers: dict[str, Number]
    source: str = "common practice, no source"
