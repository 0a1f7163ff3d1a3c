"""Step 3, second part: the background. Which one, how far behind, and whether spill alone gives it the wanted tone.

Lightness follows from the plane exposure on the ground against the setting reading (an 18 % grey at the setting is
rendered as 18 %). A ground light is added only when spill and distance cannot reach the tone: `ground_lights`.
Canonical set.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import background
from shotplans.light.units import direction, round_to
from shotplans.planner import kit as owned
from shotplans.planner.framings import GROUND_DISTANCE_M, TONES
from shotplans.planner.intents import Band
from shotplans.planner.plan import Block, Flag, Ground, Light
from shotplans.planner.readings import plane
from shotplans.planner.scene import Scene

F = NDArray[np.float64]
FACING = np.array([0.0, 0.0, 1.0])
WHITE_OVER = (0.3, 1.0)  # a white ground over the setting, stops: common practice
STEP_M = 0.2
NARROW_TASTE = 0.02  # of two that do as well, the narrower is hung sooner
GOOD_ENOUGH_L = 1.5
DARK_MOST_L = 30.0  # a ground wanted no lighter than this is to stay dark
LIT_COST = 0.6  # a light for the ground, against a metre of distance costing half
ACROSS = 5  # points looked at across the ground


@dataclass(frozen=True)
class Spill:
    """What already falls on the ground: lights at their powers, black panels, the setting's exposure, and flags."""

    lights: tuple[Light, ...]
    blocks: tuple[Block, ...]
    setting: float
    flags: tuple[Flag, ...] = ()


def wanted_lightness(tone: str, row_ground: Band) -> Band:
    """The L* wanted: what the brief calls the tone, narrowed by the intent (or a standard) where they overlap."""
    low, high = TONES[tone]
    if tone == "black":
        return Band(0.0, high)  # no black is too black
    inner = Band(max(low, row_ground.low), min(high, row_ground.high))
    return inner if inner.low < inner.high else Band(low, high)


def distances(tone: str, longest_m: float, least_m: float = 0.0) -> list[float]:
    """Distances from the mark to try, the usual one first, none under the least a note asks where the room has it."""
    first, low, high = GROUND_DISTANCE_M[tone]
    steps = [float(round_to(x, 0.05)) for x in np.arange(low, min(high, longest_m) + 1e-9, STEP_M)]
    usual = min(first, max(longest_m, 0.8))
    asked = {float(round_to(least_m, 0.05))} if 0 < least_m <= longest_m else set()
    tried = sorted({float(round_to(usual, 0.05)), *steps, *asked}, key=lambda x: (abs(x - first), x))
    return [x for x in tried if x >= least_m - 1e-9] or [max(tried)]


def seen_points(scene: Scene, item: owned.Background, distance_m: float) -> F:
    """Fifteen points of the ground the camera sees, (15, 3): five across, three up."""
    width, low, high = scene.camera.field_at(distance_m)
    half = 0.45 * min(width, item.width_m)
    bottom, top = max(0.05, low), max(0.3, min(high, item.height_m or high))
    ys = np.linspace(bottom + 0.05 * (top - bottom), top - 0.05 * (top - bottom), 3)
    return np.array([[x, y, -distance_m] for y in ys for x in half * np.linspace(-1, 1, ACROSS)])


def measure(
    scene: Scene, item: owned.Background, distance_m: float, spill: Spill, wanted: tuple[float, float]
) -> Ground:
    """How a ground at a distance reads: mean over what is seen, in stops over the setting; spread; coverage."""
    points = seen_points(scene, item, distance_m)
    scene_box = replace(scene.box, mark_from_ground_m=distance_m)
    got = np.maximum(plane(points, FACING, spill.lights, scene_box, blocks=spill.blocks, flags=spill.flags), 1e-9)
    reading = float(np.log2(got.mean() / spill.setting))
    spread = float(background.spread_stops(got))
    lowest = float(np.log2(got.min() / spill.setting))
    width, _, high = scene.camera.field_at(distance_m)
    short = max(0.0, width - item.width_m, high - float(item.height_m or high))
    reading = float(round_to(reading, 0.1))
    lightness = float(background.ground_lightness(item.reflectance, reading))
    return Ground(item, distance_m, short <= 1e-9, short, reading, lightness, spread, wanted, lowest)


def ground_width(scene: Scene, ground: Ground) -> float:
    """Metres of the ground's width that the camera sees."""
    return min(scene.camera.field_at(ground.distance_m)[0], ground.item.width_m)


def choose(
    scene: Scene,
    items: Sequence[owned.Background],
    tone: str,
    wanted: Band,
    spill: Spill,
    longest_m: float,
    can_light: bool,
    least_m: float = 0.0,
) -> Ground:
    """The ground and distance that come nearest to the wanted lightness by spill, coverage first."""
    want = (wanted.low, wanted.high)
    usual = GROUND_DISTANCE_M[tone][0]
    best: tuple[float, Ground] | None = None
    tried = distances(tone, longest_m, least_m)
    for item in items:
        for distance in tried:
            if item.kind == "wall" and distance != tried[0]:
                continue
            made = measure(scene, item, distance, spill, want)
            cost = (
                NARROW_TASTE * item.width_m
                + 4.0 * (made.covers_short_m + max(0.0, item.width_m - scene.box.across_m))
                + abs(distance - usual) * 0.5
                + _tone_cost(made, wanted, can_light)
            )
            if best is None or cost < best[0] - 1e-9:
                best = (cost, made)
    assert best is not None
    return best[1]


def _tone_cost(made: Ground, wanted: Band, can_light: bool) -> float:
    """What a ground's tone costs: too light cannot be mended, too dark takes a light, and no cloth is lit to excess."""
    aim = float(background.stops_for_lightness(made.item.reflectance, max(1.0, 0.5 * (wanted.low + wanted.high))))
    # a cloth is at home between 1.8 stops under the setting and a third over; a white ground may be lit to +1
    at_home = max(0.0, -1.8 - aim, aim - (1.0 if wanted.low >= 95 else 0.3))
    too_dark, too_light = max(0.0, wanted.low - made.lightness), max(0.0, made.lightness - wanted.high)
    return 1.2 * at_home + min(0.25 * too_dark, LIT_COST if can_light else np.inf) + 0.25 * too_light


def needs_light(ground: Ground, wanted: Band) -> bool:
    """Whether spill leaves the ground darker than wanted by more than is seen."""
    if wanted.low >= 95:
        return ground.reading_above_setting < WHITE_OVER[0]
    return ground.lightness < wanted.low - GOOD_ENOUGH_L


def target_stops(ground: Ground, wanted: Band) -> float:
    """Stops over the setting that the ground should read with its own light."""
    if wanted.low >= 95:
        return max(0.6, float(background.stops_for_lightness(ground.item.reflectance, 96.0)))
    aim = wanted.low + 0.4 * (wanted.high - wanted.low)
    return float(background.stops_for_lightness(ground.item.reflectance, aim))


def along(mark: F, bearing: float, height: float, aim: F, distance_m: float) -> F | None:
    """The point on the ray of a bearing and height angle from the mark whose distance to `aim` is `distance_m`.

    The farther of the two; None where the ray passes the aim at more than that. Geometry.
    """
    way = direction(bearing, height)
    offset = aim - mark
    along_ray = float(offset @ way)
    rest = distance_m**2 - float(offset @ offset) + along_ray**2
    if rest < 0:
        return None
    reach = along_ray + float(np.sqrt(rest))
    return np.asarray(mark + reach * way) if reach > 0.2 else None
