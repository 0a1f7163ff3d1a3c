"""What the picture must say and who is in it. Belongs here: the brief and the sitters as they are read.
Field names are those of the file; one typed `Assumed` is None until `assumptions.fill` has put its stated
default in."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from shotplans.planner.cards import Kind
from shotplans.planner.fields import (
    OPEN,
    Assumed,
    Bearing,
    FromList,
    Height,
    Kelvin,
    Label,
    Limit,
    Many,
    Millimetres,
    Minutes,
    Part,
    Ratio,
    Sentence,
    Size,
)

Intent = Literal["soft", "even", "natural", "bold", "character", "bright"]
FramingName = Literal["head", "head_and_shoulders", "half", "three_quarter", "full", "group"]
Tone = Literal["black", "dark", "mid", "light", "white"]
Lockable = Literal[
    "lens_mm",
    "camera_m",
    "camera_above_eyes_m",
    "head_share",
    "key_modifier",
    "key_m",
    "key_bearing_deg",
    "key_height_deg",
    "fill_below_key_stops",
    "background_lightness",
    "kelvin",
]


class Standard(Part):
    """A locked look: a client company's, or that of a set-up as it was shot before."""

    lens_mm: Millimetres | None = None
    camera_m: Size | None = None
    camera_above_eyes_m: Annotated[float, Field(ge=-5, le=5)] | None = None
    head_share: Annotated[float, Field(ge=0.01, le=1)] | None = None
    key_modifier: Label | None = None
    key_m: Size | None = None
    key_bearing_deg: Bearing | None = None
    key_height_deg: Height | None = None
    fill_below_key_stops: Annotated[float, Field(ge=-10, le=20)] | None = None
    background_lightness: Annotated[float, Field(ge=0, le=100)] | None = None
    kelvin: Kelvin | None = None
    locked: Many[Lockable] = ()
    tolerance_stops: Annotated[float, Field(ge=0.05, le=1)] | None = None


class Setup(Part):
    """One arrangement that is asked for."""

    name: Label
    intent: Intent
    framing: FramingName
    background_tone: Tone
    view: Assumed[Literal["full", "seven_eighths", "three_quarter", "profile", "either"]] = OPEN
    face_side: Assumed[Literal["short", "broad", "either"]] = OPEN
    people: Many[Label] = ()  # after fill: never empty, everybody where nobody was named
    standard: Standard | None = None  # its own look, in place of the brief's


class Meter(Part):
    """How this studio reads its meter."""

    setting_reading: Assumed[Literal["at_camera", "at_key"]] = OPEN
    dome: Assumed[Literal["out", "recessed"]] = OPEN


class Prop(Part):
    """A thing in the picture."""

    label: Label | None = None
    size_m: Size | None = None
    shiny: bool | None = None
    held_by: Label | None = None


class AskedShot(Part):
    """One picture of the photographer's own list, in place of what sentences and people would make."""

    words: Sentence
    who: Many[Label] = ()  # empty: everybody of the set-up
    must: Assumed[bool] = OPEN
    setup: Label | None = None
    framing: FramingName | None = None
    card: Kind | None = None


class Brief(Part):
    """Purpose, intent, framing, tone and limits."""

    setups: Annotated[tuple[Setup, ...], Field(min_length=1, max_length=50), FromList()]
    key_side: Assumed[Literal["camera_left", "camera_right", "either"]] = OPEN
    orientation: Assumed[Literal["upright", "horizontal", "either"]] = OPEN
    purpose: Sentence | None = None
    print_width_cm: Assumed[Annotated[float, Field(ge=0.1, le=10_000)]] = OPEN
    viewing_m: Assumed[Size] = OPEN
    crops: Many[Ratio] = ()
    copy_space: Assumed[Literal["left", "right", "none"]] = OPEN
    retouch: Assumed[Literal["none", "light", "full"]] = OPEN
    standard: Standard | None = None
    meter: Assumed[Meter] = OPEN
    must: Many[Sentence] = ()
    wished: Many[Sentence] = ()
    props: Many[Prop] = ()
    minutes: Minutes | None = None
    furniture_width_cm: Annotated[float, Field(ge=1, le=10_000)] | None = None  # under the print on the wall
    event_in_days: Annotated[float, Field(ge=0, le=10_000)] | None = None  # the fixed day the pictures are for
    decider_present: Assumed[bool] = OPEN
    haze: Assumed[bool] = OPEN
    shots: Annotated[tuple[AskedShot, ...], Field(max_length=120), FromList(may_be_null=True)] = ()
    shots_in_order: Assumed[bool] = OPEN  # as they stand in `shots`, instead of the order found

    def standard_of(self, setup: Setup) -> Standard | None:
        """The look a set-up is to have: its own, else the brief's."""
        return setup.standard or self.standard


