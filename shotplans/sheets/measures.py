"""Lengths and masses as a studio writes them: metres and kilograms, or feet, inches and pounds. Inside all is SI; what
is written on a sheet or a page or drawn beside a line comes through here."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shotplans.light.units import feet_and_inches

POUND_KG = 0.45359237  # exact: international yard and pound agreement of 1959
FOOT_M = 0.3048  # exact, the same
INCH_M = 0.0254  # exact, the same
SHORT_M = 2 * FOOT_M
NUMBER = r"([+-]?\d+(?:\.\d+)?)"
MEASURED = re.compile(rf"(?<![\w.]){NUMBER}(?:( x | to ){NUMBER})? m\b")
# The one sentence that says its unit for the first of two pairs only; both are before and behind the focus.
FOCUS = re.compile(r"(m about the focus .*?need )([+-][\d.]+\d) to ([+-][\d.]+\d)(?! m)")
WEIGHED = re.compile(rf"(?<![\w.]){NUMBER} kg\b")


@dataclass(frozen=True)
class Measures:
    """One way of writing measures: `METRIC` or `IMPERIAL`."""

    units: str
    grid_m: float
    grid_words: str

    @property
    def is_imperial(self) -> bool:
        return self.units == "imperial"

    def length(self, metres: float) -> str:
        """With its unit, to 2 in on an imperial tape: "2.10 m", "6 ft 10 in"."""
        return feet_and_inches(metres) if self.is_imperial else f"{metres:.2f} m"

    def number(self, metres: float) -> str:
        """As short as on a dimension line: "2.10", 6'10"."""
        if not self.is_imperial:
            return f"{metres:.2f}"
        feet, _ft, inches, _in = feet_and_inches(metres).split()
        return f"{feet}'{inches}\""

    def column(self, metres: float) -> str:
        """In a column of large figures, where feet and inches have no room for words: "2.10 m", 6'10"."""
        return self.number(metres) if self.is_imperial else self.length(metres)

    def signed(self, metres: float) -> str:
        """Before (-) or behind (+) something: "+0.45 m"; a tape's two inches are too coarse here."""
        return f"{metres / FOOT_M:+.1f} ft" if self.is_imperial else f"{metres:+.2f} m"

    def mass(self, kilograms: float) -> str:
        """Whole pounds, or kilograms as they are given: "7 kg", "15 lb"."""
        return f"{round(kilograms / POUND_KG)} lb" if self.is_imperial else f"{kilograms:g} kg"


    def said(self, sentence: str) -> str:
        """A planner's sentence, its metres and kilograms written this way; the names of things stay as they are."""
        if not self.is_imperial:
            return sentence
        whole = FOCUS.sub(r"\1\2 to \3 m", sentence)
        return WEIGHED.sub(lambda found: self.mass(float(found[1])), MEASURED.sub(self._measured, whole))

    def _measured(self, found: re.Match[str]) -> str:
        one, between, other = found.groups()
        return self._near(one) + (between + self._near(other) if other else "")

    def _near(self, number: str) -> str:
        return ("+" if number.startswith("+") else "") + self.near(float(number))

    def near(self, metres: float) -> str:
        """A length in a sentence: below two feet to an inch, for there two inches are too coarse."""
        return f"{round(metres / INCH_M)} in" if abs(metres) < SHORT_M else self.length(metres)


METRIC = Measures("metric", 0.5, "50 cm")
IMPERIAL = Measures("imperial", 2 * FOOT_M, "2 ft")


def of(units: str) -> Measures:
    """By the word of the studio's profile."""
    return {"metric": METRIC, "imperial": IMPERIAL}[units]
