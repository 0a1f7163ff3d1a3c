"""Photometric files of a laboratory (LM-63-1995 and -2002): the intensity of a lamp over angles, as text.

Belongs here: reading one, and refusing what is none with the line that is wrong. Only type C photometry is read, whose
angles are counted from the lamp's axis. Not here: what the light of it is (`light.photometry`), where it is kept.
Source: [LM63].
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NoReturn

from shotplans.light import photometry
from shotplans.planner.words import joined
from studio.tongue import gettext as _
from studio.tongue import noop

MOST_BYTES = 2_000_000
MOST_ANGLES = 1_000
FIRST_LINES = ("IESNA:LM-63-1995", "IESNA:LM-63-2002")
_WHOLE = noop("a whole number")


class Unreadable(ValueError):
    """No photometric file; `str()` begins with the line that is wrong."""


@dataclass(frozen=True)
class Photometry:
    """What a file says. Angles in degrees: `angles_deg` from the axis, `planes_deg` round it; `candela` a row for each
    plane, with every factor of the file in it."""

    keywords: tuple[tuple[str, str], ...]
    tilt: str
    angles_deg: tuple[float, ...]
    planes_deg: tuple[float, ...]
    candela: tuple[tuple[float, ...], ...]
    watts: float

    @property
    def mean_cd(self) -> tuple[float, ...]:
        """Intensity at each angle from the axis, as the mean of all planes round it."""
        return tuple(float(x) for x in photometry.mean_over_planes(self.planes_deg, self.candela))

    @property
    def flux_lm(self) -> float:
        return photometry.flux_lm(self.angles_deg, self.mean_cd)

    @property
    def shares(self) -> tuple[float, ...]:
        """The beam ahead; raises `Unreadable` where there is no light on the axis."""
        try:
            return photometry.shares_of_axis(self.angles_deg, self.mean_cd)
        except ValueError:
            raise Unreadable(_("The file gives no light on the axis (0 degrees): that is no beam to aim.")) from None


class _Numbers:
    """The numbers of the file one after the other, wherever its lines break."""

    def __init__(self, lines: list[tuple[int, str]], last: int) -> None:
        self.line = last
        self._last = last
        self._found: Iterator[tuple[int, str]] = (
            (n, word) for n, text in lines for word in text.replace(",", " ").split()
        )

    def wrong(self, what: str) -> NoReturn:
        raise Unreadable(_("Line {line}: {what}.").format(line=self.line, what=what))

    def number(self, what: str, *, least: float = -math.inf, most: float = math.inf) -> float:
        self.line, word = next(self._found, (self._last, ""))
        if not word:
            self.wrong(_("the file ends where {what} should stand").format(what=what))
        try:
            value = float(word)
        except ValueError:
            self.wrong(_("“{word}” stands where {what} should").format(word=word[:20], what=what))
        if not (math.isfinite(value) and least <= value <= most):
            self.wrong(_("{word} cannot be {what}").format(word=word[:20], what=what))
        return value

    def whole(self, what: str, *, least: int, most: int) -> int:
        value = self.number(what, least=least, most=most)
        if value != int(value):
            self.wrong(
                _("{value:g} cannot be {what}: {whole} is expected").format(value=value, what=what, whole=_(_WHOLE))
            )
        return int(value)

    def rising(self, what: str, count: int, *, first: tuple[float, ...], last: tuple[float, ...]) -> tuple[float, ...]:
        """So many angles, each above the one before."""
        found: list[float] = []
        for _n in range(count):
            found.append(self.number(what, least=0, most=360))
            if len(found) == 1 and found[0] not in first:
                self.wrong(
                    _("the first {what} is {found:g}, expected {either}").format(
                        what=what, found=found[0], either=_either(first)
                    )
                )
            if len(found) > 1 and found[-1] <= found[-2]:
                self.wrong(
                    _("{what} {value:g} does not rise above {before:g}").format(
                        what=what, value=found[-1], before=found[-2]
                    )
                )
        if found[-1] not in last:
            self.wrong(
                _("the last {what} is {found:g}, expected {either}").format(
                    what=what, found=found[-1], either=_either(last)
                )
            )
        return tuple(found)

    def end(self) -> None:
        for line, word in self._found:
            self.line = line
            self.wrong(_("“{word}” stands after the last intensity").format(word=word[:20]))


def read_lm63(content: bytes) -> Photometry:
    """A file as its laboratory wrote it. Raises `Unreadable` with the line that is wrong."""
    if len(content) > MOST_BYTES:
        raise Unreadable(_("Line 1: the file is over 2 MB: no photometric file is."))
    lines = [text.strip() for text in content.decode("latin-1").splitlines()]
    if not lines or lines[0].upper() not in FIRST_LINES:
        raise Unreadable(_("Line 1: expected {first}.").format(first=joined.one_of(FIRST_LINES)))
    at = next((n for n, text in enumerate(lines) if text.upper().startswith("TILT=")), None)
    if at is None:
        raise Unreadable(_("Line {line}: the file ends and no line says TILT=.").format(line=len(lines)))
    keywords = tuple(_keyword(n, text) for n, text in enumerate(lines[1:at], 2) if text)
    tilt = lines[at][5:].strip()
    if not tilt:
        raise Unreadable(
            _("Line {line}: TILT= says nothing, expected NONE, INCLUDE or the name of a file.").format(line=at + 1)
        )
    numbers = _Numbers(list(enumerate(lines, 1))[at + 1 :], len(lines))
    if tilt.upper() == "INCLUDE":
        _pass_tilt(numbers)
    return _photometry(numbers, keywords, tilt)


def _pass_tilt(numbers: _Numbers) -> None:
    """How the lamp's output depends on how it is tilted: the same factor all round, so the beam is as it was."""
    numbers.whole(_("the lamp's place in the luminaire (1 to 3)"), least=1, most=3)
    pairs = numbers.whole(_("how many tilts there are"), least=1, most=MOST_ANGLES)
    for what, most in ((_("a tilt"), 180.0), (_("the factor of a tilt"), math.inf)):
        for _n in range(pairs):
            numbers.number(what, least=0, most=most)


