"""Sentences about what notes and wishes ask for, and what was done where two of them disagree."""

from __future__ import annotations

PROBLEMS: dict[str, tuple[str, str]] = {
    "time_short": (
        "Pictures, changes of set-up and what was asked for need {need} minutes; {booked} are booked.",
        "{short} minutes more, or {fewer} pictures fewer.",
    ),
}

REASONS: dict[str, str] = {
    "source_larger": "Gloss is to be spread over a larger front, so the source was wanted {more} degrees larger: {low} to "
    "{high} across; from the face it is {size} degrees across here.",
    "accent_on_dark": "What is as dark as the ground would melt into it: a light from behind, {low} to {high} stops under the "
    "key at its own place, keeps the outline.",
}

CAUTIONS: dict[str, str] = {}
