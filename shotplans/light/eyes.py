"""Catchlights: where a light is mirrored in the eye, how large, and what of the face hides it.

The cornea is a sphere, the lids, the brow and the nose are the simple shapes of light_cases.json (their sizes
are published means plus stated assumptions: advice, not measurement). Millimetres in the head frame, origin
at the corneal apex of the eye that looks straight ahead, axes of the set's frame. Spectacles are in
`glasses`.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shotplans.light.sources import panel_axes
from shotplans.light.units import Numbers, direction
from shotplans.light.vectors import dot, scaled_to_one

F = NDArray[np.float64]
B = NDArray[np.bool_]

CORNEA_RADIUS_MM = 7.8
TURNING_POINT_MM, PUPIL_DEPTH_MM = 13.5, 3.05  # behind the apex: the eye's centre of turning, the entrance pupil
CORNEA_EDGE_DEG = float(np.degrees(np.arcsin(5.85 / 7.8)))  # the cornea is 11.7 mm across
UPPER_LID_MM, LOWER_LID_MM = 4.2, -5.5  # lid margins from the pupil's height
BROW_HEIGHT_MM, BROW_SWEEP_DEG = 13.0, 15.0  # assumptions of LIGHT-5
NOSE_OFFSET_MM, NOSE_RISE_DEG, NOSE_TIP_MM = 31.5, 32.0, -38.0  # half a pupil distance; the ridge; its lower end
BROW_REACH_MM = {"usual": 1.4, "deep set": 5.6}  # forward of the cornea [LIGHT-5]
CLEAR, LID, BROW, NOSE, BESIDE = 0, 1, 2, 3, 4
_OUTLINE_POINTS = 96


class Catchlight(NamedTuple):
    """Offset of a reflection from the pupil in the picture (mm, right and up), its clock hour, and its
    normal.
    """

    dx_mm: F
    dy_mm: F
    clock_hours: F
    normal_angle_deg: F


class Outline(NamedTuple):
    """Full size of a reflection along and across the line from the pupil's centre to it, mm."""

    radial_mm: F
    tangential_mm: F


def _camera_point(camera_mm: ArrayLike) -> F:
    """A camera given as a distance straight ahead, or as a point (..., 3), as a point."""
    camera = np.asarray(camera_mm, dtype=np.float64)
    return camera * np.array([0.0, 0.0, 1.0]) if camera.ndim == 0 else camera


def _reflection(source: F, camera: F, gaze: F) -> tuple[F, F]:
    """Unit normal at the point of the cornea that mirrors the source to the camera, and the cornea's centre.

    Half vector between the two, taken again from the point found: three rounds leave less than 1e-5 mm
    [LIGHT-5].
    """
    centre = _middle(gaze)
    seat: F = centre
    normal: F = centre
    for _ in range(4):
        normal = scaled_to_one(scaled_to_one(source - seat) + scaled_to_one(camera - seat))
        seat = centre + CORNEA_RADIUS_MM * normal
    return normal, centre


def _middle(gaze: F) -> F:
    """Middle of the cornea's sphere, millimetres from the apex of the eye straight ahead."""
    found: F = np.array([0.0, 0.0, -TURNING_POINT_MM]) + (TURNING_POINT_MM - CORNEA_RADIUS_MM) * gaze
    return found


def _offset(source: F, camera: F, gaze: F) -> tuple[F, F, F]:
    """Offset (mm, right and up in the picture) of the reflection from the entrance pupil; its normal (...,
    3).
    """
    normal, centre = _reflection(source, camera, gaze)
    pupil = centre + (CORNEA_RADIUS_MM - PUPIL_DEPTH_MM) * gaze
    away = centre + CORNEA_RADIUS_MM * normal - pupil
    right, up = panel_axes(scaled_to_one(camera))
    return dot(away, right), dot(away, up), normal


