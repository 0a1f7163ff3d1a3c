"""Step 3, first part: the fill. Room bounce first, then black panels, a white panel or a head over the lens.

All ratios are dome readings at the mark against the key's own light, so they are what the meter will show. The key
stands at camera right (canonical set), the shadow side is camera left. Preferences are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import glasses, metering, sources
from shotplans.light.units import direction, unit
from shotplans.planner import kit as owned
from shotplans.planner.candidates import CLOTH_MARGIN, grid, limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.intents import Band
from shotplans.planner.judge import GLARE_CLEAR_DEG
from shotplans.planner.mounting import PANEL_KG, Site, mount
from shotplans.planner.people import Pose
from shotplans.planner.plan import Block, Light
from shotplans.planner.readings import PANEL_GRID, blocked, bounce_plane, direct, dome, toward
from shotplans.planner.score import SLACK, fit
from shotplans.planner.space import Box

F = NDArray[np.float64]
PANEL_BEARINGS = tuple(float(b) for b in range(-40, -105, -5))
PANEL_HEIGHTS = (0.0, -5.0, -10.0, -15.0)
PANEL_DISTANCES = tuple(round(0.5 + 0.05 * n, 2) for n in range(19))
BLOCK_BEARING, BLOCK_DISTANCE_M = -75.0, 0.8
HEAD_SIZE = Band(16, 60)  # a fill over the lens is large
HEAD_HEIGHT = {"one": Band(12, 26), "group": Band(8, 20), "glasses": Band(18, 30)}
BEHIND_CAMERA_M = 0.6
ENOUGH_STOPS = 0.15  # a fill this near its band is taken as within it


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
        return Site(self.camera, self.box, np.array([s.face_m for s in self.pose.together]))


def key_level(scene: Scene) -> float:
    """The key's own light on the dome, without bounce."""
    return dome(direct(scene.key, scene.mark), scene.key.alpha(scene.mark), scene.axis, scene.recessed)


def bounce_level(scene: Scene, light: Light, blocks: Sequence[Block] = ()) -> float:
    """The bounce of one light on the dome."""
    even = bounce_plane([light], scene.box, blocks)
    return even if scene.recessed else float(metering.dome_uniform(even))


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
    darkest, lightest = 2.0**-wanted.high, 2.0**-wanted.low
    if share > lightest:
        blocks = _blocks(scene, share, 2.0**-wanted.mid, panels, stands)
        level = -np.log2(share * (1 - blocked(blocks)))
        if share * (1 - blocked(blocks)) >= darkest * 2.0**-ENOUGH_STOPS or (not emitters and not panels):
            return Filled(None, tuple(blocks), float(level), bounce_stops, wanted, "blocked" if blocks else "bounce")
    if darkest <= share <= lightest:
        return Filled(None, (), bounce_stops, bounce_stops, wanted, "bounce")
    by_panel = _panel(scene, wanted, share, key, panels, stands) if people == 1 or not emitters else None
    if by_panel and by_panel.level_stops <= wanted.high + ENOUGH_STOPS:
        return by_panel
    by_head = _head(scene, wanted, share, key, emitters, stands, needed, iso_room_stops)
    found = [f for f in (by_panel, by_head) if f is not None]
    if not found and people > 1:
        by_panel = _panel(scene, wanted, share, key, panels, stands)
        found = [by_panel] if by_panel else []
    if not found:
        return Filled(None, (), bounce_stops, bounce_stops, wanted, "none")
    return min(found, key=lambda f: (max(0.0, f.level_stops - wanted.high - ENOUGH_STOPS), f is by_head))


def _blocks(
    scene: Scene, share: float, target: float, panels: Sequence[owned.Panel], stands: Sequence[owned.Stand]
) -> list[Block]:
    """Black panels on the shadow side, then on the key's side behind it, until the bounce is down or none is left."""
    placed: list[Block] = []
    free = list(stands)
    for panel, side in zip(panels, (1.0, -1.0), strict=False):
        if share * (1 - blocked(placed)) <= target:
            break
        spot = _block_place(scene, panel, side, free)
        if spot is None:
            continue
        placed.append(spot)
        free = [s for s in free if s.id != spot.stand]
    return placed


