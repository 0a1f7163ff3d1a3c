"""The room the set stands in. Belongs here: its box, its surfaces and its circuits as they are read."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from shotplans.planner.fields import OPEN, Amperes, Assumed, Label, Many, Part, Reach, Size, Surface


class Surfaces(Part):
    """Walls, ceiling and floor: a word of the trade or a reflectance."""

    walls: Assumed[Surface] = OPEN
    ceiling: Assumed[Surface] = OPEN
    floor: Assumed[Surface] = OPEN


class Window(Part):
    """An opening in a wall."""

    wall: Label | None = None
    width_m: Size | None = None
    height_m: Size | None = None
    sill_m: Reach | None = None


class Circuit(Part):
    """One circuit of the room with its breaker."""

    label: Assumed[Label] = OPEN
    volts: Annotated[float, Field(ge=1, le=1000)]
    breaker_amps: Amperes


class Room(Part):
    """A box with keep-out strips along its walls."""

    width_m: Size
    depth_m: Size
    ceiling_m: Size
    keep_out_m: Assumed[Reach] = OPEN
    set_axis: Assumed[Literal["width", "depth", "either"]] = OPEN
    ambient_lux: Assumed[Annotated[float, Field(ge=0, le=200_000)]] = OPEN
    black_out: Assumed[bool] = OPEN
    surfaces: Assumed[Surfaces] = OPEN
    windows: Many[Window] = ()
    circuits: Many[Circuit] = ()
