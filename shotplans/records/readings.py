"""Readings as an assistant types them: `5.6 6`, `5.6 +0.6`, `f/5.6 6/10` all mean the same; anything else asks back.

A reading is kept in stops from f/1 (2 log2 N) to a tenth, as a Decimal, so that equal readings are equal. Belongs here:
reading text and comparing; not here: what to do about a difference.
"""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

from shotplans.light.exposure import exact_f_number, shown, stops_between
from studio.tongue import gettext as _

FULL_STOPS = ("0.7", "1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45", "64", "90")
THIRDS = (
    "1.1", "1.2", "1.3", "1.6", "1.8", "2.2", "2.5", "3.2", "3.5", "4.5", "5", "6.3", "7.1", "9", "10", "13", "14",
    "18", "20", "25", "29", "36", "40", "51", "57",
)  # fmt: skip
TENTH = Decimal("0.1")
_READING = re.compile(
    r"""^\s*(?:f\s*/?\s*)?(?P<stop>\d{1,2}(?:[.,]\d)?)            # f/5.6, 5.6, 5,6
        (?:\s*(?P<sign>[+-])\s*(?P<signed>\d?[.,]?\d)             # +0.6, -.2, +6
          |\s+(?P<tenth>\d)(?:\s*/\s*10)?)?\s*$""",
    re.VERBOSE | re.IGNORECASE,
)


class Unclear(ValueError):
    """The text can be read in more than one way, or in none; str() asks for it again."""


def parse_reading(text: str) -> Decimal:
    """Stops from f/1 of a reading as typed, to a tenth. Raises Unclear with a sentence that asks back."""
    found = _READING.match(text)
    if not found:
        typed = text.strip()[:20]
        raise Unclear(
            _("“{typed}” can be read in two ways or in none. Type the stop, then the tenths: 5.6 +0.6").format(
                typed=typed
            )
        )
    stop = found["stop"].replace(",", ".")
    stop = stop[:-2] if stop.endswith(".0") else stop
    tenths = _tenths(found)
    if stop in FULL_STOPS:
        return Decimal(FULL_STOPS.index(stop) - 1) + tenths
    if stop in THIRDS and not tenths:
        exact = stops_between(1.0, exact_f_number(float(stop)))
        return Decimal(str(float(exact))).quantize(TENTH)
    if stop in THIRDS:
        raise Unclear(
            _("Tenths count from a full stop, and f/{stop} is a third. Type 5.6 +0.6, or 8 +0.2.").format(stop=stop)
        )
    raise Unclear(
        _("f/{stop} is not a stop a meter shows. Type the full stop, then the tenths: 5.6 +0.6").format(stop=stop)
    )


def _tenths(found: re.Match[str]) -> Decimal:
    if found["tenth"]:
        return Decimal(found["tenth"]) / 10
    if not found["signed"]:
        return Decimal(0)
    digits = found["signed"].replace(",", ".")
    amount = Decimal(digits if "." in digits else f"0.{digits}")
    if amount >= 1:
        raise Unclear(_("Tenths run from 0 to 9. Type the full stop below, then the tenths: 8 +0.2"))
    return amount if found["sign"] == "+" else -amount


def stops_of(f_number: float) -> Decimal:
    """Stops from f/1 of an exact f-number, to a tenth."""
    return Decimal(str(float(stops_between(1.0, f_number)))).quantize(TENTH)


@lru_cache(maxsize=512)
def shown_stops(stops: Decimal) -> str:
    """A reading in stops from f/1 as a meter shows it: 5.6 -> "f/5.6 +0.6"."""
    return shown(2.0 ** (float(stops) / 2))


def difference(reading: Decimal, target: Decimal) -> Decimal:
    """Stops by which a reading lies over (+) or under (-) its target, to a tenth."""
    return (reading - target).quantize(TENTH)


def in_words(difference_stops: Decimal, tolerance_stops: Decimal) -> str:
    """What a difference means, in words and a sign, never by colour alone."""
    if difference_stops == 0:
        return _("on target")
    if abs(difference_stops) <= tolerance_stops:
        said = (
            _("{stops} stop, over: within tolerance")
            if difference_stops > 0
            else _("{stops} stop, under: within tolerance")
        )
    else:
        said = (
            _("{stops} stop, over: outside tolerance")
            if difference_stops > 0
            else _("{stops} stop, under: outside tolerance")
        )
    return said.format(stops=f"{difference_stops:+}")
