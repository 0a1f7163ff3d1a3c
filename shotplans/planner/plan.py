"""What a plan is made of before it is printed: lights, panels and the set-up they stand in. Values only, no solving."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from shotplans.light.sources import disc_like_rect_m
from shotplans.light.units import unit
from shotplans.planner import kit as owned
from shotplans.planner.brief import Setup
from shotplans.planner.emitters import Emitter, alpha_of_rect, glare_size_m
from shotplans.planner.frame import Camera
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose
from shotplans.planner.space import Box

F = NDArray[np.float64]
Point = tuple[float, float, float]
T = TypeVar("T")
MOST_KEPT = 128  # answers kept of one light


def cm(at: F) -> Point:
    """A place as a plan keeps it, to the centimetre, no zero with a sign."""
    return (round(float(at[0]), 2) + 0.0, round(float(at[1]), 2) + 0.0, round(float(at[2]), 2) + 0.0)


@dataclass(frozen=True)
class Mounting:
    """What holds a light: the stand, its foot (x, z), the boom's arm and the weight it asks for."""

    stand: str | None
    boom: bool
    foot_m: tuple[float, float]
    arm_m: float
    counterweight_kg: float


@dataclass(frozen=True)
class Light:
    """One light or white panel as placed. Distance is to `aim` for groups, hair and ground, else to the face."""

    role: str
    position: Point
    aim: Point
    aim_words: str
    distance_m: float
    bearing_deg: float
    height_deg: float
    emitter: Emitter | None = None
    panel: owned.Panel | None = None
    power_stops: float = 0.0
    mounting: Mounting | None = None
    letter: str = ""
    distance_to: Point | None = None
    kept: dict[Any, Any] = field(default_factory=dict, init=False, compare=False, repr=False)

    def once(self, key: Hashable, reckon: Callable[[], T]) -> T:
        """What follows from this light as it stands and from what the key names, reckoned once: a light stays where it
        is while a hand moves another, and then most of what it does is asked for again. The last few answers alone."""
        found: T | None = self.kept.get(key)
        if found is None:
            found = reckon()
            if len(self.kept) >= MOST_KEPT:
                self.kept.clear()
            self.kept[key] = found
        return found

    @cached_property
    def at(self) -> F:
        return np.array(self.position)

    @cached_property
    def axis(self) -> F:
        return np.asarray(unit(np.array(self.aim) - self.at))

    @property
    def width_m(self) -> float:
        return self.emitter.width_m if self.emitter else float(self.panel.width_m if self.panel else 0.0)

    @property
    def height_m(self) -> float:
        return self.emitter.height_m if self.emitter else float(self.panel.height_m if self.panel else 0.0)

    @property
    def disc_size_m(self) -> float:
        """Diameter of the disc of equal second moment."""
        if self.emitter:
            return self.emitter.disc_size_m
        return disc_like_rect_m(self.width_m, self.height_m)

    @property
    def glare_size_m(self) -> float:
        """The disc this front is taken for when looking for its reflection in a lens."""
        return self.emitter.glare_size_m if self.emitter else glare_size_m(self.width_m, self.height_m, disc=False)

    def alpha(self, point: F) -> float:
        return float(np.arctan(self.disc_size_m / (2 * max(1e-6, float(np.linalg.norm(self.at - point))))))

    def alpha_on(self, point: F, normals: F) -> F:
        """Angular radius (n,) that relief goes by on skin with these normals at a point [LIGHT-3]."""
        if self.emitter and self.emitter.disc:
            return np.full(len(normals), self.alpha(point))
        far = self.at - point
        distance = max(1e-6, float(np.linalg.norm(far)))
        sides = self.emitter.even_sides if self.emitter else (self.width_m, self.height_m)
        return alpha_of_rect(sides, self.axis, normals, far / distance, np.asarray(distance))

    def mirrored(self) -> Light:
        m = self.mounting
        return replace(
            self,
            position=_flip(self.position),
            aim=_flip(self.aim),
            bearing_deg=0.0 - self.bearing_deg,
            distance_to=_flip(self.distance_to) if self.distance_to else None,
            mounting=replace(m, foot_m=(0.0 - m.foot_m[0], m.foot_m[1])) if m else None,
        )


def _flip(point: Point) -> Point:
    return (0.0 - point[0], point[1], point[2])


@dataclass(frozen=True)
class Block:
    """A black panel that takes bounce away from the shadow side."""

    panel: owned.Panel
    at_m: Point
    bearing_deg: float
    distance_m: float
    stand: str | None

    def mirrored(self) -> Block:
        return replace(self, at_m=_flip(self.at_m), bearing_deg=0.0 - self.bearing_deg)


@dataclass(frozen=True)
class Flag:
    """A flag, or a panel's black side, that keeps one light off one place.

    `head` is the head it shades, `keeps` what stays dark: lens | faces | ground | cloth. It faces along `axis`; width
    and height are as turned, `distance_m` is from the light's front.
    """

    item: owned.Flag | owned.Panel
    head: str
    keeps: str
    at_m: Point
    axis: Point
    width_m: float
    height_m: float
    distance_m: float
    stand: str | None

    def mirrored(self) -> Flag:
        return replace(self, at_m=_flip(self.at_m), axis=_flip(self.axis))


@dataclass(frozen=True)
class Ground:
    """The background as hung: item, distance behind the mark, how it reads against the setting.

    `reading_above_setting` is the mean of what is seen, `lowest_above_setting` its darkest point, both in stops.
    """

    item: owned.Background
    distance_m: float
    covers: bool
    covers_short_m: float
    reading_above_setting: float
    lightness: float
    spread_stops: float
    wanted: tuple[float, float]
    lowest_above_setting: float = 0.0


@dataclass(frozen=True)
class Solved:
    """One set-up, solved: everything the document is printed from."""

    setup: Setup
    targets: Targets
    pose: Pose
    camera: Camera
    box: Box
    lights: tuple[Light, ...]
    blocks: tuple[Block, ...]
    ground: Ground | None
    steady: bool
    score: float
    candidates: int
    notes: dict[str, object] = field(default_factory=dict)
    flags: tuple[Flag, ...] = ()
    kept: dict[str, Any] = field(default_factory=dict, init=False, compare=False, repr=False)  # reckoned once, by name

    def light(self, role: str) -> Light | None:
        """The first light of a role, or None."""
        return next((x for x in self.lights if x.role == role), None)

    def by_role(self, *roles: str) -> Sequence[Light]:
        return [x for x in self.lights if x.role in roles]

    @property
    def mark_eyes(self) -> F:
        """The point bearings are seen from: the eyes at the mark, or the middle of a group at mean eye height."""
        return np.array([0.0, self.pose.eye_m, 0.0])

    def mirrored(self) -> Solved:
        b = self.box
        return replace(
            self,
            pose=self.pose.mirrored(),
            box=replace(b, mark_from_side_wall_m=round(b.across_m - b.mark_from_side_wall_m, 3)),
            lights=tuple(x.mirrored() for x in self.lights),
            blocks=tuple(x.mirrored() for x in self.blocks),
            flags=tuple(x.mirrored() for x in self.flags),
        )
