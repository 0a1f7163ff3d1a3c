"""A white panel as fill: the place on the shadow side whose light comes nearest to what is wanted.

Canonical set: the key stands at camera right, the panel at camera left, out of the picture and off the glasses.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import metering, sources
from shotplans.light.units import direction, unit
from shotplans.planner import kit as owned
from shotplans.planner.candidates import CLOTH_MARGIN
from shotplans.planner.intents import Band
from shotplans.planner.judge import GLARE_CLEAR_DEG
from shotplans.planner.mounting import PANEL_KG, mount
from shotplans.planner.plan import Light
from shotplans.planner.readings import PANEL_GRID, bounce_plane, direct
from shotplans.planner.scene import Filled, Scene, centimetres, clear_of_glasses, exact
from studio.tongue import gettext as _

F = NDArray[np.float64]
BEARINGS = tuple(float(b) for b in range(-40, -105, -5))
HEIGHTS = (0.0, -5.0, -10.0, -15.0)
DISTANCES_M = tuple(round(0.5 + 0.05 * n, 2) for n in range(19))
TRIES = 40
KEY_SHARE = 0.6


def solve(
    scene: Scene, wanted: Band, share: float, key: float, panels: Sequence[owned.Panel], stands: Sequence[owned.Stand]
) -> Filled | None:
    """The white panel whose fill comes nearest to the middle of the band, out of the picture and off the glasses."""
    usable = [p for p in panels if p.white_reflectance]
    if not usable:
        return None
    panel = usable[0]
    distance, bearing, height = (a.ravel() for a in np.meshgrid(DISTANCES_M, BEARINGS, HEIGHTS, indexing="ij"))
    at = np.round(scene.mark + distance[:, None] * direction(bearing, height), 2)
    # A mirror that sends the key to the face bisects; paper scatters, so half as much turn already gives most of it.
    # For several people it faces their middle, so that it fills them alike.
    turn = KEY_SHARE if len(scene.pose.together) == 1 else 0.0
    axis = unit(unit(scene.mark - at) + turn * unit(scene.key.at - at))
    corners = sources.rect_corners(at, axis, panel.width_m, panel.height_m)
    good = (scene.camera.clearance(corners) >= 1 + CLOTH_MARGIN) & (scene.box.over(corners).max(axis=1) <= 0)
    good &= at[:, 1] >= panel.height_m / 2
    level = _panel_levels(scene, panel, at, axis, share, key)
    good &= clear_of_glasses(scene, at, 0.9 * max(panel.width_m, panel.height_m)) >= GLARE_CLEAR_DEG
    cost = np.where(good, np.abs(level - wanted.mid) + 0.002 * np.abs(bearing + 65), np.inf)
    for i in np.argsort(cost, kind="stable")[:TRIES]:
        if not np.isfinite(cost[i]):
            break
        light = Light(
            role="fill",
            position=centimetres(at[i]),
            aim=exact(at[i] + axis[i]) if turn else centimetres(scene.mark),
            aim_words=_("between the face and the key") if turn else _("at the faces"),
            distance_m=float(distance[i]),
            bearing_deg=float(bearing[i]),
            height_deg=float(height[i]),
            panel=panel,
            distance_to=centimetres(scene.mark),
        )
        held = mount(light.at, -light.axis, 0.1, PANEL_KG, stands, scene.site())
        if held is not None:
            bounce_stops = float(-np.log2(max(share, 1e-9)))
            return Filled(replace(light, mounting=held), (), float(level[i]), bounce_stops, wanted, "panel")
    return None


def _panel_levels(scene: Scene, panel: owned.Panel, at: F, axis: F, share: float, key: float) -> F:
    """Fill and bounce under the key, in stops, for panels at places (n, 3) with axes (n, 3)."""
    across, up = sources.panel_axes(axis)
    spots = np.stack([at + across * u * panel.width_m + up * v * panel.height_m for u, v in PANEL_GRID], axis=1)
    got = np.clip(np.sum(direct(scene.key, spots) * axis[:, None, :], axis=-1), 0.0, None).mean(axis=1)
    radiance = float(panel.white_reflectance or 0.0) * (got + bounce_plane([scene.key], scene.box, ())) / np.pi
    seen = radiance[:, None] * sources.rect_vector(scene.mark, at, axis, panel.width_m, panel.height_m)
    strength = np.linalg.norm(seen, axis=-1)
    cos_t = np.clip(seen @ scene.axis / np.maximum(strength, 1e-12), -1.0, 1.0)
    size = sources.disc_like_rect_m(panel.width_m, panel.height_m)
    alpha = np.arctan(size / (2 * np.linalg.norm(at - scene.mark, axis=-1)))
    read = metering.recessed_reading if scene.recessed else metering.dome_reading
    return np.asarray(-np.log2(read(cos_t, strength, alpha) / key + share), dtype=np.float64)
