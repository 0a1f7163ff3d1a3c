"""Beams: how real fronts depart from an even one, over angle and behind lips and grids, and what turning one does.

Two things are kept apart. How bright a front is from middle to edge is its core: it makes the front work smaller
(`sources.hot_core_diameter`). How its light thins off the axis is its beam: that alone can be feathered. What is known
of a modifier is its beam's width and its core; that the beam is a power of the cosine and the same for every part of
the front is assumed. Which kinds have which beam is the planner's.
"""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shotplans.light.vectors import dot

F = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(64)


def _floats(value: ArrayLike) -> F:
    return np.asarray(value, dtype=np.float64)


def beam_exponent(beam_deg: ArrayLike) -> F:
    """Exponent n of an intensity cos^n whose full width at half maximum is `beam_deg` (0 to 180; 120 gives 1).

    n = ln(1/2)/ln(cos(beam/2)). Raises ValueError outside that range. Source: [LAMBERT-ORDER].
    """
    beam = _floats(beam_deg)
    if np.any(~((beam > 0) & (beam < 180))):
        raise ValueError("a beam is wider than 0 and narrower than 180 degrees")
    found: F = np.log(0.5) / np.log(np.cos(np.radians(beam) / 2))
    return found


@lru_cache(maxsize=256)
def _exponent_of_one(beam_deg: float) -> F:
    return beam_exponent(beam_deg)


def grid_share(off_deg: ArrayLike, grid_deg: float) -> F:
    """Share (0 to 1) of the light a grid lets through, off the axis by `off_deg`: falls in a line to 0 at half of
    `grid_deg`, its full cut-off angle.

    A cell of depth h and width c seen askew is open by 1 - (h/c) tan(off), which is this line to within 0.1 for grids
    up to 90 degrees. A stated estimate; common practice, no source. ValueError unless `grid_deg` is above 0.
    """
    if not grid_deg > 0:
        raise ValueError("a grid cuts off at an angle above 0")
    found: F = np.maximum(1 - np.abs(_floats(off_deg)) / (grid_deg / 2), 0.0)
    return found


def beam_gain(cos_off: ArrayLike, beam_deg: ArrayLike, grid_deg: float | None = None) -> F:
    """Factor on a Lambertian source's light in a direction off the axis (1 on it), from the beam and a grid.

    cos^(n-1) of `beam_exponent`, times `grid_share`. Zero at and behind the plane of the front. Source:
    [LAMBERT-ORDER]; that real beams follow a power of the cosine is common practice, no source.
    """
    cos = np.clip(_floats(cos_off), 0.0, 1.0)
    lit = cos > 1e-9
    safe = np.where(lit, cos, 1.0)
    exponent = _exponent_of_one(beam_deg) if type(beam_deg) is float else beam_exponent(beam_deg)
    gain = np.where(lit, safe ** (exponent - 1), 0.0)
    if grid_deg is None:
        return gain
    return gain * grid_share(np.degrees(np.arccos(cos)), grid_deg)


def lip_share_disc(tan_off: ArrayLike, lip_m: float, diameter_m: float) -> F:
    """Share (0 to 1) of a round front seen past its lip, off the axis by an angle of this tangent.

    The lip's opening, `lip_m` before the front and as wide, is seen shifted by lip x tan: what is left is where two
    equal circles overlap, (2/pi)(acos x - x sqrt(1 - x^2)), x = lip tan/D. Far off against the front's size. ValueError
    unless the diameter is above 0 and the lip not below. Source: geometry (area common to two circles).
    """
    if not (diameter_m > 0 and lip_m >= 0):
        raise ValueError("a front is wider than 0 and its lip not below 0")
    x = np.clip(lip_m * np.abs(_floats(tan_off)) / diameter_m, 0.0, 1.0)
    found: F = 2 / np.pi * (np.arccos(x) - x * np.sqrt(1 - x**2))
    return found


def lip_share_rect(
    tan_across: ArrayLike, tan_up: ArrayLike, lip_m: float, width_m: float, height_m: float
) -> F:
    """Share (0 to 1) of a rectangular front seen past its lip, off the axis by angles of these tangents along its width
    and its height: (1 - lip tan/w)(1 - lip tan/h). Range, errors and source as in `lip_share_disc` (area common to two
    rectangles).
    """
    if not (width_m > 0 and height_m > 0 and lip_m >= 0):
        raise ValueError("a front is wider and higher than 0 and its lip not below 0")
    across = np.clip(1 - lip_m * np.abs(_floats(tan_across)) / width_m, 0.0, 1.0)
    found: F = across * np.clip(1 - lip_m * np.abs(_floats(tan_up)) / height_m, 0.0, 1.0)
    return found


