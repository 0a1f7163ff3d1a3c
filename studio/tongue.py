"""How packages without a framework say a sentence in the reader's language.

Belongs here: the one translator they ask, and marking sentences that are kept in a table and said later. The app above
sets its own (studio.apps), which follows the language of whoever reads; where none is set, sentences stay English, so a
planner used alone needs nothing. Not here: sentences.
"""

from __future__ import annotations

from collections.abc import Hashable
from functools import lru_cache
from typing import Protocol


class Translator(Hashable, Protocol):
    """Whatever knows a sentence in another language."""

    def gettext(self, message: str) -> str: ...

    def ngettext(self, singular: str, plural: str, number: int) -> str: ...

    def get_language(self) -> str: ...


class English:
    """The language the sentences are written in."""

    def gettext(self, message: str) -> str:
        return message

    def ngettext(self, singular: str, plural: str, number: int) -> str:
        return singular if number == 1 else plural

    def get_language(self) -> str:
        return "en"


_translator: Translator = English()


def use(translator: Translator) -> None:
    """From here on every sentence of this process is asked of `translator`."""
    global _translator
    _translator = translator


@lru_cache(maxsize=8192)
def _said(translator: Translator, language: str, message: str) -> str:
    return translator.gettext(message)


def gettext(message: str) -> str:
    """The sentence as its reader says it; values are put in after, by name, so that their order may differ. Looked up
    once a language: a set under a hand says three hundred sentences an answer, and most catalogues are asked in turn.
    """
    return _said(_translator, _translator.get_language(), message)


def ngettext(singular: str, plural: str, number: int) -> str:
    """The sentence for so many of a thing."""
    return _translator.ngettext(singular, plural, number)


def language() -> str:
    """The code of the language that is spoken just now, as a document names it."""
    return _translator.get_language() or "en"


def noop(message: str) -> str:
    """Marks a sentence of a table, which is made before anybody reads; `gettext` it where it is said."""
    return message
