"""The whole input of one plan. Belongs here: its five parts and the studio's orders for this sitting."""

from __future__ import annotations

from typing import Literal

from shotplans.planner.brief import Brief, Sitters
from shotplans.planner.fields import OPEN, Assumed, FNumber, Iso, Many, Part, Seconds
from shotplans.planner.kit import Correction, Kit
from shotplans.planner.room import Room
from shotplans.planner.rules import RuleChange


class Preferences(Part):
    """Orders, not wishes: one that cannot be kept is a problem in the plan."""

    aperture: FNumber | None = None
    iso: Iso | None = None
    shutter_s: Seconds | None = None
    units: Assumed[Literal["metric", "imperial"]] = OPEN


class Request(Part):
    """Brief, sitters, room, kit, corrections, orders and the studio's rules: all that a plan is a function of."""

    brief: Brief
    sitters: Sitters
    room: Room
    kit: Kit
    corrections: Many[Correction] = ()
    preferences: Assumed[Preferences] = OPEN
    rules: Many[RuleChange] = ()
