"""A language that nobody speaks: every sentence of the interface with accents, two fifths longer, between brackets.

Belongs here: making it of any sentence, and speaking it in this process. What a page shows without brackets is data, or
a word that no translation reaches; what breaks with it breaks in a language of long words.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from django.utils import translation

from studio import tongue

ACCENTS = str.maketrans("aceinostuyACEINOSTUY", "áçéíñóšťúýÁÇÉÍÑÓŠŤÚÝ")
LONGER = 0.4
# Values of every kind of format, tags and entities stay as they are.
KEPT = re.compile(r"%(?:\(\w+\))?[-+#0]*\d*(?:\.\d+)?[a-zA-Z%]|{[^{}]*}|<[^<>]*>|&#?\w+;")


def said(sentence: str) -> str:
    """One sentence in that language; spaces at its ends stay where they are."""
    words = sentence.strip()
    if not words:
        return sentence
    parts, at = [], 0
    for kept in KEPT.finditer(words):
        parts += [words[at : kept.start()].translate(ACCENTS), kept.group()]
        at = kept.end()
    parts.append(words[at:].translate(ACCENTS))
    longer = "·" * round(LONGER * len(KEPT.sub("", words)))
    before, after = sentence[: len(sentence) - len(sentence.lstrip())], sentence[len(sentence.rstrip()) :]
    return f"{before}⟦{''.join(parts)}{longer}⟧{after}"


def _plural(one: str, many: str, n: int) -> str:
    return said(one if n == 1 else many)


class Everybody:
    """Speaks it to packages without Django."""

    def gettext(self, message: str) -> str:
        return said(message)

    def ngettext(self, singular: str, plural: str, number: int) -> str:
        return _plural(singular, plural, number)

    def get_language(self) -> str:
        return "pseudo"


@contextmanager
def said_by_all() -> Iterator[None]:
    """Inside, packages without Django speak it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(tongue, "_translator", Everybody())
        yield


@contextmanager
def spoken() -> Iterator[None]:
    """Inside, the interface speaks it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(translation._trans, "gettext", said, raising=False)
        if not isinstance(tongue._translator, tongue.English):  # which they have who are used without the app
            patch.setattr(tongue, "_translator", Everybody())  # what is kept by language is kept apart
        patch.setattr(translation._trans, "pgettext", lambda _context, words: said(words), raising=False)
        patch.setattr(translation._trans, "ngettext", _plural, raising=False)
        patch.setattr(
            translation._trans, "npgettext", lambda _context, one, many, n: _plural(one, many, n), raising=False
        )
        yield
