"""Step 1: the camera. Lens and distance for the framing, depth to hold sharp, aperture, ISO, shutter, edges.

A `Camera` stands on the z axis of the set (x = 0) and looks along -z, pitched; `outside` says which points it does
not see. Distances are set to 5 cm, pitch to a degree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shotplans.light import exposure, lenses
from shotplans.light.units import round_to
from shotplans.planner import anatomy
from shotplans.planner import kit as owned
from shotplans.planner.brief import Setup
from shotplans.planner.framings import BIG_PRINT_CM, EDGE_MARGIN, FRAMINGS
from shotplans.planner.people import Pose
from shotplans.planner.request import Preferences

F = NDArray[np.float64]
FLASH_APERTURE = 8.0
STEADY_APERTURE = 5.6
STEADY_SHUTTER_S = 1 / 125
CLOSED_MOST = 16.0  # beyond, diffraction costs more than depth gives: common practice
THIRDS = tuple(2.0 ** (n / 6.0) for n in range(0, 31))


@dataclass(frozen=True)
class Camera:
    """The camera as placed: metres, degrees, millimetres, seconds; `field_*_m` at the sitter's plane."""

    body: owned.Camera
    lens: owned.Lens
    focal_mm: float
    distance_m: float
    height_m: float
    pitch_deg: float
    orientation: str
    field_width_m: float
    field_height_m: float
    aperture: float
    iso: int
    shutter_s: float
    blur_mm: float
    front_m: float
    behind_m: float
    floor_m: float
    wanted_field_m: float

    @property
    def at(self) -> F:
        return np.array([0.0, self.height_m, self.distance_m])

    def screen(self, points: F) -> tuple[F, F, F]:
        """Image coordinates of points (..., 3) as shares of the half picture, and their depth in metres."""
        v = points - self.at
        p = np.radians(self.pitch_deg)
        depth = -v[..., 2] * np.cos(p) + v[..., 1] * np.sin(p)
        up = v[..., 1] * np.cos(p) + v[..., 2] * np.sin(p)
        safe = np.where(depth > 0.02, depth, 0.02)
        half_w, half_h = self.field_width_m / 2 / self.distance_m, self.field_height_m / 2 / self.distance_m
        return v[..., 0] / safe / half_w, up / safe / half_h, depth

    def outside(self, points: F, margin: float = EDGE_MARGIN) -> NDArray[np.bool_]:
        """Whether each point (..., 3) lies outside the picture (or behind the lens)."""
        u, v, depth = self.screen(points)
        seen = (np.abs(u) < 1 + margin) & (np.abs(v) < 1 + margin) & (depth > 0.02)
        return ~seen

    def clearance(self, outline: F) -> F:
        """How far a convex outline (..., k, 3) lies outside the frame, in half pictures past its nearest edge.

        The frame and the outline are convex, so the outline is out of the picture when all of it in front of the lens
        lies beyond one edge: 1 is on the edge, below 1 it may be seen; inf when all of it is behind the lens.
        """
        u, v, depth = self.screen(outline)
        ahead = depth > 0.02
        beyond = np.maximum.reduce(
            [
                np.where(ahead, u, np.inf).min(axis=-1),
                -np.where(ahead, u, -np.inf).max(axis=-1),
                np.where(ahead, v, np.inf).min(axis=-1),
                -np.where(ahead, v, -np.inf).max(axis=-1),
            ]
        )
        return np.asarray(np.where(ahead.any(axis=-1), beyond, np.inf), dtype=np.float64)

    def field_at(self, behind_m: float) -> tuple[float, float, float]:
        """Width of the field, and heights of its lower and upper edge, on a plane `behind_m` behind the mark."""
        reach = self.distance_m + behind_m
        width = self.field_width_m * reach / self.distance_m
        half = np.arctan(self.field_height_m / 2 / self.distance_m)
        p = np.radians(self.pitch_deg)
        low = self.height_m + reach * float(np.tan(p - half))
        high = self.height_m + reach * float(np.tan(p + half))
        return width, low, high


