"""Step 2, first half: every place a key could stand, with the limits of room, picture, stand and power, scored cheaply.

A candidate is an emitter at a distance, bearing and height angle from the mark's eyes, all on the grid a person can
set (5 cm, 5 degrees). Limits are kept as how far they are broken, so that the nearest plan can be named when nothing
fits. The canonical set has the key at camera right.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import metering
from shotplans.light.units import direction
from shotplans.planner import kit as owned
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.framings import PHOTOGRAPHER_M
from shotplans.planner.space import Box

F = NDArray[np.float64]
STEP_M, STEP_DEG = 0.05, 5.0  # what a person sets by: a tape's nearest five centimetres, five degrees
NEAREST_M = 0.5
FARTHEST_M = 7.0
HIGHEST_DEG = 60.0
ABOVE_SPIGOT_M = 0.30  # a light's centre over its stand's spigot; recommend-io.md allows 0.35
HEAD_ABOVE_CAMERA_M = 0.2  # the photographer's crown over the lens, kneeling or standing
BOOM_COST = 0.02
CLOTH_MARGIN = 0.06  # share of the half picture kept clear of a front's rim
HEAD_HALF_M = 0.1  # a head's half height over the line through its middle
LIGHT_CLEAR_M = 0.05  # between cloth and a wall, the ceiling, the ground or the floor
ISO_COST, STEADY_ISO_COST = 0.02, 0.004  # score for a stop of ISO: steady light has no other way


@dataclass(frozen=True)
class Grid:
    """All placements in polar steps about the eyes at the mark; flat arrays of equal length."""

    distance_m: F
    bearing_deg: F
    height_deg: F
    toward: F  # unit vector from the eyes to the light
    position: F
    axes: tuple[
        F, F, F
    ]  # the steps themselves: distances, bearings, heights; flat order is (distance, bearing, height)
    facing: F | None = None  # unit vector from the front to its back where it is not aimed at the eyes

    @property
    def back(self) -> F:
        """Unit vector from each front to its back."""
        return self.toward if self.facing is None else self.facing

    def take(self, chosen: NDArray[np.intp], facing: F | None = None) -> Grid:
        """Some of the placements, turned to another aim if `facing` says so."""
        parts = (self.distance_m, self.bearing_deg, self.height_deg, self.toward, self.position)
        d, b, h, toward, position = (v[chosen] for v in parts)
        return Grid(d, b, h, toward, position, self.axes, facing)


@dataclass(frozen=True)
class Front:
    """What a front does on a grid whatever head is behind it; metres, but for the dome's reading."""

    room: F
    ceiling: F
    picture: F
    near: F
    foot_over: F
    foot_seen: NDArray[np.bool_]
    dome_stops: F  # what a dome at the eyes reads, in stops over the exposure a metre before the front


@dataclass(frozen=True)
class Limits:
    """How far each placement of one emitter breaks what must hold (0 = kept), metres or stops."""

    room: F
    ceiling: F
    picture: F
    reach: F
    power: F
    near: F
    iso_up: F
    boom: NDArray[np.bool_]

    def broken(self) -> F:
        """One number to rank nothing-fits by: physical limits weigh ten times a stop of light."""
        walls = self.room + self.ceiling + self.picture + self.near
        return np.asarray(10.0 * walls + self.by_head(), dtype=np.float64)

    def by_head(self) -> F:
        """The part of it that another head behind the same front may mend."""
        return np.asarray(10.0 * self.reach + self.power, dtype=np.float64)


def grid(
    eye_m: float,
    distances: tuple[float, float],
    bearings: tuple[float, float],
    heights: tuple[float, float] = (0.0, HIGHEST_DEG),
    step_m: float = STEP_M,
) -> Grid:
    """The steps of distance, bearing and height angle in their ranges, as flat arrays."""
    nearest, farthest = distances
    d = np.round(np.arange(nearest, max(nearest, min(FARTHEST_M, farthest)) + 1e-9, step_m), 2)
    b = np.arange(bearings[0], bearings[1] + 1e-9, STEP_DEG)
    h = np.arange(heights[0], heights[1] + 1e-9, STEP_DEG)
    dd, bb, hh = (a.ravel() for a in np.meshgrid(d, b, h, indexing="ij"))
    toward = direction(bb, hh)
    return Grid(dd, bb, hh, toward, np.array([0.0, eye_m, 0.0]) + dd[:, None] * toward, (d, b, h))