def flux_over_axis(beam_deg: float, grid_deg: float | None = None) -> float:
    """Flux that leaves a source over its axial intensity, sr: 2 pi/(n + 1) for the beam cos^n (pi at 120 degrees).

    Behind a grid the integral of cos^n times `grid_share` over the cone it leaves, by quadrature. Errors as in
    `beam_exponent` and `grid_share`. Source: integral of the intensity over the half space [LAMBERT-ORDER].
    """
    n = float(beam_exponent(beam_deg))
    if grid_deg is None:
        return 2 * math.pi / (n + 1)
    most = math.radians(min(90.0, grid_deg / 2))
    off = most / 2 * (_NODES + 1)
    sent = np.cos(off) ** n * grid_share(np.degrees(off), grid_deg) * np.sin(off)
    return float(2 * math.pi * most / 2 * (sent * _WEIGHTS).sum())


def feather_stops(
    off_before_deg: ArrayLike, off_after_deg: ArrayLike, beam_deg: ArrayLike, grid_deg: float | None = None
) -> F:
    """Stops that a place gains (+) or loses (-) when a front is turned about its middle, so that the place lies
    `off_after_deg` from the axis instead of `off_before_deg` (0 to under 90).

    n log2(cos after / cos before), and the grid's share; good to 0.02 stop from twice the front's size away, whatever
    its core. An even matt front (n = 1) turned 20 degrees off a face loses 0.09 stop and no more: it cannot be
    feathered. Minus infinity where a grid or the front's own plane leaves nothing. Sources: [LAMBERT-ORDER],
    [CIE-DISTANCE].
    """
    before, after = np.abs(_floats(off_before_deg)), np.abs(_floats(off_after_deg))
    if np.any(~(before < 90)) or np.any(~(after <= 180)):
        raise ValueError("a place is less than 90 degrees off the axis before, and at most 180 after")
    first, last = (_intensity(off, beam_deg, grid_deg) for off in (before, after))
    if np.any(first <= 0):
        raise ValueError("a place that got no light before has nothing to compare with")
    with np.errstate(divide="ignore"):
        found: F = np.log2(last / first)
    return found


def _intensity(off_deg: F, beam_deg: ArrayLike, grid_deg: float | None) -> F:
    """Intensity over that on the axis."""
    cos = np.where(off_deg < 90, np.cos(np.radians(off_deg)), 0.0)
    sent = cos ** beam_exponent(beam_deg)
    return sent if grid_deg is None else sent * grid_share(off_deg, grid_deg)


def hot_core_side(side_m: float, core_stops: float) -> float:
    """Side (m) of the even rectangle that spreads light as widely, along this side, as one that fades by `core_stops`
    from its middle to its corners.

    Brightness 2^(-core (u^2 + v^2)/2) for u, v in half sides: equal second moment, s sqrt(3 m2), with the moment m2 of
    exp(-a u^2) over 0 to 1, a = core ln 2/2, which is s at 0 stops. ValueError below 0. Own derivation, no outside
    source.
    """
    if not core_stops >= 0:
        raise ValueError("a core is not below 0 stops")
    a = core_stops * math.log(2) / 2
    if a < 1e-4:
        return side_m * math.sqrt(1 - 4 * a / 15)
    whole = math.sqrt(math.pi / a) / 2 * math.erf(math.sqrt(a))
    return side_m * math.sqrt(3 * (whole - math.exp(-a)) / (2 * a * whole))


def radius_in_plane(half_across: ArrayLike, half_up: ArrayLike, toward: ArrayLike, normal: ArrayLike) -> F:
    """Radius (m) of the disc that spreads light as widely as a rectangle, in the plane of incidence on a surface.

    `half_across`, `half_up` are half the rectangle's sides as vectors (..., 3), `toward` the unit vector from the
    surface to its middle, `normal` the surface's. With t the direction in that plane square to `toward`, the radius is
    (2/sqrt 3) sqrt((a.t)^2 + (b.t)^2): 1.155 x the half side where one side lies in the plane (equal second moment).
    Where light comes straight down the normal every plane is as good: the mean of all. Source: [LIGHT-3].
    """
    s, n = _floats(toward), _floats(normal)
    a, b = _floats(half_across), _floats(half_up)
    t = n - dot(n, s)[..., None] * s
    size2 = dot(t, t)
    askew = size2 > 1e-9
    along = (dot(a, t) ** 2 + dot(b, t) ** 2) / np.where(askew, size2, 1.0)
    found: F = 2 / np.sqrt(3) * np.sqrt(np.where(askew, along, (dot(a, a) + dot(b, b)) / 2))
    return found
