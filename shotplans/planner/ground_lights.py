"""The ground's own lights: one in the middle's favour, or one from each side, as even as the free kit allows.

Every place beside the set is tried at once for each pair of head and modifier; of two lights the places mirror each
other, and the heads and modifiers may differ where the kit holds no two alike. Canonical set, common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light.units import bearing_deg, direction, height_deg, round_to, unit
from shotplans.planner import dial, ground
from shotplans.planner import kit as owned
from shotplans.planner.candidates import extent
from shotplans.planner.emitters import Emitter
from shotplans.planner.free import Free, one_each
from shotplans.planner.intents import Band
from shotplans.planner.mounting import mount
from shotplans.planner.plan import Ground, Light
from shotplans.planner.readings import plane
from shotplans.planner.scene import Scene, centimetres
from studio.tongue import gettext as _

F = NDArray[np.float64]
SIDES_M = np.arange(0.9, 2.6, 0.2)
BACKS_M = (0.5, 0.8, 1.1, 1.4, 1.7)
RISES_M = (-0.6, 0.0, 0.6)
BEYOND = (1 / 6, 0.0, 1 / 3)  # how far beyond the middle each of two aims, of the width seen
SHARES = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65)  # of the missing light that the left one gives
UNEQUAL_COST = 0.05
SPILL_COST, SPILL_FREE_STOPS = 3.0, 0.04
SHIELDED_COST = 0.1  # where a black screen for each light is free
BIG_M, BIG_COST = 1.2, 0.3  # leave the big sources for people
UNLIKE_COST = 0.1  # two alike are built and dialled sooner
CLEAR_OF_SITTER_M = 0.7
TRIES = 24
LIKELY = 4  # modifiers that are paired where the kit holds more
EVEN_STOPS, WHITE_EVEN_STOPS = 1.2, 0.3  # over the ground seen: common practice, a gentle fall is liked


@dataclass(frozen=True)
class _Places:
    """Places of one kind of light on one side: positions, aims, axes (n, 3), their steps, and which break nothing."""

    at: F
    aim: F
    axis: F
    bearing_deg: F
    height_deg: F
    good: NDArray[np.bool_]


@dataclass(frozen=True)
class _Side:
    """One pair of head and modifier on one side: its places, the ground's exposure from each, and the stray light."""

    emitter: Emitter
    places: _Places
    got: F
    mean: F
    stray: F

    def power(self, wanted: F | float) -> F:
        """Stops below full that give this mean exposure from each place."""
        return np.asarray(-np.log2(wanted / np.maximum(self.mean, 1e-12)))

    def cost(self, power: F, setting: float, shielded: bool) -> F:
        """Powers the head has not, big fronts, and light past the front's edge; of that a dome reads half."""
        outside = np.maximum(0.0, -power) + np.maximum(0.0, power - self.emitter.head.range_stops)
        stray = np.log2(1 + 0.5 * self.stray * 2.0**-power / setting)
        big = BIG_COST if self.emitter.disc_size_m > BIG_M else 0.0
        weight = SHIELDED_COST if shielded else SPILL_COST
        return np.asarray(2.0 * outside + weight * np.maximum(0.0, stray - SPILL_FREE_STOPS) + big)


@dataclass(frozen=True)
class _Try:
    """Lights at their places, as (side, place, power), and what they cost together."""

    cost: float
    lights: tuple[tuple[_Side, int, float], ...]


@dataclass(frozen=True)
class Task:
    """What the ground lights have to do: the set, the ground, the tone wanted and what falls on it already."""

    scene: Scene
    hung: Ground
    wanted: Band
    spill: ground.Spill
    steady: bool
    screened: bool  # whether black screens may be counted on


def solve(task: Task, left: Free) -> tuple[list[Light], Ground]:
    """The lights at their dials' own steps with the ground as they light it; no lights where none can stand."""
    even = WHITE_EVEN_STOPS if task.wanted.low >= 95 else EVEN_STOPS
    best: tuple[list[Light], Ground] = ([], task.hung)
    first = 2 if task.wanted.low >= 95 or task.hung.item.width_m > 3.5 else 1
    for count in (first, 3 - first):
        if best[0] and (count == 1 or best[1].spread_stops <= even):
            break
        found = _dialled(task, _two(task, left) if count == 2 else _one(task, left))
        if found[0] and (not best[0] or found[1].spread_stops < best[1].spread_stops - 0.1):
            best = found
    return best


