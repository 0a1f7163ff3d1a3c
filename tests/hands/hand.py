"""What a hand can do at a page, and what that costs it. Belongs here: the verbs of a script of steps, each told by what
stands on the page, and the counting. Not here: how a page is reached (`quick`, `tests.browser.hand`).

A typed character is a key; going on to the next field is none, for the tab key is as quick as reading. A picked option,
a tick, a link, a button and a fold that must be opened first are one click each.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass


@dataclass
class Counted:
    """Clicks and keys so far."""

    clicks: int = 0
    keys: int = 0

    def __sub__(self, before: Counted) -> Counted:
        return Counted(self.clicks - before.clicks, self.keys - before.keys)

    def copy(self) -> Counted:
        return Counted(self.clicks, self.keys)


class Hand(ABC):
    """Somebody signed in, at one page. Links, buttons and fields are meant by the words on them, whole or in part;
    `beside` says near which words, where a page has several of them."""

    def __init__(self) -> None:
        self.counted = Counted()

    @abstractmethod
    def home(self) -> None:
        """The first page, by the house's name in the head bar."""

    @abstractmethod
    def follow(self, words: str, *, beside: str = "") -> None:
        """Click a link."""

    @abstractmethod
    def press(self, words: str, *, beside: str = "") -> None:
        """Click a button."""

    @abstractmethod
    def type(self, label: str, text: str, *, beside: str = "") -> None:
        """Type into a field over what it holds. A day is typed 2026-12-03, a time 11:30; separators are no keys."""

    @abstractmethod
    def pick(self, label: str, option: str, *, beside: str = "") -> None:
        """Choose one of a list, by the words of the choice."""

    @abstractmethod
    def tick(self, label: str, *, beside: str = "") -> None:
        """Tick a box, or choose one of several circles."""

    @abstractmethod
    def name_client(self, name: str) -> None:
        """Say on the page of a new sitting that a client is meant who is known already."""

    @abstractmethod
    def find(self, text: str) -> None:
        """The key that goes to Find, the text, the return key."""

    @property
    @abstractmethod
    def words(self) -> str:
        """What the page says now."""

    @abstractmethod
    def paper(self, words: str, *, beside: str = "") -> str:
        """The words of the paper a link leads to."""

    @abstractmethod
    def says(self, *texts: str) -> None:
        """The page says each of these, or will in a moment."""

    def says_not(self, *texts: str) -> None:
        for text in texts:
            assert text not in self.words, f"“{text}” is said after all"

    @abstractmethod
    def cut_off(self) -> None:
        """From now on the house does not answer: what is kept waits on the device, if it has a script."""

    @abstractmethod
    def back_on(self) -> None:
        """The house answers again, and is sent what waited."""


def keys_of(kind: str, text: str) -> int:
    """How many keys a text costs in a field of this kind."""
    if kind in ("date", "time", "datetime-local", "month"):
        return sum(letter.isdigit() for letter in text)
    return len(text)