def _block_place(scene: Scene, panel: owned.Panel, side: float, stands: Sequence[owned.Stand]) -> Block | None:
    for distance in np.arange(BLOCK_DISTANCE_M, 1.5, 0.1):
        for bearing in (BLOCK_BEARING, -90.0, -100.0, -60.0):
            way = direction(bearing * side, 0.0)
            spot = scene.mark + float(distance) * way
            at = np.array([spot[0], max(panel.height_m / 2 + 0.02, scene.mark[1] - 0.2), spot[2]])
            axis = unit(np.array([-way[0], 0.0, -way[2]]))
            corners = sources.rect_corners(at, axis, panel.width_m, panel.height_m)
            if scene.camera.clearance(corners) < 1 + CLOTH_MARGIN or float(scene.box.over(corners).max()) > 0:
                continue
            if side > 0 or np.linalg.norm(at - scene.key.at) > panel.width_m / 2 + scene.key.width_m / 2 + 0.2:
                held = mount(_grip(at), way, 0.1, PANEL_KG, stands, scene.site())
                if held is not None:
                    where = (round(float(at[0]), 2), round(float(at[1]), 2), round(float(at[2]), 2))
                    return Block(panel, where, bearing * side, round(float(distance), 2), held.stand)
    return None


def _grip(at: F) -> F:
    # A stand holds a panel by its edge, somewhere near its middle; where low stands reach that will do.
    return np.array([at[0], min(float(at[1]), 1.1), at[2]])


def _panel(
    scene: Scene, wanted: Band, share: float, key: float, panels: Sequence[owned.Panel], stands: Sequence[owned.Stand]
) -> Filled | None:
    """The white panel whose fill comes nearest to the middle of the band, out of the picture and off the glasses."""
    usable = [p for p in panels if p.white_reflectance]
    if not usable:
        return None
    panel = usable[0]
    distance, bearing, height = (
        a.ravel() for a in np.meshgrid(PANEL_DISTANCES, PANEL_BEARINGS, PANEL_HEIGHTS, indexing="ij")
    )
    at = np.round(scene.mark + distance[:, None] * direction(bearing, height), 2)
    # A mirror that sends the key to the face bisects; paper scatters, so half as much turn already gives most of it.
    axis = unit(unit(scene.mark - at) + 0.6 * unit(scene.key.at - at))
    corners = sources.rect_corners(at, axis, panel.width_m, panel.height_m)
    good = (scene.camera.clearance(corners) >= 1 + CLOTH_MARGIN) & (scene.box.over(corners).max(axis=1) <= 0)
    good &= at[:, 1] >= panel.height_m / 2
    level = _panel_levels(scene, panel, at, axis, share, key)
    good &= _clear_of_glasses(scene, at, 0.9 * max(panel.width_m, panel.height_m)) >= GLARE_CLEAR_DEG
    cost = np.where(good, np.abs(level - wanted.mid) + 0.002 * np.abs(bearing + 65), np.inf)
    for i in np.argsort(cost, kind="stable")[:40]:
        if not np.isfinite(cost[i]):
            break
        light = Light(
            role="fill",
            position=_cm3(at[i]),
            aim=_point(at[i] + axis[i]),
            aim_words="between the face and the key",
            distance_m=float(distance[i]),
            bearing_deg=float(bearing[i]),
            height_deg=float(height[i]),
            panel=panel,
            distance_to=_cm3(scene.mark),
        )
        held = mount(_grip(light.at), -light.axis, 0.1, PANEL_KG, stands, scene.site())
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
    size = float(np.sqrt((panel.width_m**2 + panel.height_m**2) * 2 / 3))
    alpha = np.arctan(size / (2 * np.linalg.norm(at - scene.mark, axis=-1)))
    read = metering.recessed_reading if scene.recessed else metering.dome_reading
    return np.asarray(-np.log2(read(cos_t, strength, alpha) / key + share), dtype=np.float64)


