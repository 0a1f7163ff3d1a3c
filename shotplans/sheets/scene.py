"""The set of one set-up as bodies in a room, in metres: what the drawing is drawn from. Read from the plan's document
(where things stand) and from the frozen input (how large the owned things are). No layout, no words but labels.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from math import hypot
from typing import Any

from shotplans.light import photometry
from shotplans.planner.emitters import HEAD_LENGTH_M
from shotplans.planner.kit import Modifier
from shotplans.planner.mounting import counter_arm_m
from shotplans.planner.request import Request
from shotplans.sheets.measures import METRIC, Measures

Place = tuple[float, float, float]
Entry = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class Holder:
    """The stand or boom under a light: foot (x, z), legs' circle, and the boom's arm with its counterweight."""

    name: str
    foot: tuple[float, float]
    footprint_m: float
    arm_m: float
    counter_arm_m: float
    counterweight_kg: float
    tallest_m: float

    @property
    def boom(self) -> bool:
        return self.arm_m > 0


@dataclass(frozen=True, kw_only=True)
class Source:
    """A light, a white panel or (without a letter) a black one, with the front at its true size."""

    letter: str
    role: str
    at: Place
    aim: Place
    width_m: float
    height_m: float
    disc: bool
    depth_m: float
    beam_deg: float | None
    holder: Holder | None
    distance_m: float
    bearing_deg: float
    centre_height_m: float
    too_high: bool = False  # its highest part is through the ceiling

    @cached_property
    def axis(self) -> Place:
        d = tuple(b - a for a, b in zip(self.at, self.aim, strict=True))
        length = max(1e-9, hypot(*d))
        return d[0] / length, d[1] / length, d[2] / length


@dataclass(frozen=True)
class Person:
    """A sitter: short name, bridge of the nose, where the body and the nose point, row from the front."""

    label: str
    face: Place
    body_deg: float
    nose_deg: float
    row: int


@dataclass(frozen=True)
class Camera:
    """The camera on the axis: distance, height, pitch, and the field's width and height at the mark."""

    distance_m: float
    height_m: float
    pitch_deg: float
    field_width_m: float
    field_height_m: float


@dataclass(frozen=True)
class Ground:
    """The background: how far behind the mark, its true size, and its name."""

    distance_m: float
    width_m: float
    height_m: float
    label: str


@dataclass(frozen=True)
class Walls:
    """The room round the set: where its walls and ceiling are in the set's own frame."""

    left: float
    right: float
    back: float
    front: float
    ceiling: float


@dataclass(frozen=True)
class Scene:
    """One set-up as it stands."""

    name: str
    walls: Walls
    ground: Ground
    camera: Camera
    people: tuple[Person, ...]
    sources: tuple[Source, ...]
    panels: tuple[Source, ...]
    measures: Measures = METRIC


def read(setup: Entry, request: Request, measures: Measures = METRIC) -> Scene | None:
    """The scene of a set-up of the plan; None for one without a usable light. `request` has its gaps filled."""
    if setup["camera"] is None:
        return None
    return Scene(
        name=str(setup["name"]),
        walls=_walls(setup["room"], request),
        ground=_ground(setup["background"], request),
        camera=_camera(setup, request),
        people=tuple(
            Person(p["label"], _point(p["face_m"]), p["body_turn_deg"], p["nose_bearing_deg"], p["row"])
            for p in _on_the_mark(setup)
        ),
        sources=tuple(_source(light, request) for light in setup["lights"]),
        panels=tuple(_black(block, request) for block in setup["blocks"]),
        measures=measures,
    )


def in_turn(setup: Entry) -> bool:
    """Whether the people of this set-up come one after the other to the same mark."""
    return bool(setup["changes_per_person"])


def _on_the_mark(setup: Entry) -> list[Entry]:
    people = list(setup["sitters"])
    return people[:1] if in_turn(setup) else people


def _point(values: Any) -> Place:
    return float(values[0]), float(values[1]), float(values[2])


