"""The whole input of one plan. Belongs here: its five parts and the studio's orders for this sitting."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from shotplans.planner.brief import Brief, Sitters
from shotplans.planner.cards import PoseCard
from shotplans.planner.fields import OPEN, Assumed, FNumber, Iso, Many, Part, Seconds
from shotplans.planner.kit import Correction, Kit, MeasuredBeam
from shotplans.planner.room import Room
from shotplans.planner.rules import RuleChange


class Preferences(Part):
    """Orders, not wishes: one that cannot be kept is a problem in the plan."""

    aperture: FNumber | None = None
    iso: Iso | None = None
    shutter_s: Seconds | None = None
    units: Assumed[Literal["metric", "imperial"]] = OPEN


class Pace(Part):
    """What pictures and changes of set-up really took in this studio, already drawn towards its rules."""

    shot_minutes: Annotated[float, Field(ge=0.1, le=120)]
    change_minutes: Annotated[float, Field(ge=0, le=240)]


class Request(Part):
    """Brief, sitters, room, kit, corrections, orders, the studio's rules, cards and pace, and measured beams: all
    that a plan is a function of."""

    brief: Brief
    sitters: Sitters
    room: Room
    kit: Kit
    corrections: Many[Correction] = ()
    preferences: Assumed[Preferences] = OPEN
    rules: Many[RuleChange] = ()
    cards: Many[PoseCard] = ()  # the studio's own, in place of the house's of the same kind
    pace: Pace | None = None
    beams: Many[MeasuredBeam] = ()
