"""Lengths that were noted of a set, as whoever reads them measures. Belongs here: reading kept text back. Not here: how
a length is typed or kept (`records.as_shot`, `studio.lengths`)."""

from __future__ import annotations

from dataclasses import replace

from shotplans.records import as_shot
from studio import lengths

LENGTHS = {"distance": "distance_m", "height": "centre_height_m"}  # of what is noted, by the value that reads it
QUARTER_INCH_M = lengths.METRES["in"] / 4


def length_in(units: str, what: str, text: str) -> str:
    """A distance or height that was kept in metres as its reader measures, to a quarter of an inch, which keeps
    centimetres apart; what was written otherwise stays as it was written."""
    if units != "imperial" or what not in LENGTHS or not text.strip().endswith("m"):
        return text
    try:
        quarters = round(float(as_shot.read_value(LENGTHS[what], text)) / QUARTER_INCH_M)
    except as_shot.Unusable:
        return text
    return lengths.shown(quarters * QUARTER_INCH_M, units)


def in_units(units: str, one: as_shot.Difference) -> as_shot.Difference:
    """A difference with both its lengths as their reader measures."""
    planned, actual = (length_in(units, one.what, text) for text in (one.planned, one.actual))
    return replace(one, planned=planned, actual=actual)