def orientation(setup: Setup, pose: Pose, wanted: str) -> str:
    """Upright or horizontal: by order, else by the shape of what is in the picture, else by the page it is for."""
    if wanted != "either":
        return wanted
    if len(pose.together) > 1:
        return "horizontal"
    return "horizontal" if setup.intent == "even" and setup.framing != "full" else "upright"


def field_height(setup: Setup, pose: Pose, upright: bool, head_share: float | None, aspect: float) -> float:
    """Height of the field at the sitters in metres that holds the framing; `aspect` = width over height."""
    framing = FRAMINGS[setup.framing]
    xs = [s.face_m[0] for s in pose.together]
    spread = max(xs) - min(xs)
    tallest = max(s.face_m[1] for s in pose.together) + anatomy.CROWN_ABOVE_EYES_M
    if setup.framing in ("group", "full"):
        height = max(tallest + 0.25, (spread + 1.0) / aspect)
        return max(height, 1.6)
    height = framing.upright_m if upright else framing.horizontal_m
    if head_share:
        height = anatomy.HEAD_HEIGHT_M / head_share
    elif len(pose.together) > 1:
        height = max(height, (spread + 0.6) / aspect)
    return height


def choose_lens(
    lens_list: Sequence[owned.Lens],
    body: owned.Camera,
    *,
    upright: bool,
    height_m: float,
    floor_m: float,
    wanted_m: float,
    room_m: float,
    locked_mm: float | None,
    locked_m: float | None,
) -> tuple[owned.Lens, float, float]:
    """Lens, focal length in mm and camera distance in m for a field height; nearest to the wanted distance.

    A distance under the perspective floor, under the lens's nearest focus or beyond the room costs more than any
    preference, so it is chosen only when nothing else is left, and the checker then says so.
    """
    tall_mm = (
        max(body.sensor_width_mm, body.sensor_height_mm)
        if upright
        else min(body.sensor_width_mm, body.sensor_height_mm)
    )
    best: tuple[float, int, float, float] | None = None
    for number, lens in enumerate(lens_list):
        for focal in _focals(lens):
            distance = float(round_to(float(lenses.distance_for_field_m(tall_mm, focal, height_m)), 0.05))
            cost = abs(distance - wanted_m)
            cost += 20.0 * max(0.0, floor_m - distance) + 30.0 * max(0.0, distance - room_m)
            cost += 40.0 * max(0.0, float(lens.min_focus_m or 0.0) - distance)
            if locked_mm is not None:
                cost += 5.0 * abs(focal - locked_mm) / locked_mm
            if locked_m is not None:
                cost += 2.0 * abs(distance - locked_m)
            if best is None or (cost, number, focal) < best[:3]:
                best = (cost, number, focal, distance)
    assert best is not None
    _, number, focal, distance = best
    return lens_list[number], focal, distance


def _focals(lens: owned.Lens) -> list[float]:
    steps = np.arange(np.ceil(lens.min_focal_mm / 5) * 5, lens.max_focal_mm + 1e-9, 5.0)
    return sorted({float(lens.min_focal_mm), float(lens.max_focal_mm), *(float(s) for s in steps)})


def depth_zone(pose: Pose) -> tuple[float, float]:
    """Metres to hold sharp before and behind the focus (the nearest eyes' plane taken at the middle of the rows)."""
    zs = [s.face_m[2] for s in pose.together]
    turned = max(abs(np.sin(np.radians(s.nose_deg))) for s in pose.together)
    return max(zs) + anatomy.FACE_FRONT_M, -min(zs) + anatomy.FACE_BEHIND_M * (1 - 0.3 * float(turned))


def stop_for_depth(camera: Camera, start: float, lens: owned.Lens) -> float:
    """The first third stop from `start` upward that holds the depth; at most f/16 or the lens's smallest."""
    widest = exposure.exact_f_number(lens.max_aperture)
    smallest = min(CLOSED_MOST, exposure.exact_f_number(lens.min_aperture or CLOSED_MOST))
    need = float(
        lenses.aperture_for_depth(camera.focal_mm, camera.distance_m, camera.front_m, camera.behind_m, camera.blur_mm)
    )
    first = max(exposure.exact_f_number(start), widest)
    for n in THIRDS:
        if n >= first - 1e-9 and n >= need * 0.999 and n <= smallest * 1.001:
            return float(n)
    return float(min(max(first, smallest), max(smallest, widest)))


