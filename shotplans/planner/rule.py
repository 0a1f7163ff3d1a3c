"""What a rule of taste is made of: when it speaks, why, and the numbers a studio may set. The rows are in `rules`.

Rows hold their words as they were written; `said` ones are in the reader's language.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from studio.tongue import gettext as _
from studio.tongue import noop

FROM, TO = noop("{what}, from"), noop("{what}, to")


@dataclass(frozen=True)
class Number:
    """One number of a rule: what it is, its value out of the box, and the range a studio may set it in.

    `end` is FROM or TO for one end of a band, which `what` then names.
    """

    what: str
    value: float
    low: float
    high: float
    unit: str
    end: str = ""

    @property
    def words(self) -> str:
        """As written: what a record of a change keeps."""
        return self.end.format(what=self.what) if self.end else self.what

    @property
    def said(self) -> str:
        return _(self.end).format(what=_(self.what)) if self.end else _(self.what)


@dataclass(frozen=True)
class Rule:
    """One rule: when it speaks, the reason in one sentence, and its numbers by name; `blanks` are words that stand in
    the first two."""

    when: str
    because: str
    numbers: dict[str, Number]
    source: str = noop("common practice, no source")
    blanks: dict[str, str] = field(default_factory=dict)

    @property
    def said_when(self) -> str:
        return self._said(self.when)

    @property
    def said_because(self) -> str:
        return self._said(self.because)

    @property
    def said_source(self) -> str:
        return _(self.source)

    def _said(self, sentence: str) -> str:
        return _(sentence).format(**{name: _(word) for name, word in self.blanks.items()})
