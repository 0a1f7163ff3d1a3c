"""A head as fill: large, from over the lens so that it draws no second shadow, clear of glasses, strong enough.

The search is the key's own grid of steps, narrowed to the lens's neighbourhood. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light.units import direction
from shotplans.planner import kit as owned
from shotplans.planner.candidates import Grid, Limits, grid, limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.intents import Band
from shotplans.planner.judge import GLARE_CLEAR_DEG
from shotplans.planner.mounting import mount
from shotplans.planner.plan import Light
from shotplans.planner.scene import Filled, Scene, centimetres, glare_margin
from shotplans.planner.score import SLACK, fit
from studio.tongue import gettext as _

F = NDArray[np.float64]
SIZE_DEG = {"one": Band(22, 60), "group": Band(14, 30), "glasses": Band(22, 60)}
HEIGHT_DEG = {"one": Band(12, 26), "group": Band(8, 20), "glasses": Band(18, 30)}
BEHIND_CAMERA_M = 0.6
DISTANCE_COST = {"one": 0.04, "group": 0.2, "glasses": 0.04}  # a group needs its fill as even as its key
TRIES = 40


@dataclass(frozen=True, order=True)
class _Place:
    """One place worth a try, ordered by what it costs and then by its steps, so that equal input gives equal output."""

    cost: float
    modifier: str
    head: str
    distance_m: float
    off_deg: float
    bearing_deg: float
    height_deg: float
    number: int


def solve(
    scene: Scene,
    wanted: Band,
    share: float,
    emitters: Sequence[Emitter],
    stands: Sequence[owned.Stand],
    needed: float,
    iso_room_stops: float,
    others: Sequence[Light] = (),
) -> Filled | None:
    """The best head for the fill, dialled later; `share` is bounce over key, `needed` the key's own exposure.

    It stands apart from the key and from `others`.
    """
    exposure = needed * (2.0**-wanted.mid - share)
    places = sorted(_places(scene, emitters, stands, exposure, iso_room_stops))
    second: Filled | None = None
    for place in places[: TRIES * 6]:
        if place.cost > 0.5:
            break
        emitter = emitters[place.number]
        light = _light(scene, emitter, place)
        held = mount(light.at, -light.axis, emitter.depth_m - 0.2, emitter.mass_kg, stands, scene.site())
        touches = any(_touch(light, x) for x in (scene.key, *others))
        if held is None or touches:
            continue
        light = replace(light, mounting=held)
        found = Filled(light, (), wanted.mid, float(-np.log2(max(share, 1e-9))), wanted, "head")
        if glare_margin(light, scene) >= GLARE_CLEAR_DEG:
            return found
        second = second or found
    return second


def _touch(light: Light, other: Light) -> bool:
    """Whether two fronts would stand nearer than their sizes let them."""
    return float(np.linalg.norm(light.at - other.at)) < 0.45 * (light.width_m + other.width_m)


def _places(
    scene: Scene, emitters: Sequence[Emitter], stands: Sequence[owned.Stand], exposure: float, iso_room_stops: float
) -> Iterator[_Place]:
    g = grid(scene.mark[1], (1.2, scene.camera.distance_m + 3.0), (-15.0, 15.0), (5.0, 40.0), 0.1)
    for number, emitter in enumerate(emitters):
        lim = limits(
            g,
            emitter,
            camera=scene.camera,
            box=scene.box,
            stands=stands,
            needed=exposure,
            iso_room_stops=iso_room_stops,
        )
        value = _value(scene, g, emitter, lim)
        for i in np.argsort(-value, kind="stable")[:TRIES]:
            bearing = float(g.bearing_deg[i])
            yield _Place(
                round(-float(value[i]), 9),
                emitter.modifier.id,
                emitter.head.id,
                float(g.distance_m[i]),
                abs(bearing),
                -bearing,
                float(g.height_deg[i]),
                number,
            )


def _value(scene: Scene, g: Grid, emitter: Emitter, lim: Limits) -> F:
    broken = lim.broken()
    size = 2 * np.degrees(emitter.alpha(g.distance_m))
    return np.asarray(
        0.4 * fit(size, SIZE_DEG[_who(scene)], 8.0)
        + 0.3 * fit(g.bearing_deg, Band(-5, 5), 12.0)
        + 0.3 * fit(g.height_deg, HEIGHT_DEG[_who(scene)], SLACK["height"])
        - 3.0 * broken - (broken > 0) - 0.15 * lim.boom - 0.02 * lim.iso_up
        - DISTANCE_COST[_who(scene)] * np.abs(g.distance_m - scene.camera.distance_m - BEHIND_CAMERA_M)
        - 0.15 * (emitter.modifier.kind in ("strip", "snoot")),
        dtype=np.float64,
    )  # fmt: skip


def _who(scene: Scene) -> str:
    if len(scene.pose.together) > 3:
        return "group"
    return "glasses" if any(s.person.wears_glasses for s in scene.pose.seated) else "one"


def _light(scene: Scene, emitter: Emitter, place: _Place) -> Light:
    bearing = 0.0 - place.bearing_deg
    at = scene.mark + place.distance_m * direction(bearing, place.height_deg)
    return Light(
        role="fill", position=centimetres(at), aim=centimetres(scene.mark),
        aim_words=_("at the faces") if len(scene.pose.together) > 1 else _("at the face"), distance_m=place.distance_m,
        bearing_deg=bearing, height_deg=place.height_deg, emitter=emitter, distance_to=centimetres(scene.mark),
    )  # fmt: skip