def tangents(toward: F) -> tuple[F, F]:
    """Unit vectors across and up a front that faces the eyes, for unit vectors (..., 3) from the eyes to the light."""
    flat = np.hypot(toward[..., 0], toward[..., 2])
    safe = np.where(flat > 1e-9, flat, 1.0)
    cos_b, sin_b = np.where(flat > 1e-9, toward[..., 2] / safe, 1.0), toward[..., 0] / safe
    across = np.stack([cos_b, np.zeros_like(cos_b), -sin_b], axis=-1)
    up = np.stack([-toward[..., 1] * sin_b, flat, -toward[..., 1] * cos_b], axis=-1)
    return across, up


def rim(position: F, toward: F, width_m: float, height_m: float, disc: bool) -> F:
    """Eight points (..., 8, 3) around the front of a light that faces along -toward."""
    across, up = tangents(toward)
    turn = np.arange(8) * np.pi / 4
    c, s = np.cos(turn), np.sin(turn)
    if not disc:
        scale = 1.0 / np.maximum(np.abs(c), np.abs(s))
        c, s = c * scale, s * scale
    return np.asarray(
        position[..., None, :]
        + across[..., None, :] * (c * width_m / 2)[:, None]
        + up[..., None, :] * (s * height_m / 2)[:, None],
        dtype=np.float64,
    )


def foot_of(position: F, toward: F, back_m: float) -> tuple[F, F]:
    """Where a plain stand's foot comes (x, z): under the back of the modifier, `back_m` behind its front."""
    return position[..., 0] + toward[..., 0] * back_m, position[..., 2] + toward[..., 2] * back_m


def limits(
    g: Grid,
    emitter: Emitter,
    *,
    camera: Camera,
    box: Box,
    stands: Sequence[owned.Stand],
    needed: float,
    iso_room_stops: float,
) -> Limits:
    """What each placement of an emitter breaks. `needed` = exposure the key alone must give a dome at the mark."""
    return headed(front(g, emitter, camera, box), g, emitter, stands, needed, iso_room_stops)


def front(g: Grid, emitter: Emitter, camera: Camera, box: Box) -> Front:
    """What the front of an emitter does on a grid: the same for every head behind it."""
    room, ceiling = _in_room(g, emitter, box)
    near = np.maximum(max(float(emitter.modifier.min_distance_m or 0.0), 0.5) - g.distance_m, 0.0)
    near += _in_photographers_place(g, emitter, camera)
    foot_x, foot_z = foot_of(g.position, g.back, emitter.depth_m - 0.2)
    return Front(
        room,
        ceiling,
        _in_picture(g, emitter, camera),
        near,
        box.foot_over(foot_x, foot_z),
        camera.column_seen(foot_x, foot_z, g.position[:, 1]),
        _dome_stops(g, emitter),
    )


def headed(
    fixed: Front, g: Grid, emitter: Emitter, stands: Sequence[owned.Stand], needed: float, iso_room_stops: float
) -> Limits:
    """The limits of a front with this head behind it: its mass on the stands, its power."""
    plain, boomed = _reach(g.position[:, 1], emitter.mass_kg, stands)
    needs_boom = fixed.foot_seen | (fixed.foot_over > 0) | (plain > 0)
    on_foot = np.where(fixed.foot_seen, np.inf, np.maximum(plain, fixed.foot_over))
    reach = np.where(needs_boom, np.minimum(boomed, on_foot), 0.0)
    reach = np.where(np.isfinite(reach), reach, 5.0)
    short = np.log2(max(needed, 1e-12) / max(emitter.exposure_1m, 1e-12)) - fixed.dome_stops
    iso_up = np.minimum(np.ceil(np.clip(short - 1e-9, 0.0, None)), iso_room_stops)
    lacking = np.maximum(short - iso_room_stops, 0.0)
    power = lacking + np.maximum(-short - float(emitter.head.range_stops), 0.0)
    return Limits(fixed.room, fixed.ceiling, fixed.picture, reach, power, fixed.near, iso_up, needs_boom)


def extent(toward: F, width_m: float, height_m: float, disc: bool) -> F:
    """Half extent (..., 3) along x, y and z of a front that faces along -toward."""
    if disc:
        return np.asarray(width_m / 2 * np.sqrt(np.clip(1 - toward**2, 0.0, 1.0)))
    across, up = tangents(toward)
    return np.asarray(0.5 * (width_m * np.abs(across) + height_m * np.abs(up)))


