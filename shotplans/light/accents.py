"""Light from behind: the gloss a glancing light draws on skin and hair's edge, and which parts of a head it reaches.

Where an accent stands and how bright it should be is the planner's; what it does inside the lens is in `flare`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shotplans.light.units import F, Numbers, require_positive
from shotplans.light.vectors import dot

SKIN_INDEX = 1.4
"""Refractive index of skin as a whole [SKIN-GLOSS]."""

_EDGE_DEG = 80.0  # normals turned farther from the lens fill a hundredth of the head's radius: a line nobody sees
_NORMALS = 361


def fresnel(cos_t: Numbers, index: float = SKIN_INDEX) -> F:
    """Share of unpolarised light that a clear surface mirrors, seen from air; any shape.

    `cos_t` 0 to 1 is the cosine of the angle to the normal, `index` above 1; ValueError outside. Source: Fresnel's
    equations [SKIN-GLOSS].
    """
    cos = np.asarray(cos_t, dtype=np.float64)
    if not np.all((cos >= 0) & (cos <= 1 + 1e-12)):
        raise ValueError(f"cos_t must lie between 0 and 1, not {cos_t!r}")
    if index <= 1:
        raise ValueError(f"an index lies above 1, not {index!r}")
    inside = np.sqrt(1 - (1 - cos**2) / index**2)
    across = (cos - index * inside) / (cos + index * inside)
    along = (inside - index * cos) / (inside + index * cos)
    mirrored: F = 0.5 * (across**2 + along**2)
    return mirrored


def gloss(cos_light: Numbers, cos_camera: Numbers, cos_between: Numbers, lobe: float, index: float = SKIN_INDEX) -> F:
    """Mirrored part of a rough surface's reflection, 1/sr: F D G / (4 ci co), Beckmann slopes, separable Smith.

    Cosines of light and camera with the normal (above 0) and with each other, any shape; `lobe` is the roughness m
    (0.25 to 0.40 for skin), widened by the source as in `glancing_stops`. The two directions may change places.
    ValueError unless lobe is above zero. Sources: [SKIN-GLOSS], [LIGHT-3].
    """
    require_positive(lobe=lobe)
    ci, co, between = (np.asarray(v, dtype=np.float64) for v in (cos_light, cos_camera, cos_between))
    length = np.sqrt(np.maximum(2 + 2 * between, 1e-12))
    half2 = np.clip(((ci + co) / length) ** 2, 1e-9, 1.0)
    density = np.exp((1 - 1 / half2) / lobe**2) / (np.pi * lobe**2 * half2**2)
    mirrored = fresnel(np.sqrt(np.clip((1 + between) / 2, 0.0, 1.0)), index)
    found: F = mirrored * density * _smith(ci, lobe) * _smith(co, lobe) / (4 * ci * co)
    return found


def _smith(cos: F, lobe: float) -> F:
    """Smith's shadowing for Beckmann slopes, rational form (Walter et al. 2007, from memory)."""
    a = cos / (lobe * np.sqrt(np.maximum(1 - cos**2, 1e-12)))
    return np.where(a < 1.6, a * (3.535 + 2.181 * a) / (1 + a * (2.276 + 2.577 * a)), 1.0)


def glancing_stops(
    between_deg: float, alpha_rad: float, reflectance: float, roughness: float, index: float = SKIN_INDEX
) -> float:
    """Stops by which the brightest line a light draws on a head looks brighter than its own dome reading says.

    `between_deg` is the angle at the head from the light to the camera (0 to 170), `alpha_rad` the light's angular
    radius, `reflectance` 0.03 to 0.7. The head is a ball, so every normal is there; the line is the brightest of those
    that turn up to 80 degrees from the lens. A matt white would read rho E / pi; here pi L / (rho E) is taken with the
    matt part and the gloss, the source folded into the lobe (m^2 + alpha^2/8). Good where the relief index is
    [LIGHT-3]; hair has its own gloss and is not computed. ValueError outside. Source: [SKIN-GLOSS].
    """
    require_positive(reflectance=reflectance, roughness=roughness)
    if not 0 <= between_deg <= 170:
        raise ValueError(f"between_deg must lie between 0 and 170, not {between_deg!r}")
    turn = np.radians(np.linspace(-_EDGE_DEG, _EDGE_DEG, _NORMALS))
    between = np.radians(between_deg)
    co, cos = np.cos(turn), np.cos(turn - between)
    lit = cos > 0
    ci = np.maximum(cos, np.sin(alpha_rad) / 2 + 0.001)
    lobe = float(np.sqrt(roughness**2 + alpha_rad**2 / 8))
    mirrored = gloss(ci, co, np.cos(between), lobe, index)
    looks = np.where(lit, cos * (1 + np.pi * mirrored / reflectance), 1e-9)
    return float(np.log2(looks.max()))


def head_hides(points: F, lights: F, half_axes_m: F) -> NDArray[np.bool_]:
    """Whether an ellipsoid stands between points and lights; both in its own frame, metres; shapes (..., 3) broadcast.

    `half_axes_m` (3,) along x, y, z. A point on the surface is hidden from what lies below its horizon; a light inside
    the ellipsoid counts as hidden. ValueError unless the axes are above zero. Source: geometry of a line and a sphere
    after scaling the axes to one.
    """
    require_positive(half_axes_m=half_axes_m)
    start = points / half_axes_m
    way = lights / half_axes_m - start
    a, b, c = dot(way, way), dot(start, way), dot(start, start) - 1
    reach = b**2 - a * np.maximum(c, 0.0)
    near = (-b - np.sqrt(np.maximum(reach, 0.0))) / np.maximum(a, 1e-12)
    found: NDArray[np.bool_] = (b < -1e-9) & (reach > 0) & (near < 1)
    return found