def place(
    setup: Setup,
    pose: Pose,
    *,
    bodies: Sequence[owned.Camera],
    lens_list: Sequence[owned.Lens],
    wanted_orientation: str,
    print_width_cm: float | None,
    preferences: Preferences,
    room_m: float,
    head_share: float | None = None,
    locked_mm: float | None = None,
    locked_m: float | None = None,
    above_eyes_m: float | None = None,
    steady: bool = False,
) -> Camera:
    """The camera for a set-up and a pose; `room_m` is the longest camera distance the room allows."""
    body = bodies[0]
    way = orientation(setup, pose, wanted_orientation)
    upright = way == "upright"
    long_mm = max(body.sensor_width_mm, body.sensor_height_mm)
    short_mm = min(body.sensor_width_mm, body.sensor_height_mm)
    wide_mm, tall_mm = (short_mm, long_mm) if upright else (long_mm, short_mm)
    height = field_height(setup, pose, upright, head_share, wide_mm / tall_mm)
    framing = FRAMINGS[setup.framing]
    wanted = framing.wanted_m if len(pose.together) == 1 else framing.couple_wanted_m
    if setup.framing == "group":
        wanted = 2.5 * height
    lens, focal, distance = choose_lens(
        lens_list,
        body,
        upright=upright,
        height_m=height,
        floor_m=framing.floor_m,
        wanted_m=wanted,
        room_m=room_m,
        locked_mm=locked_mm,
        locked_m=locked_m,
    )
    distance = max(distance, 0.3)
    field_h = float(lenses.field_m(tall_mm, focal, distance))
    field_w = float(lenses.field_m(wide_mm, focal, distance))
    eye = pose.eye_m
    camera_height = float(round_to(eye + _above_eyes(setup, pose, above_eyes_m), 0.05))
    from_top = FRAMINGS[setup.framing].eyes_from_top if setup.framing not in ("group", "full") else None
    middle = eye - (0.5 - from_top) * field_h if from_top is not None else _standing_middle(pose, field_h)
    pitch = float(round_to(float(np.degrees(np.arctan2(middle - camera_height, distance))), 1.0))
    front, behind = depth_zone(pose)
    big = (print_width_cm or 0.0) >= BIG_PRINT_CM
    shell = Camera(
        body=body,
        lens=lens,
        focal_mm=focal,
        distance_m=distance,
        height_m=camera_height,
        pitch_deg=pitch,
        orientation=way,
        field_width_m=field_w,
        field_height_m=field_h,
        aperture=FLASH_APERTURE,
        iso=int(preferences.iso or body.base_iso),
        shutter_s=float(preferences.shutter_s or (STEADY_SHUTTER_S if steady else body.sync_s)),
        blur_mm=float(lenses.blur_mm(body.sensor_width_mm, body.sensor_height_mm, big)),
        front_m=front,
        behind_m=behind,
        floor_m=framing.floor_m,
        wanted_field_m=height,
    )
    if preferences.aperture:
        return replace(shell, aperture=exposure.exact_f_number(preferences.aperture))
    return replace(shell, aperture=stop_for_depth(shell, STEADY_APERTURE if steady else FLASH_APERTURE, lens))


def _above_eyes(setup: Setup, pose: Pose, locked: float | None) -> float:
    if locked is not None:
        return locked
    if any(s.person.wish("chin", "neck") == "softer" for s in pose.together):
        return 0.10  # a camera a little above the eyes: job.md row 17, common practice
    if setup.intent == "character" and len(pose.together) == 1:
        return -0.05
    if setup.framing in ("full", "three_quarter"):
        return -0.15
    return 0.10 if setup.framing == "group" else 0.0


def _standing_middle(pose: Pose, field_h: float) -> float:
    top = max(s.face_m[1] for s in pose.together) + anatomy.CROWN_ABOVE_EYES_M + 0.15
    return top - field_h / 2