def _walls(room: Entry, request: Request) -> Walls:
    given = request.room
    along_depth = room["axis"] == "depth"
    across, length = (given.width_m, given.depth_m) if along_depth else (given.depth_m, given.width_m)
    left, back = -room["mark_from_side_wall_m"], -(room["mark_from_ground_m"] + room["ground_from_wall_m"])
    return Walls(left, left + across, back, back + length, given.ceiling_m)


def _ground(ground: Entry, request: Request) -> Ground:
    owned = next(b for b in request.kit.backgrounds if b.id == ground["id"])
    height = float(owned.height_m or 0.0)
    return Ground(ground["distance_m"], owned.width_m, min(height, request.room.ceiling_m), owned.id)


def _camera(setup: Entry, request: Request) -> Camera:
    camera = setup["camera"]
    body = next(b for b in request.kit.cameras if b.id == camera["body"])
    sides = sorted((body.sensor_width_mm, body.sensor_height_mm))
    share = sides[1] / sides[0] if camera["orientation"] == "upright" else sides[0] / sides[1]
    width = float(setup["expected"]["field_width_m"])
    return Camera(camera["distance_m"], camera["height_m"], camera["pitch_deg"], width, width * share)


def _source(light: Entry, request: Request) -> Source:
    kit = request.kit
    depth, beam = 0.0, None
    if light["modifier"] is not None:
        modifier = next(m for m in kit.modifiers if m.id == light["modifier"])
        (width, height), disc = modifier.size_m, modifier.shape == "disc"
        if light["roll_deg"]:  # hung a quarter turned about its axis
            width, height = height, width
        depth = float(modifier.depth_m or 0.0) + HEAD_LENGTH_M
        beam = _beam_deg(light["head"], modifier, request)
    else:
        panel = next(p for p in kit.panels if p.id == light["panel"])
        width, height, disc = panel.width_m, panel.height_m, False
    return Source(
        letter=light["letter"],
        role=light["role"],
        at=_point(light["position_m"]),
        aim=_point(light["aim_m"]),
        width_m=width,
        height_m=height,
        disc=disc,
        depth_m=depth,
        beam_deg=beam,
        holder=_holder(light, request),
        distance_m=light["distance_m"],
        bearing_deg=light["bearing_deg"],
        centre_height_m=light["centre_height_m"],
        too_high=(light.get("top_height_m") or 0.0) > request.room.ceiling_m + 1e-6,
    )


def _beam_deg(head: str, modifier: Modifier, request: Request) -> float:
    """The whole width of the beam that was reckoned with: as a laboratory measured it, else as rated."""
    for beam in request.beams:
        if (beam.head, beam.modifier) == (head, modifier.id):
            return photometry.measured_width_deg(beam.shares)
    return min(float(modifier.beam_deg or 180.0), float(modifier.grid_deg or 180.0))


def _holder(light: Entry, request: Request) -> Holder | None:
    if light["stand"] is None or light["foot_m"] is None:
        return None
    stand = next(s for s in request.kit.stands if s.id == light["stand"])
    return Holder(
        name=stand.id,
        foot=(light["foot_m"][0], light["foot_m"][1]),
        footprint_m=float(stand.footprint_m or 0.0),
        arm_m=float(light["arm_m"] or 0.0),
        counter_arm_m=counter_arm_m(stand),
        counterweight_kg=float(light["counterweight_kg"] or 0.0),
        tallest_m=stand.max_height_m,
    )


def _black(block: Entry, request: Request) -> Source:
    at = _point(block["at_m"])
    size, aim = block.get("size_m"), block.get("aim_m")
    if size is None:  # a plan frozen before blocks said their size holds panels only
        panel = next(p for p in request.kit.panels if p.id == block["id"])
        size, aim = (panel.width_m, panel.height_m), (0.0, at[1], 0.0)
    return Source(
        letter="",
        role="black",
        at=at,
        aim=_point(aim),
        width_m=size[0],
        height_m=size[1],
        disc=False,
        depth_m=0.0,
        beam_deg=None,
        holder=None,
        distance_m=0.0,
        bearing_deg=0.0,
        centre_height_m=at[1],
    )
