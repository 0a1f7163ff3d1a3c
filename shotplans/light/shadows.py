"""Edges of shadows: how wide a source draws them, and how much light is left behind a nose.

Widths by rule for planning and by exact clipping of the source for checking; words for softness. Which
feature casts which shadow on a face is the planner's; irradiance without an obstacle is in `sources`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

F = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(48)
_SOFTNESS = (
    (0.15, "hard"), (0.5, "fairly hard"), (0.75, "medium"), (1.2, "soft"), (2.5, "very soft"),
)  # fmt: skip


def edge_disc_mm(diameter_m: ArrayLike, source_m: ArrayLike, gap_m: ArrayLike) -> F:
    """Width (mm) from 10 to 90 % of the edge a disc draws: 0.687 D b/a / (1 + 0.041 (D/a)^2).

    Within 0.7 % for D/a up to 2, surface parallel to the source [LIGHT-2].
    """
    across = np.asarray(diameter_m, dtype=np.float64) / np.asarray(source_m)
    found: F = 1000 * 0.687 * across * np.asarray(gap_m) / (1 + 0.041 * across**2)
    return found


def softness_word(d_over_distance: float) -> str:
    """Word for a source of that diameter over its distance, as seen from the face [LIGHT-2] (a convention)."""
    if d_over_distance <= _SOFTNESS[0][0]:
        return _SOFTNESS[0][1]
    return next((word for limit, word in _SOFTNESS if d_over_distance < limit), "shadowless")


def core_share(diameter_m: float, distance_m: float, bar_m: float = 0.030, gap_m: float = 0.040) -> float:
    """Share (0 to 1) of a disc's light that is left in the middle of a straight bar's shadow, without any
    fill.

    Bar and surface parallel to the source, `distance_m` from source to surface, `gap_m` from bar to surface.
    The defaults stand for a nose (a convention) [LIGHT-2].
    """
    reach = distance_m * bar_m / (2 * gap_m)
    first = np.array([reach, -np.inf])
    beside, whole = _strip(_Disc(diameter_m), first, np.zeros(2), np.full(2, distance_m), np.array([0.0, 1.0]))
    return float(2 * beside / whole)


def extent_m(size_m: tuple[float, ...], roll_deg: float = 0.0) -> float:
    """Extent (m) across the edge of a disc (diameter,) or a rectangle (width, height), rolled by so much. Geometry."""
    if len(size_m) == 1:
        return size_m[0]
    roll = np.radians(roll_deg)
    return float(size_m[0] * abs(np.cos(roll)) + size_m[1] * abs(np.sin(roll)))


def edge_profile(
    position_m: ArrayLike,
    size_m: tuple[float, ...],
    source_m: float,
    gap_m: float,
    roll_deg: float = 0.0,
    surface_tilt_deg: float = 0.0,
) -> F:
    """Irradiance with a straight edge over irradiance without it, at positions (m) along the surface.

    Disc (diameter,) or rectangle (width, height) in a plane parallel to the edge's, centred over the edge;
    position 0 lies under it, positive on the lit side. The surface may be turned about the edge's direction,
    by less than 90 degrees; there a position must lie below the edge. Exact: the source is cut by the edge
    and by the surface's own horizon [LIGHT-2]. Raises ValueError for a tilt out of range.
    """
    tilt = _turn_rad(surface_tilt_deg)
    t = np.atleast_1d(np.asarray(position_m, dtype=np.float64))
    x, z = t * np.cos(tilt), t * np.sin(tilt)
    height = source_m + gap_m - z
    normal = np.array([-np.sin(tilt), np.cos(tilt)])
    first_seen = -x * source_m / np.maximum(gap_m - z, 1e-300)
    source = _shape(size_m, roll_deg)
    seen = _strip(source, first_seen, x, height, normal)
    profile: F = seen / _strip(source, np.full_like(t, -np.inf), x, height, normal)
    return profile.reshape(np.shape(position_m))


def edge_width_mm(
    size_m: tuple[float, ...],
    source_m: float,
    gap_m: float,
    roll_deg: float = 0.0,
    surface_tilt_deg: float = 0.0,
) -> float:
    """Width (mm, along the surface) over which the profile of `edge_profile` goes from 10 to 90 %: exact.

    Holds for any roll, a tilt under 90 degrees and sources as large as one likes. Raises ValueError for
    another tilt, and where no place is dark enough: a surface far behind the edge and turned almost out of
    the light. Source: [LIGHT-2].
    """
    tilt = _turn_rad(surface_tilt_deg)
    step = extent_m(size_m, roll_deg) * gap_m / source_m / max(float(np.cos(tilt)), 1e-6)
    ceiling = gap_m / np.sin(tilt) * (1 - 1e-12) if tilt > 0 else np.inf
    low = np.full(2, -1000 * step)
    if edge_profile(low[0], size_m, source_m, gap_m, roll_deg, surface_tilt_deg) > 0.1:
        raise ValueError("the surface is turned so far that the edge leaves more than a tenth of the light everywhere")
    high = np.full(2, min(step, ceiling))
    level = np.array([0.1, 0.9])
    for _ in range(60):
        middle = (low + high) / 2
        bright = edge_profile(middle, size_m, source_m, gap_m, roll_deg, surface_tilt_deg) > level
        low, high = np.where(bright, low, middle), np.where(bright, middle, high)
    return float(1000 * (high[1] - high[0]))


class _Disc:
    """A disc swept across the edge: x = R sin u, so that its round ends are smooth to the quadrature."""

    def __init__(self, diameter_m: float) -> None:
        self.radius = diameter_m / 2
        self.corners = np.array([-np.pi / 2, np.pi / 2])

    def sweep(self, x: F) -> F:
        return np.arcsin(np.clip(x / self.radius, -1.0, 1.0))

    def section(self, u: F) -> tuple[F, F, F, F]:
        """Place across the edge, ends of the chord along it, and dx/du."""
        half = self.radius * np.cos(u)
        return self.radius * np.sin(u), -half, half, half


class _Rectangle:
    """A rolled rectangle swept across the edge, in pieces between its corners."""

    def __init__(self, size_m: tuple[float, ...], roll_deg: float) -> None:
        self.width, self.height = size_m
        self.cos, self.sin = float(np.cos(np.radians(roll_deg))), float(np.sin(np.radians(roll_deg)))
        across, along = abs(self.width * self.cos) / 2, abs(self.height * self.sin) / 2
        self.corners = np.array([-across - along, -abs(across - along), abs(across - along), across + along])

    def sweep(self, x: F) -> F:
        return np.clip(x, self.corners[0], self.corners[-1])

    def section(self, u: F) -> tuple[F, F, F, F]:
        """Place across the edge, ends of the chord along it, and dx/du."""
        low, high = np.full_like(u, -np.inf), np.full_like(u, np.inf)
        # |x cos + y sin| <= width / 2 and |y cos - x sin| <= height / 2, each solved for y.
        for lean, offset, size in ((self.sin, u * self.cos, self.width), (self.cos, -u * self.sin, self.height)):
            if abs(lean) > 1e-9:
                middle, half = -offset / lean, size / 2 / abs(lean)
                low, high = np.maximum(low, middle - half), np.minimum(high, middle + half)
        return u, low, np.maximum(low, high), np.ones_like(u)


def _strip(source: _Disc | _Rectangle, first: F, x: F, height: F, normal: F) -> F:
    """E/L (sr) at points x, `height` below the source, from the part of it beyond `first` across the edge.

    Lambert's kernel, integrated exactly along the edge and by Gauss across it, piece by piece between
    corners.
    """
    # A surface that leans out of the light sees nothing beyond its own horizon.
    last = x + height * normal[1] / -normal[0] if normal[0] < 0 else np.full_like(x, np.inf)
    ends = source.sweep(np.stack((first, np.maximum(first, last))))[..., None]
    start, end = np.clip(ends, source.corners[:-1], source.corners[1:])
    half = (end - start)[..., None] / 2
    at, low, high, stretch = source.section((start + end)[..., None] / 2 + half * _NODES)
    below, off = height[:, None, None], at - x[:, None, None]
    rho2 = off**2 + below**2
    facing = np.maximum(normal[0] * off + normal[1] * below, 0.0) * below
    kernel = facing * (_along(high, rho2) - _along(low, rho2)) * stretch
    total: F = (kernel * half * _WEIGHTS).sum(axis=(-2, -1))
    return total


def _along(y: F, rho2: F) -> F:
    """Integral of 1/(rho^2 + y^2)^2 along the edge, from 0 to y."""
    rho = np.sqrt(rho2)
    found: F = y / (2 * rho2 * (rho2 + y**2)) + np.arctan(y / rho) / (2 * rho2 * rho)
    return found


def _turn_rad(surface_tilt_deg: float) -> float:
    """How far a surface is turned; the other way round is the mirror image, and a nanoradian is nothing."""
    if not abs(surface_tilt_deg) < 90:
        raise ValueError("a surface is turned by less than 90 degrees")
    tilt = float(np.radians(abs(surface_tilt_deg)))
    return tilt if tilt > 1e-9 else 0.0


def _shape(size_m: tuple[float, ...], roll_deg: float) -> _Disc | _Rectangle:
    return _Disc(size_m[0]) if len(size_m) == 1 else _Rectangle(size_m, roll_deg)