def _dialled(task: Task, lights: list[Light]) -> tuple[list[Light], Ground]:
    """Lights on their dials' steps, turned up or down once by what they miss together, and the ground they light."""

    def measured(on: list[Light]) -> Ground:
        lit = replace(task.spill, lights=(*task.spill.lights, *on))
        return ground.measure(task.scene, task.hung.item, task.hung.distance_m, lit, task.hung.wanted)

    if not lights:
        return [], task.hung
    lights = _on_steps(lights, 0.0)
    missing = ground.target_stops(task.hung, task.wanted) - measured(lights).reading_above_setting
    lights = _on_steps(lights, missing)
    return lights, measured(lights)


def _on_steps(lights: list[Light], brighter: float) -> list[Light]:
    return [
        replace(x, power_stops=dial.nearest(x.emitter, max(0.0, x.power_stops - brighter))) for x in lights if x.emitter
    ]


def _one(task: Task, left: Free) -> list[Light]:
    bench, shielded = _Bench(task), task.screened and _shielded(left, 1)
    tries = []
    for emitter in one_each(left.emitters(task.steady)):
        side = bench.side(emitter, 1.0, 0.0)
        power = side.power(bench.missing)
        cost = _spread(bench.have + side.got * 2.0 ** -power[:, None]) + side.cost(power, task.spill.setting, shielded)
        cost = np.where(side.places.good & (side.mean > 0), cost, np.inf)
        tries += [_Try(round(float(cost[n]), 9), ((side, n, float(power[n])),)) for n in _best(cost)]
    return _first_held(task, left, tries)


def _two(task: Task, left: Free) -> list[Light]:
    """One from each side: two alike, and unlike ones where no two alike light it evenly."""
    bench, shielded = _Bench(task), task.screened and _shielded(left, 2)
    likely = _likely(bench, one_each(left.emitters(task.steady)), shielded)
    pairs = list(_pairs(left, task.steady, likely))
    tries = [t for a, b in pairs if _alike(a, b) for t in _tries(bench, a, b, shielded)]
    even = WHITE_EVEN_STOPS if task.wanted.low >= 95 else EVEN_STOPS
    if not tries or min(t.cost for t in tries) > even:
        tries += [t for a, b in pairs if not _alike(a, b) for t in _tries(bench, a, b, shielded)]
    return _first_held(task, left, tries)


def _first_held(task: Task, left: Free, tries: list[_Try]) -> list[Light]:
    """The cheapest try whose lights the free stands can hold, each its own."""
    for found in sorted(tries, key=lambda t: t.cost):
        stands, lights = list(left.stands), []
        for side, n, power in found.lights:
            light = _mounted(task, side, n, power, stands)
            if light is None or light.mounting is None:
                break
            lights.append(light)
            stands = [s for s in stands if s.id != light.mounting.stand]
        if len(lights) == len(found.lights):
            return lights
    return []


class _Bench:
    """What falls on the ground already, what is missing to the tone in its mean, and each light tried once."""

    def __init__(self, task: Task) -> None:
        self.task = task
        self.points = ground.seen_points(task.scene, task.hung.item, task.hung.distance_m)
        self.have = plane(self.points, ground.FACING, task.spill.lights, task.scene.box, blocks=task.spill.blocks)
        goal = task.spill.setting * 2.0 ** ground.target_stops(task.hung, task.wanted)
        self.missing = max(goal - float(self.have.mean()), 1e-6 * goal)
        self.width = ground.ground_width(task.scene, task.hung)
        self._tried: dict[tuple[str, str, float, float], _Side] = {}

    def side(self, emitter: Emitter, side: float, aim_x: float) -> _Side:
        key = (emitter.head.id, emitter.modifier.id, side, aim_x)
        if key not in self._tried:
            places = _places(self.task, emitter, side, aim_x)
            got = emitter.vector(self.points[None], places.at[:, None, :], places.axis[:, None, :])
            got = np.clip(got @ ground.FACING, 0.0, None)
            stray = np.linalg.norm(emitter.vector(self.task.scene.mark, places.at, places.axis), axis=-1)
            self._tried[key] = _Side(emitter, places, got, got.mean(axis=1), stray)
        return self._tried[key]


