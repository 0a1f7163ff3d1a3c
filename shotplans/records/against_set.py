"""Metered against set: what the meter asks for beside what the camera stands at, before the second frame.

Belongs here: the difference in stops, and what a shutter time does where flash lights the picture. Not here: words.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from shotplans.light.exposure import ambient_below_stops, exact_f_number, stops_between
from shotplans.planner.check import AMBIENT_CLEAR_STOPS
from shotplans.records.readings import TENTH

FLAGGED_STOPS = Decimal("0.2")  # more than this is said before the second frame: job.md, row 36
SYNC_REACH = 1.02  # a time written 1/200 may be kept as 1/203


@dataclass(frozen=True)
class Planned:
    """The camera of a set-up as planned: what the meter's readings were asked for at."""

    iso: float
    shutter_s: float
    steady: bool
    sync_s: float
    ambient_lux: float


@dataclass(frozen=True)
class Set:
    """What a camera stands at: the aperture by its engraved label."""

    f_number: float
    shutter_s: float
    iso: float


@dataclass(frozen=True)
class Verdict:
    """`off_stops`: how much darker (-) or lighter (+) the frame will be than metered; `flags` codes with a number."""

    off_stops: Decimal
    flags: tuple[tuple[str, float], ...]

    @property
    def flagged(self) -> bool:
        return bool(self.flags)


def judged(reading_stops: Decimal, planned: Planned, found: Set) -> Verdict:
    """A reading (stops from f/1 at the planned ISO and shutter) beside the camera's settings.

    The frame is lighter than metered by the stops the aperture is opener than the reading and the ISO higher than the
    meter's; with steady light also by a longer shutter. With flash the shutter is no exposure: it is held against the
    sync time and the room's own light. ValueError for settings not above zero. Source: [APEX], [ISO2720].
    """
    f_number = exact_f_number(found.f_number)
    opener = float(reading_stops) - float(stops_between(1.0, f_number))
    opener += float(stops_between(planned.iso**0.5, found.iso**0.5))
    if planned.steady:
        opener += float(stops_between(planned.shutter_s**0.5, found.shutter_s**0.5))
    off = Decimal(str(round(opener, 6))).quantize(TENTH) + Decimal("0.0")
    flags: list[tuple[str, float]] = []
    if abs(off) > FLAGGED_STOPS:
        flags.append(("lighter" if off > 0 else "darker", float(abs(off))))
    if not planned.steady:
        if found.shutter_s * SYNC_REACH < planned.sync_s:
            flags.append(("above_sync", planned.sync_s))
        elif planned.ambient_lux > 0:
            below = float(ambient_below_stops(planned.ambient_lux, f_number, found.shutter_s, found.iso))
            if below < AMBIENT_CLEAR_STOPS:
                flags.append(("room_light", round(below, 1) + 0.0))
    return Verdict(off, tuple(flags))