class Wish(Part):
    """What a sitter asks for one feature. After fill `note` is never None: an empty wish is dropped."""

    note: Assumed[Literal["lines", "bags", "neck", "chin", "width", "nose", "scar", "blemish", "hair", "shine"]] = OPEN
    side: Assumed[Literal["own_left", "own_right", "both"]] = OPEN
    wish: Assumed[Literal["softer", "as it is", "shown"]] = OPEN


class Glasses(Part):
    """Glasses as worn."""

    lens: Assumed[Literal["flat", "usual", "strong", "reactive"]] = OPEN
    may_remove: Assumed[bool] = OPEN


class Clothes(Part):
    """What the sitter wears, as far as light minds."""

    tone: Assumed[Literal["dark", "mid", "light"]] = OPEN
    bare_arms: Assumed[bool] = OPEN
    shiny: Assumed[bool] = OPEN
    pattern: Assumed[bool] = OPEN


class Sitter(Part):
    """One person in front of the camera, with what is known of them."""

    label: Label
    age_years: Assumed[Annotated[float, Field(ge=0, le=130)]] = OPEN
    height_cm: Assumed[Annotated[float, Field(ge=20, le=300)]] = OPEN
    eye_height_m: Annotated[float, Field(ge=0.05, le=5)] | None = None
    posture: Assumed[Literal["standing", "seated", "wheelchair", "floor", "lap"]] = OPEN
    skin: Assumed[Literal["very light", "light", "intermediate", "tan", "brown", "dark", "not noted"]] = OPEN
    surface: Assumed[Literal["matte", "usual", "shiny"]] = OPEN
    texture: Assumed[Literal["smooth", "fine lines", "lines", "deep lines"]] = OPEN
    wishes: Many[Wish] = ()
    eyes: Assumed[Literal["usual", "deep set"]] = OPEN
    glasses: Glasses | None = None
    beard: Assumed[Literal["none", "short", "full"]] = OPEN
    hair: Assumed[Literal["dark", "mid", "fair", "grey", "white"]] = OPEN
    head: Assumed[Literal["usual", "bald", "covered", "brim"]] = OPEN
    face_width: Assumed[Literal["narrow", "usual", "wide"]] = OPEN
    better_side: Assumed[Literal["own_left", "own_right", "none"]] = OPEN
    turn_limit_deg: Assumed[Limit] = OPEN
    chin_limit_deg: Assumed[Limit] = OPEN
    clothes: Assumed[Clothes] = OPEN
    household: Label | None = None
    relation: Label | None = None
    central: Assumed[bool] = OPEN
    keep_with: Label | None = None
    stand_minutes: Minutes | None = None
    hip_or_back: Assumed[bool] = OPEN
    no_flash: Assumed[bool] = OPEN
    hearing: Assumed[bool] = OPEN
    low_vision: Assumed[bool] = OPEN
    tremor: Assumed[bool] = OPEN
    sensory: Assumed[bool] = OPEN
    shy: Assumed[bool] = OPEN
    broad_seat: Assumed[bool] = OPEN  # rated, without arms
    big_hair: Assumed[bool] = OPEN


Sitters = Annotated[tuple[Sitter, ...], Field(min_length=1, max_length=60), FromList()]
