"""Step 3, first part: the fill. Room bounce first, then black panels, a white panel or a head over the lens.

All ratios are dome readings at the mark against the key's own light, so they are what the meter will show. The key
stands at camera right (canonical set), the shadow side is camera left. Preferences are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from shotplans.light.sources import rect_corners
from shotplans.light.units import direction, unit
from shotplans.planner import fill_head, fill_panel
from shotplans.planner import kit as owned
from shotplans.planner.candidates import CLOTH_MARGIN
from shotplans.planner.emitters import Emitter
from shotplans.planner.intents import Band
from shotplans.planner.mounting import PANEL_KG, mount
from shotplans.planner.plan import Block
from shotplans.planner.readings import blocked
from shotplans.planner.scene import Filled, Scene, bounce_level, centimetres, key_level

BLOCK_BEARING, BLOCK_DISTANCE_M = -75.0, 0.8
SHARED_STOPS = 1.2  # two of one kind give a stop more than one
ENOUGH_STOPS = 0.05  # a fill this near its band is taken as within it


def solve(
    scene: Scene,
    wanted: Band,
    *,
    emitters: Sequence[Emitter],
    panels: Sequence[owned.Panel],
    stands: Sequence[owned.Stand],
    needed: float,
    iso_room_stops: float,
    people: int,
) -> Filled:
    """The simplest fill that brings shadows into the wanted band. `needed` is the exposure of the key on the dome."""
    key = key_level(scene)
    share = bounce_level(scene, scene.key) / key
    bounce_stops = float(-np.log2(max(share, 1e-9)))
    if bounce_stops < wanted.low:
        blocks, level = _blocked(scene, bounce_stops, wanted, panels, stands)
        return Filled(None, blocks, level, bounce_stops, wanted, "blocked" if blocks else "bounce")
    if bounce_stops <= wanted.high:
        return Filled(None, (), bounce_stops, bounce_stops, wanted, "bounce")
    by_panel = fill_panel.solve(scene, wanted, share, key, panels, stands) if people == 1 or not emitters else None
    if by_panel and by_panel.level_stops <= wanted.high + ENOUGH_STOPS:
        return by_panel
    by_head = fill_head.solve(scene, wanted, share, emitters, stands, needed, iso_room_stops)
    if by_head is None and iso_room_stops == 0:  # the ISO is ordered: a second fill may make up what one cannot give
        by_head = fill_head.solve(scene, wanted, share, emitters, stands, needed, SHARED_STOPS)
    found = [f for f in (by_panel, by_head) if f is not None]
    if not found and people > 1:
        by_panel = fill_panel.solve(scene, wanted, share, key, panels, stands)
        found = [by_panel] if by_panel else []
    if not found:
        return Filled(None, (), bounce_stops, bounce_stops, wanted, "none")
    return min(found, key=lambda f: (max(0.0, f.level_stops - wanted.high - ENOUGH_STOPS), f is by_head))


def _blocked(
    scene: Scene, bounce_stops: float, wanted: Band, panels: Sequence[owned.Panel], stands: Sequence[owned.Stand]
) -> tuple[tuple[Block, ...], float]:
    """Black panels, shadow side first: as many as bring the bounce nearest to the band, and the level they leave."""
    placed: list[Block] = []
    free = list(stands)
    for panel, side in zip(panels, (1.0, -1.0), strict=False):
        spot = _block_place(scene, panel, side, free)
        if spot is not None:
            placed.append(spot)
            free = [s for s in free if s.id != spot.stand]
    levels = [bounce_stops - float(np.log2(1 - blocked(placed[:n]))) for n in range(len(placed) + 1)]
    outside = [max(0.0, wanted.low - v, v - wanted.high) for v in levels]
    count = outside.index(min(outside))
    return tuple(placed[:count]), levels[count]


def _block_place(scene: Scene, panel: owned.Panel, side: float, stands: Sequence[owned.Stand]) -> Block | None:
    for distance in np.arange(BLOCK_DISTANCE_M, 1.5, 0.1):
        for bearing in (BLOCK_BEARING, -90.0, -100.0, -60.0):
            way = direction(bearing * side, 0.0)
            spot = scene.mark + float(distance) * way
            at = np.array([spot[0], max(panel.height_m / 2 + 0.02, scene.mark[1] - 0.2), spot[2]])
            axis = unit(np.array([-way[0], 0.0, -way[2]]))
            corners = rect_corners(at, axis, panel.width_m, panel.height_m)
            if scene.camera.clearance(corners) < 1 + CLOTH_MARGIN or float(scene.box.over(corners).max()) > 0:
                continue
            if side > 0 or np.linalg.norm(at - scene.key.at) > panel.width_m / 2 + scene.key.width_m / 2 + 0.2:
                held = mount(at, way, 0.1, PANEL_KG, stands, scene.site())
                if held is not None:
                    return Block(panel, centimetres(at), bearing * side, round(float(distance), 2), held.stand)
    return None