def _in_room(g: Grid, emitter: Emitter, box: Box) -> tuple[F, F]:
    """Metres by which the front or the back of the light goes through a wall or the ground, and through the ceiling."""
    half = extent(g.back, emitter.width_m, emitter.height_m, emitter.disc)
    back = g.position + g.back * emitter.depth_m
    high = np.maximum(g.position + half, back + np.array([0.0, HEAD_HALF_M, 0.0])) - (box.high - LIGHT_CLEAR_M)
    low = (box.light_low + LIGHT_CLEAR_M) - np.minimum(g.position - half, back)
    room = np.maximum(np.maximum(high[:, 0], high[:, 2]), np.maximum(low[:, 0], low[:, 2]))
    return np.maximum(room, 0.0), np.maximum(high[:, 1], 0.0) + np.maximum(low[:, 1], 0.0)


def _in_picture(g: Grid, emitter: Emitter, camera: Camera) -> F:
    """Metres by which the front reaches into the picture (a rough depth of intrusion, 0 outside)."""
    v = g.position - camera.at
    radius = 0.5 * float(np.hypot(emitter.width_m, emitter.height_m))
    p = np.radians(camera.pitch_deg)
    depth = -v[:, 2] * np.cos(p) + v[:, 1] * np.sin(p)
    up = v[:, 1] * np.cos(p) + v[:, 2] * np.sin(p)
    # A front whose every point lies beyond one side of the frame, or behind the lens, needs no closer look.
    wide, high = ((1 + CLOTH_MARGIN) * f / 2 / camera.distance_m for f in (camera.field_width_m, camera.field_height_m))
    beside = (np.abs(v[:, 0]) - wide * depth) / np.hypot(1.0, wide)
    past = (np.abs(up) - high * depth) / np.hypot(1.0, high)
    close = np.maximum.reduce([beside, past, -depth]) < radius
    broken = np.zeros(len(g.distance_m))
    if close.any():
        pts = rim(g.position[close], g.back[close], emitter.width_m, emitter.height_m, emitter.disc)
        beyond = camera.clearance(pts)
        depth_in = np.maximum(1 + CLOTH_MARGIN - beyond, 0.0) * camera.field_height_m / 2
        broken[close] = np.where(np.isfinite(depth_in), depth_in, 0.0)
    return broken


def _in_photographers_place(g: Grid, emitter: Emitter, camera: Camera) -> F:
    """Metres by which a light stands where the camera and the photographer are."""
    x, y, z = g.position.T
    half = emitter.width_m / 2
    low = y - emitter.height_m / 2 * np.cos(np.radians(g.height_deg))
    beside = np.abs(x) - half * np.cos(np.radians(g.bearing_deg)) - 0.35
    there = (z > camera.distance_m - 0.25) & (z < camera.distance_m + PHOTOGRAPHER_M - 0.05)
    head_m = camera.height_m + HEAD_ABOVE_CAMERA_M
    return np.where(there & (low < head_m), np.maximum(-beside, 0.0), 0.0)


def _reach(height: F, mass_kg: float, stands: Sequence[owned.Stand]) -> tuple[F, F]:
    """Metres by which the best free stand, and the best boom, miss a height under this mass."""
    plain = np.full(height.shape, 5.0)
    boomed = np.full(height.shape, 5.0)
    for stand in stands:
        if mass_kg > stand.max_load_kg:
            continue
        miss = np.maximum(height - stand.max_height_m - ABOVE_SPIGOT_M, stand.min_height_m - height)
        miss = np.maximum(miss, 0.0)
        if stand.kind == "boom":
            boomed = np.minimum(boomed, miss)
        else:
            plain = np.minimum(plain, miss)
    return plain, boomed


def _dome_stops(g: Grid, emitter: Emitter) -> F:
    """The reading of the house's dome, at the eyes and toward the camera, over the exposure at a metre, in stops."""
    if g.facing is None:
        strength = emitter.on_axis(g.distance_m)
    else:
        strength = np.linalg.norm(emitter.vector(np.zeros(3), g.toward * g.distance_m[:, None], -g.back), axis=-1)
    read = np.asarray(metering.dome_reading(g.toward[:, 2], strength, emitter.alpha(g.distance_m)))
    return np.asarray(np.log2(np.maximum(read / emitter.exposure_1m, 1e-12)), dtype=np.float64)
