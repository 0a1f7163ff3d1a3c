"""Irradiance from flat, evenly bright sources: discs, rectangles and polygons.

What a light throws on a small piece of surface, as irradiance over source radiance (E/L, steradian), with the
cut by the receiver's own horizon and nothing behind the source. Beams, grids and lips are in `beams`, distance rules
of thumb in `falloff`, edges of shadows in `shadows`, what skin makes of the light in `relief`.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shotplans.light.vectors import cross, dot

F = NDArray[np.float64]

_UP = np.array([0.0, 1.0, 0.0])
_ARC_NODES, _ARC_WEIGHTS = np.polynomial.legendre.leggauss(48)


def _floats(value: ArrayLike) -> F:
    return np.asarray(value, dtype=np.float64)


def panel_axes(axis: ArrayLike, roll_deg: ArrayLike = 0.0) -> tuple[F, F]:
    """Unit vectors along the width and the height of a panel that emits along `axis` (unit, (..., 3)).

    Width lies along up x axis, height along axis x width; `roll_deg` turns both about the axis. A panel that
    looks straight up or down has its width along x (the limit for a panel over the z axis). The convention of
    light_cases.json; ours, no outside source.
    """
    m = _floats(axis)
    if m.ndim == 1 and type(roll_deg) is float and roll_deg == 0.0:
        return _axes_of_one(m.tobytes())  # one light is asked for its axes many times while somebody waits
    return _axes(m, _floats(roll_deg))


@lru_cache(maxsize=4096)
def _axes_of_one(axis: bytes) -> tuple[F, F]:
    found = _axes(np.frombuffer(axis), np.zeros(()))
    for vector in found:
        vector.flags.writeable = False
    return found


def _axes(m: F, roll_deg: F) -> tuple[F, F]:
    roll = np.radians(roll_deg)[..., None]
    across = cross(np.broadcast_to(_UP, m.shape), m)
    length = np.sqrt(dot(across, across))[..., None]
    level = length > 1e-9
    across = np.where(level, across / np.where(level, length, 1.0), np.array([1.0, 0.0, 0.0]))
    upward = cross(m, across)
    return np.cos(roll) * across + np.sin(roll) * upward, np.cos(roll) * upward - np.sin(roll) * across


def disc_vector(point: ArrayLike, centre: ArrayLike, axis: ArrayLike, diameter_m: ArrayLike) -> F:
    """Vector irradiance over radiance (sr, (..., 3)) at `point` of a disc emitting along the unit vector
    `axis`.

    Its dot product with a receiver's normal is E/L, exact while the whole disc is above that receiver's
    horizon; zero behind the front. Closed form of the disc's configuration factors for a parallel and a
    perpendicular element [HOWELL], written without the differences that cancel far away.
    """
    m, radius = _floats(axis), _floats(diameter_m) / 2
    from_centre = _floats(point) - _floats(centre)
    h = dot(from_centre, m)
    lateral = from_centre - h[..., None] * m
    a2, r2, h2 = dot(lateral, lateral), radius**2, h**2
    total, rest = h2 + a2 + r2, h2 + a2 - r2
    q = np.sqrt(np.maximum(total**2 - 4 * a2 * r2, 1e-300))
    far = rest > 0
    parallel = np.where(far, 2 * r2 * h2 / (q * (q + np.where(far, rest, 1.0))), 0.5 * (1 - rest / q))
    sideways = 2 * h * r2 / (q * (total + q))  # per metre off the axis, so that the axis is no special case
    vector = -m * parallel[..., None] - lateral * sideways[..., None]
    return np.where((h > 0)[..., None], np.pi * vector, 0.0)


def rect_corners(
    centre: ArrayLike, axis: ArrayLike, width_m: ArrayLike, height_m: ArrayLike, roll_deg: ArrayLike = 0.0
) -> F:
    """The four corners (..., 4, 3) of a rectangle, in order round its edge (orientation of `panel_axes`). Geometry."""
    across, upward = panel_axes(axis, roll_deg)
    half_w = across * (_floats(width_m) / 2)[..., None]
    half_h = upward * (_floats(height_m) / 2)[..., None]
    c = _floats(centre)
    corners = (c - half_w - half_h, c + half_w - half_h, c + half_w + half_h, c - half_w + half_h)
    return np.stack(np.broadcast_arrays(*corners), axis=-2)


def _edge_vectors(a: F, b: F) -> F:
    """Angle between two rays times the unit normal of the plane they span; zero where they span none."""
    normal = cross(a, b)
    size = np.sqrt(dot(normal, normal))
    spans = size > 1e-300
    angle = np.arctan2(size, dot(a, b))
    return normal * np.where(spans, angle / np.where(spans, size, 1.0), 0.0)[..., None]


def rect_vector(
    point: ArrayLike,
    centre: ArrayLike,
    axis: ArrayLike,
    width_m: ArrayLike,
    height_m: ArrayLike,
    roll_deg: ArrayLike = 0.0,
) -> F:
    """Vector irradiance over radiance (sr, (..., 3)) at `point` of a rectangle: Lambert's sum over its edges.

    Exact while the whole rectangle is above the receiver's horizon; zero behind the front [LAMBERT].
    """
    m = _floats(axis)
    rays = rect_corners(centre, m, width_m, height_m, roll_deg) - _floats(point)[..., None, :]
    vector = -0.5 * _edge_vectors(rays, np.roll(rays, -1, axis=-2)).sum(axis=-2)
    front = dot(_floats(point) - _floats(centre), m) > 0
    return np.where(front[..., None], vector, 0.0)


def polygon_irradiance(point: ArrayLike, normal: ArrayLike, vertices: ArrayLike) -> F:
    """E/L (sr) on a surface with unit `normal` at `point` from a convex polygon, vertices (..., k, 3) in
    order.

    Lambert's edge sum after cutting at the receiver's horizon, with the arc along the horizon added. Both
    faces of the polygon shine; callers shut the back one off [LAMBERT].
    """
    n = _floats(normal)[..., None, :]
    rays = _floats(vertices) - _floats(point)[..., None, :]
    n, rays = np.broadcast_arrays(n, rays)
    ahead = np.roll(rays, -1, axis=-2)
    height, next_height = dot(rays, n), dot(ahead, n)
    above, next_above = height >= 0, next_height >= 0
    crosses = above != next_above
    share = np.where(crosses, height / np.where(crosses, height - next_height, 1.0), 0.0)
    cut = rays + share[..., None] * (ahead - rays)
    start = np.where(above[..., None], rays, cut)
    end = np.where(next_above[..., None], ahead, cut)
    seen = (above | next_above)[..., None]
    total = np.where(seen, _edge_vectors(start, end), 0.0).sum(axis=-2)
    leaving = np.where((above & ~next_above)[..., None], cut, 0.0).sum(axis=-2)
    entering = np.where((next_above & ~above)[..., None], cut, 0.0).sum(axis=-2)
    total = total + _edge_vectors(leaving, entering)
    found: F = 0.5 * np.abs(dot(total, n[..., 0, :]))
    return found


def rect_irradiance(
    point: ArrayLike,
    normal: ArrayLike,
    centre: ArrayLike,
    axis: ArrayLike,
    width_m: ArrayLike,
    height_m: ArrayLike,
    roll_deg: ArrayLike = 0.0,
) -> F:
    """E/L (sr) of a rectangle on a surface with unit `normal`: exact, cut at the horizon, zero behind the
    front [LAMBERT].
    """
    m = _floats(axis)
    irradiance = polygon_irradiance(point, normal, rect_corners(centre, m, width_m, height_m, roll_deg))
    return np.where(dot(_floats(point) - _floats(centre), m) > 0, irradiance, 0.0)


def disc_irradiance(
    point: ArrayLike, normal: ArrayLike, centre: ArrayLike, axis: ArrayLike, diameter_m: ArrayLike
) -> F:
    """E/L (sr) of a disc on a surface with unit `normal`: exact, cut at the horizon, zero behind the front.

    The vector form serves wherever the whole disc is above the horizon; only the cut ones pay for the arc.
    [HOWELL], and Lambert's edge sum taken round the arc [LAMBERT].
    """
    n, m, radius = _floats(normal), _floats(axis), _floats(diameter_m) / 2
    towards = _floats(centre) - _floats(point)
    height = dot(towards, n)
    dip = radius * np.sqrt(np.maximum(1 - dot(n, m) ** 2, 0.0))
    whole = np.maximum(dot(disc_vector(point, centre, m, diameter_m), n), 0.0)
    cut = (np.abs(height) < dip) & (dot(towards, m) < 0)
    irradiance = np.where(height >= dip, whole, 0.0)
    if cut.any():
        shape = irradiance.shape
        chosen = np.broadcast_to(cut, shape)
        n, towards, m = (np.broadcast_to(v, (*shape, 3))[chosen] for v in (n, towards, m))
        irradiance[chosen] = _cut_disc(n, towards, m, np.broadcast_to(radius, shape)[chosen])
    return irradiance


def _cut_disc(normal: F, towards: F, axis: F, radius: F) -> F:
    """E/L of discs that straddle the horizon: Lambert's contour integral over the arc that is up and its
    chord.

    With e(phi) a unit ray of the disc and e' its derivative, the arc's share is n.((c + R e) x R e')/|c + R
    e|^2, written out in scalars.
    """
    across, upward = panel_axes(axis)
    lean = cross(normal, towards)
    half = np.arccos(np.clip(-dot(normal, towards) / _rise(normal, across, upward, radius), -1.0, 1.0))
    middle = np.arctan2(dot(normal, upward), dot(normal, across))
    phi = middle[..., None] + half[..., None] * _ARC_NODES
    cos, sin = np.cos(phi), np.sin(phi)
    turn = dot(lean, upward)[..., None] * cos - dot(lean, across)[..., None] * sin
    turn = turn + (radius * dot(normal, axis))[..., None]
    sides = dot(towards, across)[..., None] * cos + dot(towards, upward)[..., None] * sin
    far2 = (dot(towards, towards) + radius**2)[..., None] + 2 * radius[..., None] * sides
    arc = radius * half * (turn / far2 * _ARC_WEIGHTS).sum(axis=-1)
    first, last = (
        towards + radius[..., None] * (np.cos(end)[..., None] * across + np.sin(end)[..., None] * upward)
        for end in (middle - half, middle + half)
    )
    found: F = 0.5 * np.abs(arc + dot(_edge_vectors(last, first), normal))
    return found


def _rise(normal: F, across: F, upward: F, radius: F) -> F:
    """Greatest height of a disc's rim over its centre, along the receiver's normal."""
    found: F = radius * np.hypot(dot(normal, across), dot(normal, upward))
    return found


def cone_irradiance(cos_t: ArrayLike, alpha_rad: ArrayLike) -> F:
    """E/L (sr) of a disc aimed at the point, of angular radius `alpha_rad` (0 to pi/2), at the incidence t.

    pi sin^2(alpha) cos(t) while it is whole; the exact form for a disc the receiver's horizon cuts; 0 below
    it [LIGHT-1] (checked there against quadrature and ray tracing).
    """
    cos, alpha = np.broadcast_arrays(_floats(cos_t), _floats(alpha_rad))
    sin_alpha = np.sin(alpha)
    irradiance = np.where(cos >= sin_alpha, np.pi * sin_alpha**2 * cos, 0.0)
    cut = np.abs(cos) < sin_alpha
    if cut.any():
        irradiance[cut] = _cut_cone(cos[cut], alpha[cut])
    return irradiance


def _cut_cone(cos: F, alpha: F) -> F:
    sin = np.sqrt(np.maximum(1 - cos**2, 1e-300))
    x = 1 / np.tan(alpha)
    y = np.clip(-x * cos / sin, -1.0, 1.0)
    q = sin * np.sqrt(1 - y**2)
    found: F = np.maximum((cos * np.arccos(y) - x * q) * np.sin(alpha) ** 2 + np.arctan2(q, x), 0.0)
    return found


def disc_factor(distance_m: ArrayLike, diameter_m: ArrayLike) -> F:
    """Configuration factor (0 to 1) of a disc square to its axis: R^2/(R^2 + d^2); E = pi L F [HOWELL]."""
    r2 = (_floats(diameter_m) / 2) ** 2
    found: F = r2 / (r2 + _floats(distance_m) ** 2)
    return found


def rect_factor(distance_m: ArrayLike, width_m: ArrayLike, height_m: ArrayLike) -> F:
    """Configuration factor (0 to 1) of a centred rectangle facing the element: four times the corner form
    [HOWELL].
    """
    a = _floats(width_m) / 2 / _floats(distance_m)
    b = _floats(height_m) / 2 / _floats(distance_m)
    ra, rb = np.sqrt(1 + a**2), np.sqrt(1 + b**2)
    return 2 / np.pi * (a / ra * np.arctan(b / ra) + b / rb * np.arctan(a / rb))


def apparent_deg(size_m: ArrayLike, distance_m: ArrayLike) -> F:
    """Full angle (degrees) a source of that size fills, seen square on its axis: 2 atan(D/2d). Geometry."""
    found: F = np.degrees(2 * np.arctan2(_floats(size_m) / 2, _floats(distance_m)))
    return found


def disc_like_rect_m(width_m: float, height_m: float) -> float:
    """Diameter (m) of the disc with the second moment of an even rectangle, as a mean of all directions.

    D = sqrt(2 (w^2 + h^2)/3): a rectangle's along a mean direction is (w^2 + h^2)/24, a disc's D^2/16. Sides from zero
    up. Definition.
    """
    return float(np.sqrt((width_m**2 + height_m**2) * 2 / 3))


def hot_core_diameter(diameter_m: ArrayLike, core_stops: ArrayLike) -> F:
    """Diameter (m) of the even disc that spreads light as widely as one fading by `core_stops` from centre to
    rim.

    Brightness 2^(-core_stops (r/R)^2); equal second moment: D sqrt(2 (1/k - 1/(e^k - 1))), k = core_stops ln
    2, which is D at 0 stops. Valid from 0 stops up; to 3 stops of core, and 50 degrees off the axis, its light is
    that of the fading disc to 0.01 stop from one diameter away, to 0.06 from half of one (direct sum). Own derivation,
    no outside source.
    """
    k = _floats(core_stops) * np.log(2)
    small = k < 1e-3
    safe = np.where(small, 1.0, k)
    moment = np.where(small, 0.5 - k / 12, 1 / safe - 1 / np.expm1(safe))
    found: F = _floats(diameter_m) * np.sqrt(2 * moment)
    return found