def _photometry(numbers: _Numbers, keywords: tuple[tuple[str, str], ...], tilt: str) -> Photometry:
    numbers.whole(_("how many lamps there are"), least=1, most=10_000)
    numbers.number(_("the lumens of a lamp"), least=-1)
    factor = numbers.number(_("the factor of the intensities"), least=0)
    count = numbers.whole(_("how many angles from the axis there are"), least=2, most=MOST_ANGLES)
    planes = numbers.whole(_("how many planes there are"), least=1, most=MOST_ANGLES)
    kind = numbers.whole(_("the type of photometry"), least=1, most=3)
    if kind != 1:
        numbers.wrong(_("photometry of type {kind}: type C (1) alone is read").format(kind="CBA"[kind - 1]))
    numbers.whole(_("the unit of lengths (1 feet, 2 metres)"), least=1, most=2)
    for what in (_("the width"), _("the length"), _("the height")):
        numbers.number(what)
    factor *= numbers.number(_("the factor of the ballast"), least=0)
    numbers.number(_("the number kept for later"))
    watts = numbers.number(_("the watts"), least=0)
    angles = numbers.rising(_("angle from the axis"), count, first=(0.0, 90.0), last=(90.0, 180.0))
    round_it = numbers.rising("plane", planes, first=(0.0,), last=(0.0, 90.0, 180.0, 360.0))
    if planes > 1 and round_it[-1] == 0:
        numbers.wrong(_("several planes end at 0 degrees"))
    intensity = _("an intensity")
    rows = tuple(tuple(numbers.number(intensity, least=0) * factor for _angle in angles) for _plane in round_it)
    numbers.end()
    return Photometry(keywords, tilt, angles, round_it, rows, watts)


def _keyword(line: int, text: str) -> tuple[str, str]:
    """A line `[WORD] what it says` above TILT."""
    word, closed, said = text.partition("]")
    if not (closed and word.startswith("[") and len(word) > 1):
        raise Unreadable(_("Line {line}: expected a keyword in brackets, or TILT=.").format(line=line))
    return word[1:].upper(), said.strip()


def _either(values: tuple[float, ...]) -> str:
    return joined.one_of([f"{value:g}" for value in values])
