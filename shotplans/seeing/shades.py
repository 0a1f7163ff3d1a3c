"""Flags before a light, as a place of the head sees them: which share of a piece of the front they leave in sight.

Belongs here: a flag carried into the head's frame, and what it hides. Not here: where a flag stands (`planner.flags`),
or the picture. As in the plan's readings a flag keeps off its own light alone, and two flags are taken as apart.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import sources
from shotplans.light.vectors import dot
from shotplans.planner.plan import Flag, Light

F = NDArray[np.float32]


@dataclass(frozen=True)
class Screen:
    """A black rectangle in the head's frame: its middle, unit vectors along its width and height, and half of each."""

    middle: F
    across: F
    up: F
    half_width: float
    half_height: float


def before(light: Light, flags: Sequence[Flag], inside: Callable[[NDArray[np.float64]], F]) -> Iterator[Screen]:
    """The flags that shade a light; `inside` takes places of the set, metres, into the head's frame, millimetres."""
    for flag in flags:
        if light.emitter is None or flag.head != light.emitter.head.id:
            continue
        at = np.array(flag.at_m)
        middle = inside(at)
        along = [(inside(at + axis) - middle) / 1000 for axis in sources.panel_axes(np.array(flag.axis))]
        yield Screen(middle, along[0], along[1], 500 * flag.width_m, 500 * flag.height_m)


def past(screens: Sequence[Screen], place: F, point: F, pitch: float) -> F:
    """Share (n,) of a square piece of a front, `pitch` wide about a point, that places (n, 3) see past the screens.

    The piece's rays meet a screen's plane in a square as much smaller as the plane is nearer to the place; what of it
    lies on the screen is hidden, so that an edge comes on gradually. All in one frame and length. Geometry.
    """
    left = np.ones(len(place), dtype=np.float32)
    for screen in screens:
        normal = np.cross(screen.across, screen.up)
        to_place, to_point = dot(place - screen.middle, normal), float((point - screen.middle) @ normal)
        parts = to_place * to_point < 0
        if not parts.any():
            continue
        share = to_place / np.where(parts, to_place - to_point, 1.0)  # of the way from the place to the point
        met = place + share[:, None] * (point - place) - screen.middle
        wide = np.maximum(pitch * share, 1e-3)
        hidden = _on(dot(met, screen.across), wide, screen.half_width)
        left *= 1 - np.where(parts, hidden * _on(dot(met, screen.up), wide, screen.half_height), 0.0)
    return left


def _on(middle: F, wide: F, half: float) -> F:
    """Share of stretches about their middles, so wide, that lies within `half` to either side of 0."""
    found: F = np.clip(np.minimum(middle + wide / 2, half) - np.maximum(middle - wide / 2, -half), 0.0, None) / wide
    return found
