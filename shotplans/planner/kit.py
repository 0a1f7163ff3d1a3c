"""The kit that is free for this sitting, and what the studio's own readings taught about it. Belongs here:
pieces as they are read, with their rated numbers. Not here: what a piece does to the light
(`shotplans.light`)."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from shotplans.planner.fields import (
    OPEN,
    Assumed,
    Count,
    FNumber,
    FromList,
    FullAngle,
    Iso,
    Kelvin,
    Kilograms,
    Label,
    Many,
    Millimetres,
    Part,
    Reach,
    Seconds,
    Share,
    Size,
    Some,
    StopsDown,
    Watts,
)

MOST_CORRECTION_STOPS = 10.0  # further off its rating a lamp is broken, or another one was read: no source


class Dial(Part):
    """The head's own power scale and its smallest step on it."""

    scale: Assumed[Literal["fraction", "ten", "watt_seconds", "stops"]] = OPEN
    step: Assumed[Annotated[float, Field(ge=0.001, le=10_000)]] = OPEN


class Head(Part):
    """A flash or a steady head. The codec sees to it that a flash has its f-number, a steady head its lux."""

    id: Label
    label: Assumed[Label] = OPEN
    light: Literal["flash", "steady"]
    energy_ws: Annotated[float, Field(ge=0.1, le=100_000)] | None = None  # after fill: a flash always has it
    range_stops: StopsDown
    f_number_1m_iso100: Annotated[float, Field(ge=0.1, le=1000)] | None = None
    lux_1m: Annotated[float, Field(ge=0.1, le=10_000_000)] | None = None
    rated_with: Assumed[Literal["bare", "standard_reflector"]] = OPEN
    dial: Assumed[Dial] = OPEN
    mount: Label
    mass_kg: Kilograms
    watts: Assumed[Watts] = OPEN
    peak_amps: Assumed[Annotated[float, Field(ge=0, le=10_000)]] = OPEN
    kelvin: Assumed[Kelvin] = OPEN
    duration_s: Annotated[float, Field(ge=0.000001, le=10)] | None = None  # after fill: a flash always has it
    duration_kind: Literal["t0.5", "t0.1"] | None = None  # after fill: a flash always has it
    recycle_s: Annotated[float, Field(ge=0, le=600)] | None = None  # after fill: a flash always has it
    modelling_watts: Assumed[Watts] = OPEN
    flicker_free: bool | None = None  # after fill: a steady head always has it
    battery_ws: Annotated[float, Field(ge=0, le=100_000_000)] | None = None  # of one charge; None = on the mains
    battery_full_power_shots: Annotated[float, Field(ge=0, le=1_000_000)] | None = None  # the maker's own count


class Modifier(Part):
    """What shapes a head's light. The codec sees to it that a disc has a diameter, a rectangle both sides."""

    id: Label
    label: Assumed[Label] = OPEN
    kind: Literal[
        "octabox",
        "box",
        "strip",
        "umbrella_through",
        "umbrella_back",
        "dish",
        "reflector",
        "lantern",
        "snoot",
    ]
    shape: Literal["disc", "rect"]
    diameter_m: Size | None = None
    width_m: Size | None = None
    height_m: Size | None = None
    loss_stops: Annotated[float, Field(ge=-10, le=20)]
    mount: Label
    mass_kg: Kilograms
    beam_deg: Assumed[FullAngle] = OPEN
    core_stops: Assumed[Annotated[float, Field(ge=0, le=10)]] = OPEN
    lip_m: Assumed[Reach] = OPEN
    depth_m: Assumed[Reach] = OPEN
    inner_cloth: Assumed[bool] = OPEN
    outer_cloth: Assumed[bool] = OPEN
    grid_deg: FullAngle | None = None  # the full cut-off angle; None = no grid
    min_distance_m: Assumed[Reach] = OPEN
    max_modelling_watts: Watts | None = None

    @property
    def size_m(self) -> tuple[float, float]:
        """Width and height of the front; a disc's diameter twice."""
        if self.shape == "disc":
            assert self.diameter_m is not None  # the codec has seen to it
            return self.diameter_m, self.diameter_m
        assert self.width_m is not None
        assert self.height_m is not None
        return self.width_m, self.height_m


