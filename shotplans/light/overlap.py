"""What one body hides from another: of a face from the lens, and of a light from a face in the row behind.

Heads are ellipsoids or balls, shoulders an upright figure in one plane, sources discs that face what they light.
Who stands where, and how much hiding is too much, are the planner's; edges of shadows on one face are in `shadows`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shotplans.light.units import F, Numbers, require_positive
from shotplans.light.vectors import dot

B = NDArray[np.bool_]


def behind_ellipsoid(eye_m: ArrayLike, points_m: ArrayLike, centre_m: ArrayLike, half_axes_m: ArrayLike) -> B:
    """Whether the straight line from `eye_m` to each point passes through an upright ellipsoid on its way.

    All (..., 3) in metres, broadcast together; `half_axes_m` along x, y and z. True too where the point itself lies
    inside. The line ends at the point: what stands behind it hides nothing. ValueError unless the half axes are above
    zero. Source: geometry (the axes scaled to a ball, its distance from the line against one).
    """
    eye, points, centre, half = (
        np.asarray(v, dtype=np.float64) for v in (eye_m, points_m, centre_m, half_axes_m)
    )
    require_positive(half_axes_m=half)
    to_centre, line = (centre - eye) / half, (points - eye) / half
    along = np.clip(dot(to_centre, line) / np.maximum(dot(line, line), 1e-18), 0.0, 1.0)
    miss = along[..., None] * line - to_centre
    return np.asarray(dot(miss, miss) < 1.0)


def behind_shoulders(
    eye_m: ArrayLike,
    points_m: ArrayLike,
    neck_m: ArrayLike,
    half_breadth_m: Numbers,
    slope_m: Numbers,
    half_neck_m: Numbers,
) -> B:
    """Whether the line from `eye_m` to each point passes through a body below its neck, taken as a flat figure.

    `neck_m` (..., 3) is the foot of the neck, in metres; from `half_neck_m` beside it the shoulders fall by `slope_m`
    to `half_breadth_m`, and below is body. The figure stands square to z. False where it does not stand between eye
    and point. ValueError unless the breadth is above that of the neck. Source: geometry.
    """
    eye, points, neck = (np.asarray(v, dtype=np.float64) for v in (eye_m, points_m, neck_m))
    require_positive(shoulder_beyond_the_neck_m=np.asarray(half_breadth_m) - half_neck_m)
    depth = points[..., 2] - eye[..., 2]
    step = neck[..., 2] - eye[..., 2]
    share = step / np.where(np.abs(depth) < 1e-12, np.inf, depth)
    between = (share > 0) & (share < 1)
    off = np.abs(eye[..., 0] + share * (points[..., 0] - eye[..., 0]) - neck[..., 0])
    up = eye[..., 1] + share * (points[..., 1] - eye[..., 1])
    fall = np.clip((off - half_neck_m) / (np.asarray(half_breadth_m) - half_neck_m), 0.0, 1.0)
    return np.asarray(between & (off < half_breadth_m) & (up < neck[..., 1] - slope_m * fall))


def caps_in_common_sr(first_rad: ArrayLike, second_rad: ArrayLike, apart_rad: ArrayLike) -> F:
    """Solid angle, in sr, that two round patches of the sky share.

    Angular radii `first_rad` and `second_rad` (above 0, at most pi/2), centres `apart_rad` (0 to pi) from each other;
    any shape. 0 where they do not touch, the smaller whole where it lies inside the other. Good to 1e-3 of the smaller
    down to radii of 0.01, where the closed form begins to lose digits. ValueError out of range. Source: [CAPS].
    """
    a, b, c = np.broadcast_arrays(*(np.asarray(v, dtype=np.float64) for v in (first_rad, second_rad, apart_rad)))
    if not np.all((a > 0) & (b > 0) & (a <= np.pi / 2) & (b <= np.pi / 2) & (c >= 0) & (c <= np.pi)):
        raise ValueError("radii must be above zero and at most a right angle, and centres at most half a turn apart")
    crossing = (c < a + b) & (c > np.abs(a - b))
    x, y, z = np.where(crossing, a, 0.3), np.where(crossing, b, 0.3), np.where(crossing, c, 0.3)

    def angle(side: F, one: F, other: F) -> F:
        # the angle opposite `side` in the spherical triangle of the two centres and a crossing of the rims
        cosine = (np.cos(side) - np.cos(one) * np.cos(other)) / (np.sin(one) * np.sin(other))
        return np.asarray(np.arccos(np.clip(cosine, -1.0, 1.0)))

    lens = 2 * (np.pi - angle(z, x, y) - angle(y, z, x) * np.cos(x) - angle(x, z, y) * np.cos(y))
    whole = np.where(c >= a + b, 0.0, 2 * np.pi * (1 - np.cos(np.minimum(a, b))))
    return np.asarray(np.where(crossing, lens, whole))[()]


def source_hidden(
    face_m: ArrayLike, source_m: ArrayLike, diameter_m: Numbers, ball_m: ArrayLike, radius_m: Numbers
) -> F:
    """Share (0 to 1) of a disc source that a ball hides from a face: 0 full light, 1 umbra, between penumbra.

    Places (..., 3) and sizes in metres, broadcast together. The source faces the face (turned by 30 degrees it looks
    0.87 as high, which is left out) and counts as a round patch of the sky of radius atan(D / 2d), the ball as one of
    asin(r / distance). A ball that is farther off than the source hides nothing, a face inside the ball sees nothing.
    ValueError unless sizes and the distance to the source are above zero. Source: geometry, [CAPS].
    """
    require_positive(diameter_m=diameter_m, radius_m=radius_m)
    face = np.asarray(face_m, dtype=np.float64)
    to_source, to_ball = np.asarray(source_m) - face, np.asarray(ball_m) - face
    far, near = np.sqrt(dot(to_source, to_source)), np.sqrt(dot(to_ball, to_ball))
    require_positive(distance_to_source_m=far)
    alpha = np.arctan(np.asarray(diameter_m) / (2 * far))
    inside = near <= radius_m
    beta = np.arcsin(np.clip(radius_m / np.where(inside, 1.0, np.maximum(near, 1e-12)), 0.0, 1.0))
    turn = np.arccos(np.clip(dot(to_source, to_ball) / (far * np.maximum(near, 1e-12)), -1.0, 1.0))
    share = caps_in_common_sr(alpha, beta, turn) / (2 * np.pi * (1 - np.cos(alpha)))
    return np.asarray(np.where(inside, 1.0, np.where(near < far, np.clip(share, 0.0, 1.0), 0.0)))[()]


def clearing_angle_deg(distance_m: Numbers, radius_m: Numbers, alpha_rad: Numbers) -> F:
    """Degrees a source's middle must lie off a ball's middle, seen from a face, for the face to see all of it.

    asin(r / distance) + alpha, with alpha the source's angular radius; with a plus turned to a minus it is the umbra's
    edge. Any shape; ValueError unless above zero and the face outside the ball. Source: geometry (tangent lines).
    """
    require_positive(radius_m=radius_m, alpha_rad=alpha_rad)
    require_positive(distance_beyond_the_ball_m=np.asarray(distance_m) - radius_m)
    return np.degrees(np.arcsin(np.asarray(radius_m) / distance_m) + alpha_rad)


def clear_height_deg(ball_height_deg: Numbers, bearing_apart_deg: Numbers, clearing_deg: Numbers) -> F:
    """Height angle above which a source at a bearing so far beside the ball's is `clearing_deg` off it.

    Degrees, seen from the face; -90 where the source is clear at any height. Any shape. Source: spherical law of
    cosines, cos(clearing) = sin e sin h + cos e cos h cos(b), solved for the upper h.
    """
    e, b = np.radians(ball_height_deg), np.radians(bearing_apart_deg)
    upright, level = np.sin(e), np.cos(e) * np.cos(b)
    reach = np.hypot(upright, level)
    needed = np.cos(np.radians(clearing_deg))
    crosses = reach > needed
    spread = np.arccos(np.clip(needed / np.maximum(reach, 1e-12), -1.0, 1.0))
    return np.asarray(np.where(crosses, np.degrees(np.arctan2(upright, level) + spread), -90.0))[()]
