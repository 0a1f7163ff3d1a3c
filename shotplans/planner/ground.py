"""Step 3, second part: the background. Which one, how far behind, and whether spill alone gives it the wanted tone.

Lightness follows from the plane exposure on the ground against the setting reading (an 18 % grey at the setting is
rendered as 18 %). A ground light is added only when spill and distance cannot reach the tone. Canonical set.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import background
from shotplans.light.units import bearing_deg, direction, height_deg, round_to, unit
from shotplans.planner import kit as owned
from shotplans.planner.candidates import extent
from shotplans.planner.emitters import Emitter
from shotplans.planner.framings import GROUND_DISTANCE_M, TONES
from shotplans.planner.intents import Band
from shotplans.planner.mounting import mount
from shotplans.planner.plan import Block, Ground, Light
from shotplans.planner.readings import plane
from shotplans.planner.scene import Scene, centimetres
from shotplans.planner.space import Box

F = NDArray[np.float64]
FACING = np.array([0.0, 0.0, 1.0])
WHITE_OVER = (0.3, 1.0)  # a white ground over the setting, stops: common practice
STEP_M = 0.2
NARROW_TASTE = 0.02  # of two that do as well, the narrower is hung sooner
FAR_THIRD = 1 / 6  # of the width seen, off the middle
GOOD_ENOUGH_L = 1.5
LIT_COST = 0.6  # a light for the ground, against a metre of distance costing half


@dataclass(frozen=True)
class Spill:
    """What already falls on the ground: lights at their powers, black panels, and the setting's exposure."""

    lights: tuple[Light, ...]
    blocks: tuple[Block, ...]
    setting: float


def wanted_lightness(tone: str, row_ground: Band) -> Band:
    """The L* wanted: what the brief calls the tone, narrowed by the intent (or a standard) where they overlap."""
    low, high = TONES[tone]
    if tone == "black":
        return Band(0.0, high)  # no black is too black
    inner = Band(max(low, row_ground.low), min(high, row_ground.high))
    return inner if inner.low < inner.high else Band(low, high)


def distances(tone: str, longest_m: float) -> list[float]:
    """Distances from the mark to try, the usual one first."""
    first, low, high = GROUND_DISTANCE_M[tone]
    steps = [float(round_to(x, 0.05)) for x in np.arange(low, min(high, longest_m) + 1e-9, STEP_M)]
    usual = min(first, max(longest_m, 0.8))
    return sorted({float(round_to(usual, 0.05)), *steps}, key=lambda x: (abs(x - first), x))


def seen_points(scene: Scene, item: owned.Background, distance_m: float) -> F:
    """Nine points of the ground the camera sees, (9, 3)."""
    width, low, high = scene.camera.field_at(distance_m)
    half = 0.45 * min(width, item.width_m)
    bottom, top = max(0.05, low), max(0.3, min(high, item.height_m or high))
    ys = np.linspace(bottom + 0.05 * (top - bottom), top - 0.05 * (top - bottom), 3)
    return np.array([[x, y, -distance_m] for y in ys for x in (-half, 0.0, half)])


def measure(
    scene: Scene, item: owned.Background, distance_m: float, spill: Spill, wanted: tuple[float, float]
) -> Ground:
    """How a ground at a distance reads: mean over what is seen, in stops over the setting; spread; coverage."""
    points = seen_points(scene, item, distance_m)
    scene_box = replace(scene.box, mark_from_ground_m=distance_m)
    got = plane(points, FACING, spill.lights, scene_box, blocks=spill.blocks)
    reading = float(np.log2(max(got.mean(), 1e-9) / spill.setting))
    spread = float(np.log2(max(got.max(), 1e-9) / max(got.min(), 1e-9)))
    width, _, high = scene.camera.field_at(distance_m)
    short = max(0.0, width - item.width_m, high - float(item.height_m or high))
    reading = float(round_to(reading, 0.1))
    lightness = float(background.ground_lightness(item.reflectance, reading))
    return Ground(item, distance_m, short <= 1e-9, short, reading, lightness, spread, wanted)


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
) -> Ground:
    """The ground and distance that come nearest to the wanted lightness by spill, coverage first."""
    want = (wanted.low, wanted.high)
    usual = GROUND_DISTANCE_M[tone][0]
    best: tuple[float, Ground] | None = None
    for item in items:
        for distance in distances(tone, longest_m):
            if item.kind == "wall" and distance != distances(tone, longest_m)[0]:
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