def _tries(bench: _Bench, a: Emitter, b: Emitter, shielded: bool) -> Iterator[_Try]:
    """The best places of two lights, mirrored, each aimed beyond the middle so that the near side does not run hot."""
    share, setting = np.array(SHARES)[:, None], bench.task.spill.setting
    for beyond in BEYOND:
        one, other = bench.side(a, -1.0, beyond * bench.width), bench.side(b, 1.0, -beyond * bench.width)
        power, power_b = one.power(bench.missing * share), other.power(bench.missing * (1 - share))
        cost = _spread(bench.have + one.got * 2.0 ** -power[..., None] + other.got * 2.0 ** -power_b[..., None])
        cost = cost + one.cost(power, setting, shielded) + other.cost(power_b, setting, shielded)
        cost = cost + (0.0 if _alike(a, b) else UNLIKE_COST) + UNEQUAL_COST * np.abs(share - 0.5)
        good = one.places.good & other.places.good & (one.mean > 0) & (other.mean > 0)
        cost = np.where(good, cost, np.inf)
        for at in _best(cost.ravel()):
            rank, n = divmod(at, cost.shape[1])
            lights = ((one, n, float(power[rank, n])), (other, n, float(power_b[rank, n])))
            yield _Try(round(float(cost[rank, n]), 9), lights)


def _shielded(left: Free, count: int) -> bool:
    """Whether a black panel with a stand is free for each of so many lights beyond their own stands."""
    return len(left.panels) >= count and len(left.stands) >= 2 * count


def _best(cost: F) -> list[int]:
    """The places that cost least and break nothing, as many as may be needed to find one that a stand can hold."""
    return [int(n) for n in np.argsort(cost, kind="stable")[:TRIES] if cost[n] < np.inf]


def _likely(bench: _Bench, emitters: Sequence[Emitter], shielded: bool) -> set[str]:
    """The modifiers that would light the ground best with a twin of their own on the other side, and those like them.

    A pair is no better than the worse of its two, so with many modifiers only the first few are paired.
    """
    if len(emitters) <= LIKELY:
        return {e.modifier.id for e in emitters}
    cost = {e.modifier.id: _twinned(bench, e, shielded) for e in emitters}
    first = sorted(emitters, key=lambda e: (cost[e.modifier.id], e.modifier.id))[:LIKELY]
    return {e.modifier.id for e in first} | {_nearest(e, emitters) for e in first}


def _twinned(bench: _Bench, emitter: Emitter, shielded: bool) -> float:
    """What the best place costs where the same light stands mirrored on the other side."""
    one = bench.side(emitter, -1.0, BEYOND[0] * bench.width)
    power = one.power(0.5 * bench.missing)
    lit = one.got * 2.0 ** -power[:, None]
    # the points run in rows across the ground, so the mirrored light falls on each row the other way round
    mirrored = lit.reshape(len(lit), -1, ground.ACROSS)[..., ::-1].reshape(lit.shape)
    cost = _spread(bench.have + lit + mirrored) + 2 * one.cost(power, bench.task.spill.setting, shielded)
    return round(float(np.where(one.places.good & (one.mean > 0), cost, np.inf).min()), 9)


def _nearest(emitter: Emitter, emitters: Sequence[Emitter]) -> str:
    """The other modifier that is most like this one, which makes the pair that is built soonest."""
    others = [e for e in emitters if e.modifier.id != emitter.modifier.id]

    def unlike(e: Emitter) -> tuple[bool, float, str]:
        return not _alike(emitter, e), abs(e.width_m - emitter.width_m), e.modifier.id

    return min(others, key=unlike).modifier.id