def _clear_of_glasses(scene: Scene, at: F, size_m: float) -> F:
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


def _head(
    scene: Scene,
    wanted: Band,
    share: float,
    key: float,
    emitters: Sequence[Emitter],
    stands: Sequence[owned.Stand],
    needed: float,
    iso_room_stops: float,
) -> Filled | None:
    """The head that fills from over the lens: large, near the axis, clear of glasses, with power for its level."""
    target = 2.0**-wanted.mid - share
    ranked: list[tuple[float, Emitter, float, float, float]] = []
    for emitter in emitters:
        g = grid(scene.mark[1], (1.2, scene.camera.distance_m + 3.0), (-15.0, 15.0), (5.0, 40.0), 0.1)
        lim = limits(
            g,
            emitter,
            camera=scene.camera,
            box=scene.box,
            stands=stands,
            needed=needed * target,
            iso_room_stops=iso_room_stops,
        )
        size = 2 * np.degrees(emitter.alpha(g.distance_m))
        value = (
            0.4 * fit(size, HEAD_SIZE, 10.0)
            + 0.3 * fit(g.bearing_deg, Band(-5, 5), 12.0)
            + 0.3 * fit(g.height_deg, HEAD_HEIGHT[_who(scene)], SLACK["height"])
            - 3.0 * lim.broken()
            - (lim.broken() > 0)
            - 0.15 * lim.boom
            - 0.02 * lim.iso_up
            - 0.04 * np.abs(g.distance_m - scene.camera.distance_m - BEHIND_CAMERA_M)
            - 0.15 * (emitter.modifier.kind in ("strip", "snoot"))
        )
        for i in np.argsort(-value, kind="stable")[:40]:
            ranked.append(
                (-float(value[i]), emitter, float(g.distance_m[i]), float(g.bearing_deg[i]), float(g.height_deg[i]))
            )
    ranked.sort(key=lambda r: (round(r[0], 9), r[1].modifier.id, r[1].head.id, r[2], abs(r[3]), -r[3], r[4]))
    second: Filled | None = None
    for value, emitter, distance, bearing, height in ranked[:240]:
        if value > 0.5:
            break
        light = _fill_light(scene, emitter, distance, bearing, height)
        if light is None:
            continue
        mounted = mount(light.at, -light.axis, emitter.depth_m - 0.2, emitter.mass_kg, stands, scene.site())
        if mounted is None:
            continue
        light = replace(light, mounting=mounted)
        filled = Filled(light, (), wanted.mid, float(-np.log2(max(share, 1e-9))), wanted, "head")
        if glare_margin(light, scene) >= GLARE_CLEAR_DEG:
            return filled
        second = second or filled
    return second


def _who(scene: Scene) -> str:
    if any(s.person.wears_glasses for s in scene.pose.seated):
        return "glasses"
    return "group" if len(scene.pose.together) > 3 else "one"


def _fill_light(scene: Scene, emitter: Emitter, distance: float, bearing: float, height: float) -> Light | None:
    at = scene.mark + distance * direction(bearing, height)
    reach = (emitter.width_m + scene.key.width_m) / 2 * 0.9
    if np.linalg.norm(at - scene.key.at) < reach:
        return None
    return Light(
        role="fill",
        position=_cm3(at),
        aim=_cm3(scene.mark),
        aim_words="at the faces" if len(scene.pose.together) > 1 else "at the face",
        distance_m=distance,
        bearing_deg=bearing,
        height_deg=height,
        emitter=emitter,
        distance_to=_cm3(scene.mark),
    )


def glare_margin(light: Light, scene: Scene) -> float:
    """Degrees a placed light is clear of the glare zone of every lens worn (90 when nobody wears glasses)."""
    return float(_clear_of_glasses(scene, light.at, light.glare_size_m))


def _cm3(at: F) -> tuple[float, float, float]:
    return (round(float(at[0]), 2) + 0.0, round(float(at[1]), 2) + 0.0, round(float(at[2]), 2) + 0.0)


def _point(at: F) -> tuple[float, float, float]:
    return (float(at[0]), float(at[1]), float(at[2]))