def catchlight(
    source_mm: ArrayLike, camera_mm: ArrayLike, gaze_az_deg: Numbers = 0.0, gaze_el_deg: Numbers = 0.0
) -> Catchlight:
    """Where the centre of each source (..., 3) is mirrored in the eye; `camera_mm` a distance ahead or a
    point.

    Offsets are from the pupil as the camera sees it; clock hours 0 to 12 from twelve clockwise in the
    picture; the normal's angle is from the gaze (see `on_cornea`). Mirror law on a sphere of 7.8 mm
    [LIGHT-5].
    """
    gaze = direction(gaze_az_deg, gaze_el_deg)
    dx, dy, normal = _offset(np.asarray(source_mm, dtype=np.float64), _camera_point(camera_mm), gaze)
    clock = np.degrees(np.arctan2(dx, dy)) / 30 % 12
    angle = np.degrees(np.arccos(np.clip(dot(normal, gaze), -1.0, 1.0)))
    return Catchlight(dx, dy, np.where(clock >= 12, 0.0, clock), angle)


def catchlight_edge(
    source_mm: ArrayLike,
    axis: ArrayLike,
    size_mm: tuple[float, ...],
    camera_mm: ArrayLike,
    roll_deg: ArrayLike = 0.0,
    gaze_az_deg: Numbers = 0.0,
    gaze_el_deg: Numbers = 0.0,
) -> tuple[F, F]:
    """The reflection's own edge (..., n), mm right and up of the pupil in the picture, in order round the source.

    Arguments as in `catchlight_outline`; lids, brow and nose are not asked, and a point may lie beside the cornea
    (5.85 mm from the pupil). Mirror law on a sphere of 7.8 mm [LIGHT-5].
    """
    centre, camera = np.asarray(source_mm, dtype=np.float64), _camera_point(camera_mm)
    gaze = direction(gaze_az_deg, gaze_el_deg)
    across, upward = panel_axes(axis, roll_deg)
    u, v = _edge_points(size_mm)
    edge = centre[..., None, :] + u[:, None] * across[..., None, :] + v[:, None] * upward[..., None, :]
    x, y, _ = _offset(edge, camera[..., None, :], gaze[..., None, :])
    return x, y


def catchlight_outline(
    source_mm: ArrayLike,
    axis: ArrayLike,
    size_mm: tuple[float, ...],
    camera_mm: ArrayLike,
    roll_deg: ArrayLike = 0.0,
    gaze_az_deg: Numbers = 0.0,
    gaze_el_deg: Numbers = 0.0,
    offset_mm: tuple[F, F] | None = None,
) -> Outline:
    """Size of the reflection of a disc (`size_mm` one number) or a rectangle (width, height) emitting along
    `axis`; centres (..., 3), with a camera and a gaze each or the same for all. `offset_mm` is what `catchlight` says
    of the same centres, where it was asked.

    Mirrors points all round the source's edge, so it holds for large and near sources [LIGHT-5]
    (there within 0.003 mm of ray tracing).
    """
    camera = _camera_point(camera_mm)
    if offset_mm is None:
        found = catchlight(source_mm, camera, gaze_az_deg, gaze_el_deg)
        offset_mm = found.dx_mm, found.dy_mm
    dx, dy = offset_mm
    x, y = catchlight_edge(source_mm, axis, size_mm, camera, roll_deg, gaze_az_deg, gaze_el_deg)
    length = np.hypot(dx, dy)
    aside = length > 1e-9
    rx = np.where(aside, dx / np.where(aside, length, 1.0), 0.0)[..., None]
    ry = np.where(aside, dy / np.where(aside, length, 1.0), 1.0)[..., None]
    return Outline(np.ptp(x * rx + y * ry, axis=-1), np.ptp(x * ry - y * rx, axis=-1))