def lit(
    scene: Scene,
    ground: Ground,
    wanted: Band,
    spill: Spill,
    *,
    emitters: Sequence[Emitter],
    stands: Sequence[owned.Stand],
    count: int,
) -> list[Light]:
    """One or two ground lights at their ideal power (unrounded), as even as can be; empty when none can stand."""
    goal = spill.setting * 2.0 ** target_stops(ground, wanted)
    points = seen_points(scene, ground.item, ground.distance_m)
    have = plane(points, FACING, spill.lights, scene.box, blocks=spill.blocks)
    best: tuple[float, list[Light]] | None = None
    for emitter in emitters:
        for side_m in np.arange(0.9, 2.6, 0.2):
            for back_m in (0.5, 0.8, 1.1, 1.4):
                for rise in (-0.6, 0.0, 0.6):
                    made = _pair(scene, ground, emitter, float(side_m), back_m, rise, stands, count)
                    if made is None:
                        continue
                    unit_light = plane(points, FACING, made, _dark(scene.box))
                    missing = goal - float(have.mean())
                    if missing <= 0 or unit_light.mean() <= 0:
                        continue
                    power = float(-np.log2(missing / float(unit_light.mean())))
                    total = have + unit_light * 2.0**-power
                    spread = float(np.log2(total.max() / max(total.min(), 1e-12)))
                    cost = spread + 2.0 * max(0.0, -power) + 2.0 * max(0.0, power - emitter.head.range_stops)
                    cost += 0.3 if emitter.disc_size_m > 1.2 else 0.0  # leave the big sources for people
                    if best is None or cost < best[0] - 1e-9:
                        best = (cost, [replace(x, power_stops=max(0.0, power)) for x in made])
    return best[1] if best else []


def _dark(box: Box) -> Box:
    return replace(box, reflectance=0.0)


def _pair(
    scene: Scene,
    ground: Ground,
    emitter: Emitter,
    side_m: float,
    back_m: float,
    rise: float,
    stands: Sequence[owned.Stand],
    count: int,
) -> list[Light] | None:
    lights: list[Light] = []
    free = list(stands)
    for side in (-1.0, 1.0)[:count]:
        # of two, each aims at the far third, so that the near side does not run hot
        aim_x = -side * FAR_THIRD * ground_width(scene, ground) if count > 1 else 0.0
        light = _ground_light(scene, ground, emitter, side * side_m, back_m, rise, aim_x)
        if light is None:
            return None
        held = mount(light.at, -light.axis, emitter.depth_m - 0.2, emitter.mass_kg, free, scene.site())
        if held is None:
            return None
        free = [s for s in free if s.id != held.stand]
        lights.append(replace(light, mounting=held))
    return lights


def _ground_light(
    scene: Scene, ground: Ground, emitter: Emitter, side_m: float, back_m: float, rise: float, aim_x: float
) -> Light | None:
    """A light beside the set, aimed at the middle of the ground; bearing, height angle and distance on their steps."""
    aim_y = float(round_to(min(scene.mark[1], 1.4), 0.05))
    aim = np.array([round(aim_x, 2), aim_y, -ground.distance_m])
    rough = np.array([side_m, scene.mark[1] + rise, -ground.distance_m + back_m])
    way = rough - scene.mark
    bearing = float(round_to(float(bearing_deg(way)), 5.0))
    height = float(round_to(float(height_deg(way)), 5.0))
    at = along(scene.mark, bearing, height, aim, float(round_to(float(np.linalg.norm(rough - aim)), 0.05)))
    if at is None or at[1] < 0.25 or scene.camera.clearance(_edge(at, emitter)) < 1.0:
        return None
    axis = unit(aim - at)
    half = extent(-axis, emitter.width_m, emitter.height_m, emitter.disc)
    body = np.stack([at - half, at + half, at - axis * emitter.depth_m])
    if float(scene.box.over(body).max()) > 0 or body[:, 1].min() < 0.05 or at[2] < -ground.distance_m + 0.15:
        return None
    if np.linalg.norm(at - scene.mark) < 0.7:
        return None
    return Light(
        role="background",
        position=centimetres(at),
        aim=centimetres(aim),
        aim_words="at the middle of the ground" if aim_x == 0 else "at the far third of the ground",
        distance_m=float(round_to(float(np.linalg.norm(at - aim)), 0.05)),
        bearing_deg=bearing,
        height_deg=height,
        emitter=emitter,
        distance_to=centimetres(aim),
    )


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


def _edge(at: F, emitter: Emitter) -> F:
    half = 0.5 * max(emitter.width_m, emitter.height_m) + 0.05
    return np.asarray(at + half * np.array([[1, 1, 0], [1, -1, 0], [-1, -1, 0], [-1, 1, 0]]))