def _pairs(left: Free, steady: bool, likely: set[str]) -> Iterator[tuple[Emitter, Emitter]]:
    """Every two of the likely modifiers, the strongest head for each; nothing is used twice."""
    few = left.only(modifiers=likely)
    for a in one_each(few.emitters(steady)):
        for b in one_each(few.less(head=a.head.id, modifier=a.modifier.id, adapter=a.adapter).emitters(steady)):
            yield a, b


def _alike(a: Emitter, b: Emitter) -> bool:
    same = a.modifier.kind == b.modifier.kind and a.modifier.grid_deg == b.modifier.grid_deg
    return same and (a.beam_deg, a.measured) == (b.beam_deg, b.measured) and abs(a.width_m - b.width_m) < 0.05


def _spread(exposures: F) -> F:
    return np.asarray(np.log2(exposures.max(axis=-1) / np.maximum(exposures.min(axis=-1), 1e-12)))


def _places(task: Task, emitter: Emitter, side: float, aim_x: float) -> _Places:
    """Places beside the set on their steps of bearing, height angle and distance, aimed at the ground."""
    scene, behind = task.scene, task.hung.distance_m
    mark = scene.mark
    aim = np.array([round(aim_x, 2), float(round_to(min(mark[1], 1.4), 0.05)), -behind])
    x, z, y = (a.ravel() for a in np.meshgrid(side * SIDES_M, BACKS_M, RISES_M, indexing="ij"))
    rough = np.stack([x, mark[1] + y, -behind + z], axis=-1)
    bearing = round_to(bearing_deg(rough - mark), 5.0)
    height = round_to(height_deg(rough - mark), 5.0)
    reach, there = _along(mark, direction(bearing, height), aim, round_to(np.linalg.norm(rough - aim, axis=-1), 0.05))
    at = np.round(mark + reach[:, None] * direction(bearing, height), 2)
    axis = np.asarray(unit(aim - at))
    half = 0.5 * max(emitter.width_m, emitter.height_m) + 0.05
    edge = at[:, None, :] + half * np.array([[1, 1, 0], [1, -1, 0], [-1, -1, 0], [-1, 1, 0]])
    around = extent(-axis, emitter.width_m, emitter.height_m, emitter.disc)
    body = np.stack([at - around, at + around, at - axis * emitter.depth_m], axis=1)
    good = there & (at[:, 1] >= 0.25) & (scene.camera.clearance(edge) >= 1.0)
    good &= (scene.box.over(body).max(axis=1) <= 0) & (body[..., 1].min(axis=1) >= 0.05)
    good &= (at[:, 2] >= -behind + 0.15)
    good &= np.linalg.norm(at - mark, axis=-1) >= CLEAR_OF_SITTER_M
    return _Places(at, np.broadcast_to(aim, at.shape), axis, bearing, height, good)


def _along(mark: F, way: F, aim: F, distance_m: F) -> tuple[F, NDArray[np.bool_]]:
    """As `ground.along`, for many rays (n, 3): how far along each, and whether it comes that near to the aim at all."""
    offset = aim - mark
    along_ray = way @ offset
    rest = distance_m**2 - float(offset @ offset) + along_ray**2
    reach = along_ray + np.sqrt(np.maximum(rest, 0.0))
    return reach, (rest >= 0) & (reach > 0.2)


def _mounted(task: Task, side: _Side, n: int, power: float, stands: Sequence[owned.Stand]) -> Light | None:
    emitter, places = side.emitter, side.places
    at, axis = places.at[n], places.axis[n]
    held = mount(at, -axis, emitter.depth_m - 0.2, emitter.mass_kg, stands, task.scene.site())
    if held is None:
        return None
    aim = places.aim[n]
    return Light(
        role="background", position=centimetres(at), aim=centimetres(aim),
        aim_words=_("at the middle of the ground") if aim[0] == 0 else _("beyond the middle of the ground"),
        distance_m=float(round_to(float(np.linalg.norm(at - aim)), 0.05)),
        bearing_deg=float(places.bearing_deg[n]), height_deg=float(places.height_deg[n]),
        emitter=emitter, power_stops=max(0.0, power), mounting=held, distance_to=centimetres(aim),
    )  # fmt: skip
