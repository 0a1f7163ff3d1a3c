"""Names of people in sentences: found as whole words, whatever their case, and replaced.

Belongs here: those two. Not here: who else a sentence speaks of (`pictures`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping


def has(sentence: str, name: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(name.casefold())}(?!\w)", sentence.casefold()) is not None


def replaced(sentence: str, others: Mapping[str, str]) -> str:
    """The sentence with other names in place of those it says; the longest is looked for first, none twice over."""
    if not others:
        return sentence
    by_name = {name.casefold(): other for name, other in others.items()}
    every = "|".join(re.escape(name) for name in sorted(others, key=len, reverse=True))
    found = re.compile(rf"(?<!\w)(?:{every})(?!\w)", re.IGNORECASE)
    return found.sub(lambda one: by_name.get(one[0].casefold(), one[0]), sentence)
