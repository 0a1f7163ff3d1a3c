"""Lengths as they are typed and as a form shows them. Belongs here: metres from "4 ft 6 in", "54 in", "1.37 m", and
back. Not here: how a sheet writes a length (`shotplans.sheets.measures`), or a field of a form."""

from __future__ import annotations

import re

METRES = {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254}  # exact: yard and pound agreement of 1959
CALLED = {
    "'": "ft", "\u2032": "ft", "\u2019": "ft", "foot": "ft", "feet": "ft",
    '"': "in", "\u2033": "in", "\u201d": "in", "''": "in", "inch": "in", "inches": "in",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
}  # fmt: skip
NUMBER = r"\d{1,6}(?:\.\d{0,9})?|\.\d{1,9}"
MARKS = "''|['\"\u2032\u2033\u2019\u201d]"
# a number, a fraction after it, or the fraction alone, as in "3 ft 1/2 in"
PART = re.compile(
    rf"\s*(?:({NUMBER})(?:\s+(?=\d+/)|(?!\d*/)))?(?:(\d{{1,2}})/(\d{{1,2}}))?\s*([a-z]+|{MARKS})?", re.IGNORECASE
)
TENTH_MM = 4  # decimals of a metre that are kept: no tape is finer
EIGHTHS = 8


class NoLength(ValueError):
    """What was typed is no length."""


def parse(text: str, units: str, bare: str = "ft") -> float:
    """Metres, any sign, to a tenth of a millimetre. A bare number is metres, or `bare` where the house's `units` are
    imperial; inches may follow feet without their name. Raises NoLength. Source: definition."""
    typed = text.strip().replace(",", ".")
    sign = -1.0 if typed[:1] in ("-", "\u2212") else 1.0
    rest, found, last = typed.lstrip("+-\u2212"), 0.0, ""
    while rest.strip():
        part = PART.match(rest)
        number, above, below, name = part.groups() if part else (None,) * 4
        if part is None or not (number or above):
            raise NoLength(text)
        unit = CALLED.get((name or "").lower(), (name or "").lower())
        if not unit:
            unit = "in" if last == "ft" else "" if last else {"imperial": bare}.get(units, "m")
        if not name and not last and (rest[part.end() :].strip() or not number):
            raise NoLength(text)  # "6 7" is anybody's guess, and so is "1/2"
        if unit not in METRES or last not in ("", "ft") or (last and unit != "in") or (below and not int(below)):
            raise NoLength(text)
        value = float(number or 0) + (int(above) / int(below) if below else 0.0)
        found, last, rest = found + value * METRES[unit], unit, rest[part.end() :]
    if not last:
        raise NoLength(text)
    return round(sign * found, TENTH_MM) + 0.0


def shown(metres: float, units: str, bare: str = "ft") -> str:
    """As a field shows it, so that `parse` gives the same back: "1.37", or "4 ft 6 in" with eighths of an inch; inches
    alone where they are what a bare number means."""
    if units != "imperial":
        return f"{metres:.10f}".rstrip("0").rstrip(".")
    inches = abs(metres) / METRES["in"]
    written = _feet if bare == "ft" else _inches
    words = written(round(inches * EIGHTHS) / EIGHTHS)
    if parse(words, units) != round(abs(metres), TENTH_MM):
        words = written(round(inches, 3))
    return f"-{words}" if metres < 0 else words


def _feet(inches: float) -> str:
    feet, rest = divmod(inches, 12)
    parts = [f"{feet:.0f} ft"] if feet else []
    parts += [_inches(rest)] if rest or not feet else []
    return " ".join(parts)


def _inches(inches: float) -> str:
    return f"{inches:.3f}".rstrip("0").rstrip(".") + " in"
