"""What a browser sent, as values. Belongs here: reading fields that pages fill in themselves, where anything else than
what they wrote is nobody's typing mistake and gets no sentence. Not here: what people type (forms)."""

from __future__ import annotations


def whole(text: str, *, digits: int = 9) -> int | None:
    """A whole number of at most so many digits; None for anything else."""
    return int(text) if text.isascii() and text.isdecimal() and len(text) <= digits else None
