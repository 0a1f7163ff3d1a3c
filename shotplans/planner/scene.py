"""The key as it stands, and all that fill, ground and accent must respect: people, camera, room, the house's meter.

Also what the key and its bounce read on that meter, and how far a front is from every lens that is worn.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import glasses, metering
from shotplans.planner.frame import Camera
from shotplans.planner.intents import Band
from shotplans.planner.mounting import Site, never_under
from shotplans.planner.people import Pose
from shotplans.planner.plan import Block, Light
from shotplans.planner.readings import bounce_plane, direct, dome, toward
from shotplans.planner.space import Box

F = NDArray[np.float64]


@dataclass(frozen=True)
class Filled:
    """What fills: a light (head or panel) or none, black panels, and the level reached in stops under the key."""

    light: Light | None
    blocks: tuple[Block, ...]
    level_stops: float
    bounce_stops: float
    wanted: Band
    how: str


@dataclass(frozen=True)
class Scene:
    """The key and all that a fill must respect."""

    key: Light
    pose: Pose
    camera: Camera
    box: Box
    recessed: bool
    toward_key: bool

    @property
    def mark(self) -> F:
        return np.array([0.0, self.pose.eye_m, 0.0])

    @property
    def axis(self) -> F:
        """Where the dome points for the setting reading."""
        return toward(self.mark, self.key.at if self.toward_key else self.camera.at)

    def site(self) -> Site:
        faces = np.array([s.face_m for s in self.pose.together])
        return Site(self.camera, self.box, faces, never_under(self.pose.seated))


def key_level(scene: Scene) -> float:
    """The key's own light on the dome, without bounce."""
    return dome(direct(scene.key, scene.mark), scene.key.alpha(scene.mark), scene.axis, scene.recessed)


def bounce_level(scene: Scene, light: Light) -> float:
    """The bounce of one light on the dome."""
    even = bounce_plane([light], scene.box, ())
    return even if scene.recessed else float(metering.dome_uniform(even))


def clear_of_glasses(scene: Scene, at: F, size_m: float) -> F:
    """Degrees that fronts at places (n, 3) are clear of every lens worn (90 when nobody wears glasses)."""
    margin = np.full(at.shape[:-1], 90.0)
    for s in scene.pose.seated:
        if s.person.base_dioptre is None:
            continue
        face = np.array(scene.pose.seated[0].face_m if scene.pose.in_turn else s.face_m)
        for side in (1, -1):
            found = glasses.glare(
                (at - face) * 1000,
                size_m * 1000,
                (scene.camera.at - face) * 1000,
                side=side,
                yaw_deg=s.nose_deg,
                pitch_deg=s.chin_deg,
                base_dioptre=s.person.base_dioptre,
            )
            margin = np.minimum(margin, found.margin_deg)
    return np.asarray(margin, dtype=np.float64)


def glare_margin(light: Light, scene: Scene) -> float:
    """Degrees a placed light is clear of the glare zone of every lens worn (90 when nobody wears glasses)."""
    return float(clear_of_glasses(scene, light.at, light.glare_size_m))


def centimetres(at: F) -> tuple[float, float, float]:
    return (round(float(at[0]), 2) + 0.0, round(float(at[1]), 2) + 0.0, round(float(at[2]), 2) + 0.0)


def exact(at: F) -> tuple[float, float, float]:
    return (float(at[0]), float(at[1]), float(at[2]))