class Adapter(Part):
    """A ring that lets a modifier of mount `to` sit on a head of mount `from_`."""

    id: Label
    from_: Annotated[Label, Field(alias="from")]
    to: Label


class Stand(Part):
    """A stand, or a boom with its column."""

    id: Label
    kind: Literal["stand", "boom"]
    max_height_m: Size
    min_height_m: Reach
    max_load_kg: Kilograms
    reach_m: Assumed[Reach] = OPEN
    footprint_m: Assumed[Reach] = OPEN
    counterweight_kg: Assumed[Kilograms] = OPEN
    mass_kg: Kilograms | None = None  # its own weight; None = not known
    arm_kg: Kilograms | None = None  # of a boom's arm alone; None = not known, and then not counted


class Panel(Part):
    """A board, white on one side and black on the other."""

    id: Label
    width_m: Size
    height_m: Size
    white_reflectance: Assumed[Share] = OPEN
    black_reflectance: Assumed[Share] = OPEN


class Weight(Part):
    """A sandbag or the like."""

    id: Assumed[Label] = OPEN
    kg: Assumed[Kilograms] = OPEN


class Flag(Part):
    """A small black screen."""

    id: Assumed[Label] = OPEN
    width_m: Size | None = None
    height_m: Size | None = None


class Trigger(Part):
    """What fires the flash from the camera."""

    id: Assumed[Label] = OPEN


class Background(Part):
    """What stands behind the sitter."""

    id: Label
    kind: Assumed[Literal["paper", "cloth", "canvas", "wall"]] = OPEN
    width_m: Size
    height_m: Assumed[Size] = OPEN
    reflectance: Share


class Camera(Part):
    """A camera body."""

    id: Label
    sensor_width_mm: Millimetres
    sensor_height_mm: Millimetres
    base_iso: Iso
    max_iso: Iso
    sync_s: Seconds


class Lens(Part):
    """A lens; `max_aperture` is the widest, the smaller f-number."""

    id: Label
    min_focal_mm: Millimetres
    max_focal_mm: Millimetres
    max_aperture: FNumber
    min_aperture: Assumed[FNumber] = OPEN
    min_focus_m: Assumed[Reach] = OPEN


class Seat(Part):
    """A chair or stool."""

    id: Assumed[Label] = OPEN
    height_m: Assumed[Reach] = OPEN
    arms: Assumed[bool] = OPEN
    back: Assumed[bool] = OPEN
    rating_kg: Kilograms | None = None


class Riser(Part):
    """A step or box that lifts a row."""

    id: Assumed[Label] = OPEN
    height_m: Assumed[Reach] = OPEN
    arms: Assumed[bool] = OPEN
    back: Assumed[bool] = OPEN
    rating_kg: Kilograms | None = None


class MeasuredBeam(Part):
    """A beam as a laboratory measured it: intensity over that on the axis, at equal steps from 0 to 90 degrees."""

    head: Label
    modifier: Label
    shares: Annotated[
        tuple[Annotated[float, Field(ge=0, le=1000)], ...], Field(min_length=2, max_length=181), FromList()
    ]


class Kit(Part):
    """What is free: nothing is used twice."""

    heads: Many[Head] = ()
    modifiers: Many[Modifier] = ()
    adapters: Many[Adapter] = ()
    stands: Many[Stand] = ()
    panels: Many[Panel] = ()
    weights: Many[Weight] = ()
    flags: Many[Flag] = ()
    triggers: Many[Trigger] = ()
    backgrounds: Some[Background]
    cameras: Some[Camera]
    lenses: Some[Lens]
    seats: Many[Seat] = ()
    risers: Many[Riser] = ()


class Correction(Part):
    """What readings taught about one head with one modifier: add `offset_stops` to the rated output."""

    head: Label
    modifier: Label
    offset_stops: Annotated[float, Field(ge=-MOST_CORRECTION_STOPS, le=MOST_CORRECTION_STOPS)]
    standard_error_stops: Annotated[float, Field(ge=0, le=10)]
    readings: Count
