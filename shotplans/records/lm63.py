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

MOST_BYTES = 2_000_000
MOST_ANGLES = 1_000
FIRST_LINES = ("IESNA:LM-63-1995", "IESNA:LM-63-2002")
_WHOLE = "a whole number"


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
            raise Unreadable("The file gives no light on the axis (0 degrees): that is no beam to aim.") from None


class _Numbers:
    """The numbers of the file one after the other, wherever its lines break."""

    def __init__(self, lines: list[tuple[int, str]], last: int) -> None:
        self.line = last
        self._last = last
        self._found: Iterator[tuple[int, str]] = (
            (n, word) for n, text in lines for word in text.replace(",", " ").split()
        )

    def wrong(self, what: str) -> NoReturn:
        raise Unreadable(f"Line {self.line}: {what}.")

    def number(self, what: str, *, least: float = -math.inf, most: float = math.inf) -> float:
        self.line, word = next(self._found, (self._last, ""))
        if not word:
            self.wrong(f"the file ends where {what} should stand")
        try:
            value = float(word)
        except ValueError:
            self.wrong(f"“{word[:20]}” stands where {what} should")
        if not (math.isfinite(value) and least <= value <= most):
            self.wrong(f"{word[:20]} cannot be {what}")
        return value

    def whole(self, what: str, *, least: int, most: int) -> int:
        value = self.number(what, least=least, most=most)
        if value != int(value):
            self.wrong(f"{value:g} cannot be {what}: {_WHOLE} is expected")
        return int(value)

    def rising(self, what: str, count: int, *, first: tuple[float, ...], last: tuple[float, ...]) -> tuple[float, ...]:
        """So many angles, each above the one before."""
        found: list[float] = []
        for _ in range(count):
            found.append(self.number(what, least=0, most=360))
            if len(found) == 1 and found[0] not in first:
                self.wrong(f"the first {what} is {found[0]:g}, expected {_either(first)}")
            if len(found) > 1 and found[-1] <= found[-2]:
                self.wrong(f"{what} {found[-1]:g} does not rise above {found[-2]:g}")
        if found[-1] not in last:
            self.wrong(f"the last {what} is {found[-1]:g}, expected {_either(last)}")
        return tuple(found)

    def end(self) -> None:
        for line, word in self._found:
            self.line = line
            self.wrong(f"“{word[:20]}” stands after the last intensity")


def read_lm63(content: bytes) -> Photometry:
    """A file as its laboratory wrote it. Raises `Unreadable` with the line that is wrong."""
    if len(content) > MOST_BYTES:
        raise Unreadable("Line 1: the file is over 2 MB: no photometric file is.")
    lines = [text.strip() for text in content.decode("latin-1").splitlines()]
    if not lines or lines[0].upper() not in FIRST_LINES:
        raise Unreadable(f"Line 1: expected {' or '.join(FIRST_LINES)}.")
    at = next((n for n, text in enumerate(lines) if text.upper().startswith("TILT=")), None)
    if at is None:
        raise Unreadable(f"Line {len(lines)}: the file ends and no line says TILT=.")
    keywords = tuple(_keyword(n, text) for n, text in enumerate(lines[1:at], 2) if text)
    tilt = lines[at][5:].strip()
    if not tilt:
        raise Unreadable(f"Line {at + 1}: TILT= says nothing, expected NONE, INCLUDE or the name of a file.")
    numbers = _Numbers(list(enumerate(lines, 1))[at + 1 :], len(lines))
    if tilt.upper() == "INCLUDE":
        _pass_tilt(numbers)
    return _photometry(numbers, keywords, tilt)


def _pass_tilt(numbers: _Numbers) -> None:
    """How the lamp's output depends on how it is tilted: the same factor all round, so the beam is as it was."""
    numbers.whole("the lamp's place in the luminaire (1 to 3)", least=1, most=3)
    pairs = numbers.whole("how many tilts there are", least=1, most=MOST_ANGLES)
    for what, most in (("a tilt", 180.0), ("the factor of a tilt", math.inf)):
        for _ in range(pairs):
            numbers.number(what, least=0, most=most)


def _photometry(numbers: _Numbers, keywords: tuple[tuple[str, str], ...], tilt: str) -> Photometry:
    numbers.whole("how many lamps there are", least=1, most=10_000)
    numbers.number("the lumens of a lamp", least=-1)
    factor = numbers.number("the factor of the intensities", least=0)
    count = numbers.whole("how many angles from the axis there are", least=2, most=MOST_ANGLES)
    planes = numbers.whole("how many planes there are", least=1, most=MOST_ANGLES)
    kind = numbers.whole("the type of photometry", least=1, most=3)
    if kind != 1:
        numbers.wrong(f"photometry of type {'CBA'[kind - 1]}: type C (1) alone is read")
    numbers.whole("the unit of lengths (1 feet, 2 metres)", least=1, most=2)
    for what in ("the width", "the length", "the height"):
        numbers.number(what)
    factor *= numbers.number("the factor of the ballast", least=0)
    numbers.number("the number kept for later")
    watts = numbers.number("the watts", least=0)
    angles = numbers.rising("angle from the axis", count, first=(0.0, 90.0), last=(90.0, 180.0))
    round_it = numbers.rising("plane", planes, first=(0.0,), last=(0.0, 90.0, 180.0, 360.0))
    if planes > 1 and round_it[-1] == 0:
        numbers.wrong("several planes end at 0 degrees")
    rows = tuple(tuple(numbers.number("an intensity", least=0) * factor for _ in angles) for _ in round_it)
    numbers.end()
    return Photometry(keywords, tilt, angles, round_it, rows, watts)


def _keyword(line: int, text: str) -> tuple[str, str]:
    """A line `[WORD] what it says` above TILT."""
    word, closed, said = text.partition("]")
    if not (closed and word.startswith("[") and len(word) > 1):
        raise Unreadable(f"Line {line}: expected a keyword in brackets, or TILT=.")
    return word[1:].upper(), said.strip()


def _either(values: tuple[float, ...]) -> str:
    return " or ".join(f"{value:g}" for value in values)
