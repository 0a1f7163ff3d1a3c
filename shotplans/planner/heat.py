"""What stands nearer to a lamp than a hot one allows: fronts, panels, ground and people, by the distance between.

The kit does not say which lamps run hot, so every modelling and steady lamp counts as one. A modifier's own cloth is
the maker's matter: its limit in watts.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light.heat import CLEAR_OF_HOT_LAMP_M, distance_to_front_m
from shotplans.light.sources import panel_axes
from shotplans.planner.anatomy import HEAD_HEIGHT_M
from shotplans.planner.plan import Light, Solved
from studio.tongue import gettext as _

F = NDArray[np.float64]
FORWARD = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True)
class Near:
    """A lamp and the nearest thing it could scorch: the light's letter, what, and how far, m."""

    letter: str
    what: str
    distance_m: float


def near(solved: Solved) -> list[Near]:
    """Each lamp that has something within the clearance of a hot lamp, with the nearest of them."""
    found = []
    for light in solved.lights:
        if lamp_watts(light) > 0:
            nearest = min(_about(solved, light), key=lambda n: (round(n.distance_m, 6), n.what), default=None)
            if nearest is not None and nearest.distance_m < CLEAR_OF_HOT_LAMP_M:
                found.append(nearest)
    return found


def lamp_watts(light: Light) -> float:
    """Watts of the lamp that burns between frames: a flash's modelling lamp, a steady head's own; 0 for a panel."""
    if light.emitter is None:
        return 0.0
    head = light.emitter.head
    return float((head.watts if head.light == "steady" else head.modelling_watts) or 0.0)


def over_limit_watts(light: Light) -> tuple[float, float] | None:
    """The lamp's watts and its modifier's limit, where the kit knows one; None else."""
    limit = light.emitter.modifier.max_modelling_watts if light.emitter else None
    return None if limit is None else (lamp_watts(light), float(limit))


def _lamp(light: Light) -> F:
    assert light.emitter is not None
    return np.asarray(light.at - light.axis * float(light.emitter.modifier.depth_m or 0.0), dtype=np.float64)


def _about(solved: Solved, light: Light) -> Iterator[Near]:
    lamp = _lamp(light)
    for other in solved.lights:
        if other.letter != light.letter:
            across, up = panel_axes(other.axis)
            away = float(distance_to_front_m(lamp, other.at, across, up, other.width_m, other.height_m))
            yield Near(light.letter, _("the front of light {letter}").format(letter=other.letter), away)
    for block in solved.blocks:
        facing = np.array([-block.at_m[0], 0.0, -block.at_m[2]])
        across, up = panel_axes(facing if np.linalg.norm(facing) > 1e-6 else FORWARD)
        size = (block.panel.width_m, block.panel.height_m)
        yield Near(light.letter, _("a black panel"), float(distance_to_front_m(lamp, block.at_m, across, up, *size)))
    ground = solved.ground
    if ground is not None and ground.item.kind != "wall":
        high = float(ground.item.height_m or 2.5)
        across, up = panel_axes(FORWARD)
        middle = (0.0, high / 2, -ground.distance_m)
        away = float(distance_to_front_m(lamp, middle, across, up, ground.item.width_m, high))
        yield Near(light.letter, _("the ground"), away)
    for seated in solved.pose.seated:
        # as far as the head reaches about the bridge of the nose
        away = float(np.linalg.norm(lamp - np.array(seated.face_m))) - HEAD_HEIGHT_M / 2
        yield Near(light.letter, _("a sitter"), max(away, 0.0))
