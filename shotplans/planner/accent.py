"""Step 3, third part: one accent from behind on the shadow side, where hair or shoulders would melt into the ground.

Hair light aims at the crown, rim and kicker at the head's side. It stands out of the picture, before the ground, and
is read at its own place with the dome toward it. Canonical set: the shadow side is camera left.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light.units import unit
from shotplans.planner import anatomy
from shotplans.planner import kit as owned
from shotplans.planner.candidates import Grid, grid, limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.ground import along
from shotplans.planner.intents import Band
from shotplans.planner.mounting import mount
from shotplans.planner.plan import Light
from shotplans.planner.scene import Scene
from shotplans.planner.score import fit

F = NDArray[np.float64]
# bearing and height angle wanted by kind of accent, degrees: common practice, no source
PLACES = {
    "hair": (Band(-160, -140), Band(35, 50)),
    "rim": (Band(-155, -135), Band(15, 40)),
    "kicker": (Band(-140, -120), Band(10, 30)),
}
DISTANCE_M = Band(1.2, 2.0)
TRIES = 40
LARGEST_M = 1.2  # a bigger source from behind flares the lens


def solve(
    scene: Scene,
    kind: str,
    level: Band,
    *,
    emitters: Sequence[Emitter],
    stands: Sequence[owned.Stand],
    needed: float,
) -> Light | None:
    """The accent at its ideal power (unrounded), or None when nothing free can stand there.

    `needed` is the key's own exposure; the accent reads `level` under it with the dome facing it.
    """
    aim = scene.mark + np.array([0.0, anatomy.CROWN_ABOVE_EYES_M if kind == "hair" else 0.0, 0.0])
    aim[1] = round(float(aim[1]), 2)
    small = [e for e in emitters if e.disc_size_m <= LARGEST_M]
    wanted = needed * 2.0**-level.mid
    for _, number, distance, bearing, height in sorted(_places(scene, aim, kind, small, stands))[: 2 * TRIES]:
        made = _light(scene, aim, kind, small[number], distance, bearing, height, stands)
        if made is None:
            continue
        power = _power(scene, made, aim, wanted)
        if -0.5 <= power <= small[number].head.range_stops:
            return replace(made, power_stops=max(0.0, power))
    return None


def _places(
    scene: Scene, aim: F, kind: str, emitters: Sequence[Emitter], stands: Sequence[owned.Stand]
) -> Iterator[tuple[float, int, float, float, float]]:
    """Places that break no limit, as (cost, emitter, distance, bearing, height angle)."""
    bearings, heights = PLACES[kind]
    g = _about(scene, aim, grid(scene.mark[1], (1.0, 2.6), (-165.0, -110.0), (0.0, 55.0), 0.1))
    taste = fit(g.bearing_deg, bearings, 12.0) + fit(g.height_deg, heights, 10.0)
    taste = taste + 0.5 * fit(g.distance_m, DISTANCE_M, 0.5)
    for number, emitter in enumerate(emitters):
        lim = limits(g, emitter, camera=scene.camera, box=scene.box, stands=stands, needed=0.0, iso_room_stops=0.0)
        # The dome faces this light, so the power limit of `limits` (dome at the camera) is not the one that counts.
        kept = lim.room + lim.ceiling + lim.picture + lim.reach + lim.near == 0
        value = taste - 0.1 * lim.boom + 0.3 * (emitter.modifier.grid_deg is not None)
        value = value + 0.2 * (emitter.modifier.kind == "strip")
        for i in np.argsort(-np.where(kept, value, -np.inf), kind="stable")[:TRIES]:
            if kept[i]:
                steps = (float(g.distance_m[i]), float(g.bearing_deg[i]), float(g.height_deg[i]))
                yield (round(-float(value[i]), 9), number, *steps)


def _about(scene: Scene, aim: F, g: Grid) -> Grid:
    """The grid with each placement moved along its ray so that the distance is to the aim."""
    offset = aim - scene.mark
    along_ray = g.toward @ offset
    reach = along_ray + np.sqrt(np.maximum(g.distance_m**2 - float(offset @ offset) + along_ray**2, 0.0))
    return replace(g, position=scene.mark + reach[:, None] * g.toward)


def _light(
    scene: Scene,
    aim: F,
    kind: str,
    emitter: Emitter,
    distance: float,
    bearing: float,
    height: float,
    stands: Sequence[owned.Stand],
) -> Light | None:
    at = along(scene.mark, bearing, height, aim, distance)
    if at is None or np.linalg.norm(at - scene.key.at) < (emitter.width_m + scene.key.width_m) / 2:
        return None
    held = mount(at, unit(at - aim), emitter.depth_m - 0.2, emitter.mass_kg, stands, scene.site())
    if held is None:
        return None
    words = {"hair": "at the crown", "rim": "at the side of the head", "kicker": "at the shadow cheek from behind"}
    place = (round(float(at[0]), 2), round(float(at[1]), 2), round(float(at[2]), 2))
    target = (round(float(aim[0]), 2), round(float(aim[1]), 2), round(float(aim[2]), 2))
    return Light(
        role="accent",
        position=place,
        aim=target,
        aim_words=words[kind],
        distance_m=distance,
        bearing_deg=bearing,
        height_deg=height,
        emitter=emitter,
        mounting=held,
        distance_to=target,
    )


def _power(scene: Scene, light: Light, aim: F, wanted: float) -> float:
    assert light.emitter is not None
    got = float(np.linalg.norm(light.emitter.vector(aim, light.at, light.axis)))
    return float(-np.log2(wanted / max(got, 1e-12)))
