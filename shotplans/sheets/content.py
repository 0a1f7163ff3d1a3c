"""What is on a sheet, as data: frozen words and numbers ready to be set, the same for paper and screen.

Alerts are consequences, never conditions, and no reason is here: a sheet lies where sitters can read it.
"""

from __future__ import annotations

from dataclasses import dataclass

from shotplans.sheets.measures import METRIC, Measures
from shotplans.sheets.scene import Scene


@dataclass(frozen=True, kw_only=True)
class Heading:
    """Whose sitting it is and when, as text; `printed_at` and `url` are the caller's."""

    studio: str
    sitting: str
    client: str
    date: str
    room: str
    setup_at: str
    sitter_at: str
    finish_at: str
    photographer: str
    assistant: str
    plan_version: int
    printed_at: str
    url: str


@dataclass(frozen=True, kw_only=True)
class Flags:
    """What the caller knows that the set must heed: the sitters concerned by short name, and the sitting's own."""

    no_flash: frozenset[str] = frozenset()
    chair_with_arms: frozenset[str] = frozenset()
    glasses: frozenset[str] = frozenset()
    guardian_in_room: bool = False
    release_not_signed: bool = False
    see_desk: bool = False
    out_of_date: bool = False


@dataclass(frozen=True)
class Note:
    """A line of the set's own notes beside the drawing: what it is about, and what to do."""

    about: str
    says: str


@dataclass(frozen=True, kw_only=True)
class LightRow:
    """A light in two lines: what is set, then what it is built from. `target` is empty where nothing is metered."""

    letter: str
    role: str
    power: str
    power_words: str
    distance: str
    bearing: str
    height: str
    target: str
    head: str
    head_name: str
    modifier: str
    ring: str
    stand: str
    aim: str
    sandbag: str = ""


@dataclass(frozen=True)
class CameraValue:
    """One setting of the camera; `metered` and `set` say which boxes it has to be written beside."""

    label: str
    value: str
    small: str = ""
    metered: bool = False
    set: bool = False


@dataclass(frozen=True, kw_only=True)
class ShotRow:
    number: int
    who: str
    cue: str
    framing: str
    frames: int
    must: bool


@dataclass(frozen=True, kw_only=True)
class PackingRow:
    """A thing to take: `item` is its id or a word, `used_for` letters or "set", `fits` how its mount is proved,
    `mass_kg` that of all of it where it is known."""

    item: str
    label: str
    used_for: str
    count: int
    fits: str = ""
    mass_kg: float | None = None
    case: str = ""


@dataclass(frozen=True)
class PackingGroup:
    """Things of one kind, in the order of the path of the picture."""

    name: str
    rows: tuple[PackingRow, ...]


@dataclass(frozen=True)
class Case:
    """What travels together: its things, their mass, how many of them have none known, and whether one lifts it alone.
    """

    name: str
    items: tuple[str, ...]
    mass_kg: float
    unknown: int
    heavy: bool


@dataclass(frozen=True)
class StandLoad:
    """A stand with the lights it carries in turn: the most that hangs there, what it carries, the bag and the
    counterweight it wants, kg."""

    stand: str
    used_for: str
    load_kg: float
    carries_kg: float
    bag_kg: float
    counterweight_kg: float
    near_full: bool


@dataclass(frozen=True)
class Row:
    """Who stands in one row, from camera left, with the numbers of the drawing."""

    name: str
    people: tuple[str, ...]


@dataclass(frozen=True)
class Foot:
    """The end of the sheet: questions to tick, then who signs."""

    questions: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class SetupSheet:
    """Everything on the sheet of one set-up. Without a usable light, `scene` is None and the lights are empty."""

    heading: Heading
    setup: str
    number: int
    of: int
    alerts: tuple[str, ...]
    intent: str
    scene: Scene | None
    notes: tuple[Note, ...]
    rows: tuple[Row, ...]
    lights: tuple[LightRow, ...]
    camera: tuple[CameraValue, ...]
    shots: tuple[ShotRow, ...]
    packing: tuple[PackingRow, ...]
    hazards: tuple[str, ...]
    foot: Foot


@dataclass(frozen=True, kw_only=True)
class PackedSitting:
    """One sitting of a packing list: number, client, room and when its set-up starts."""

    sitting: str
    client: str
    room: str
    setup_at: str
    sitter_at: str
    plan_version: int


@dataclass(frozen=True, kw_only=True)
class PackingSheet:
    """What to take for the sittings of one day (or for one sitting), each thing once; `away` for a place that is not
    the studio's."""

    studio: str
    date: str
    printed_at: str
    url: str
    sittings: tuple[PackedSitting, ...]
    groups: tuple[PackingGroup, ...]
    cases: tuple[Case, ...] = ()
    stands: tuple[StandLoad, ...] = ()
    away: bool = False
    measures: Measures = METRIC