def _edge_points(size_mm: tuple[float, ...]) -> tuple[F, F]:
    """Points round the edge of a disc or rectangle, in its own plane."""
    if len(size_mm) == 1:
        phi = np.arange(_OUTLINE_POINTS) / _OUTLINE_POINTS * 2 * np.pi
        return size_mm[0] / 2 * np.cos(phi), size_mm[0] / 2 * np.sin(phi)
    side = np.linspace(-0.5, 0.5, _OUTLINE_POINTS // 4 + 1)
    low, high = np.full_like(side, -0.5), np.full_like(side, 0.5)
    return (
        size_mm[0] * np.concatenate((side, high, side[::-1], low)),
        size_mm[1] * np.concatenate((low, side, high, side[::-1])),
    )


def on_cornea(normal_angle_deg: ArrayLike) -> B:
    """Whether a reflection, its normal so many degrees from the gaze, lies on the cornea: 11.7 mm across [LIGHT-5]."""
    return np.asarray(np.asarray(normal_angle_deg, dtype=np.float64) <= CORNEA_EDGE_DEG)


def corneal_point(source_mm: ArrayLike, camera_mm: ArrayLike, gaze: ArrayLike = (0.0, 0.0, 1.0)) -> F:
    """Point (..., 3) of the cornea of an eye that looks along the unit vector `gaze` that mirrors source to camera.

    Mirror law on a sphere [LIGHT-5].
    """
    looking = np.asarray(gaze, dtype=np.float64)
    normal, centre = _reflection(np.asarray(source_mm, dtype=np.float64), _camera_point(camera_mm), looking)
    return centre + CORNEA_RADIUS_MM * normal


def lid_open(point_mm: ArrayLike, lid_mm: ArrayLike = UPPER_LID_MM) -> B:
    """Whether a point (..., 3) of the cornea lies between the lid margins, millimetres from the pupil [LIGHT-5]."""
    y = np.asarray(point_mm, dtype=np.float64)[..., 1]
    return np.asarray((y <= np.asarray(lid_mm)) & (y >= LOWER_LID_MM))


def brow_clear(point_mm: ArrayLike, to_light: ArrayLike, eye_side: ArrayLike, brow_z_mm: ArrayLike) -> B:
    """Whether a ray from the cornea along `to_light` passes before the brow's edge, 13 mm above the pupil.

    The edge reaches `brow_z_mm` forward of the cornea and sweeps back by 15 degrees on the temporal side: a simple
    shape, sizes partly assumed [LIGHT-5].
    """
    p, s = np.asarray(point_mm, dtype=np.float64), np.asarray(to_light, dtype=np.float64)
    rises = s[..., 1] > 1e-12
    run = (BROW_HEIGHT_MM - p[..., 1]) / np.where(rises, s[..., 1], 1.0)
    outward = np.maximum((p[..., 0] + run * s[..., 0]) * np.asarray(eye_side), 0.0)
    reach = np.asarray(brow_z_mm) - np.tan(np.radians(BROW_SWEEP_DEG)) * outward
    return np.asarray(~rises | (p[..., 2] + run * s[..., 2] >= reach))


def nose_clear(point_mm: ArrayLike, to_light: ArrayLike, eye_side: ArrayLike, bridge_z_mm: ArrayLike) -> B:
    """Whether a ray from the cornea along `to_light` passes before the nose, a ridge in the head's middle
    plane.

    The ridge reaches `bridge_z_mm` forward of the cornea at and above the pupil's height, rises 32 degrees
    below it and ends 38 mm down: a simple shape, sizes partly assumed [LIGHT-5].
    """
    p, s = np.asarray(point_mm, dtype=np.float64), np.asarray(to_light, dtype=np.float64)
    inward = -s[..., 0] * np.asarray(eye_side)
    crosses = inward > 1e-12
    run = (NOSE_OFFSET_MM + p[..., 0] * np.asarray(eye_side)) / np.where(crosses, inward, 1.0)
    y, z = p[..., 1] + run * s[..., 1], p[..., 2] + run * s[..., 2]
    ridge = np.asarray(bridge_z_mm) + np.tan(np.radians(NOSE_RISE_DEG)) * np.maximum(-y, 0.0)
    return np.asarray(~crosses | (y < NOSE_TIP_MM) | (z >= ridge))


def hidden_by(
    direction_to_light: ArrayLike,
    eye_side: ArrayLike,
    brow_z_mm: ArrayLike,
    bridge_z_mm: ArrayLike,
    lid_mm: ArrayLike = UPPER_LID_MM,
) -> NDArray[np.int64]:
    """What keeps a light from being mirrored in an eye: CLEAR, LID, BROW or NOSE (the first that does).

    Unit directions (..., 3) in the head frame, the camera straight ahead, both far (the point moves by less than
    0.1 mm from 0.7 m on); `eye_side` 1 for the eye on image right. Whether the point is on the cornea is asked
    separately. Shapes of [LIGHT-5].
    """
    s = np.asarray(direction_to_light, dtype=np.float64)
    normal = scaled_to_one(s + np.array([0.0, 0.0, 1.0]))
    point = CORNEA_RADIUS_MM * (normal - np.array([0.0, 0.0, 1.0]))
    open_, brow = lid_open(point, lid_mm), brow_clear(point, s, eye_side, brow_z_mm)
    nose = nose_clear(point, s, eye_side, bridge_z_mm)
    return np.where(~open_, LID, np.where(~brow, BROW, np.where(~nose, NOSE, CLEAR)))


def unseen_because(
    source_mm: ArrayLike,
    camera_mm: ArrayLike,
    eye_side: ArrayLike,
    brow_z_mm: ArrayLike,
    bridge_z_mm: ArrayLike,
    gaze_az_deg: Numbers = 0.0,
    gaze_el_deg: Numbers = 0.0,
    lid_mm: ArrayLike = UPPER_LID_MM,
) -> NDArray[np.int64]:
    """What keeps a light at a place from being mirrored in an eye that looks somewhere: as `hidden_by`, or BESIDE.

    Places (..., 3) from the apex of the eye straight ahead; the near form, at the very point that mirrors. BESIDE
    where that point is off the cornea, so that nothing else is asked. The lids are taken to follow the gaze up and
    down, an assumption; the rest is mirror law and the anatomy of `hidden_by` [LIGHT-5].
    """
    gaze = direction(gaze_az_deg, gaze_el_deg)
    source = np.asarray(source_mm, dtype=np.float64)
    point = corneal_point(source, camera_mm, gaze)
    normal = (point - _middle(gaze)) / CORNEA_RADIUS_MM
    ray = scaled_to_one(source - point)
    pupil_height = (TURNING_POINT_MM - PUPIL_DEPTH_MM) * gaze[..., 1]
    open_ = lid_open(point - pupil_height[..., None] * np.array([0.0, 1.0, 0.0]), lid_mm)
    brow, nose = brow_clear(point, ray, eye_side, brow_z_mm), nose_clear(point, ray, eye_side, bridge_z_mm)
    off = np.degrees(np.arccos(np.clip(dot(normal, gaze), -1.0, 1.0)))
    return np.select([~on_cornea(off), ~open_, ~brow, ~nose], [BESIDE, LID, BROW, NOSE], CLEAR)


def highest_light_deg(az_deg: float, brow_z_mm: float, lid_mm: float = UPPER_LID_MM) -> float:
    """Greatest elevation (degrees, to 0.1) from which a light at that azimuth (+ temporal) clears lid and
    brow.

    Head and eye facing the camera [LIGHT-5] (published anatomy plus assumptions, so advice only).
    """
    heights = np.arange(0.0, 90.0, 0.1)
    # A bridge far behind the eye: the nose is a matter of bearing, not of height.
    codes = hidden_by(direction(az_deg, heights), 1.0, brow_z_mm, -1e6, lid_mm)
    blocked = np.flatnonzero(codes)
    return round(float(heights[max(blocked[0] - 1, 0) if blocked.size else -1]), 1)
