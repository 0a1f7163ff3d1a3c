"""Light from behind: the line a glancing light draws on skin and hair's edge, and which parts of a head it reaches.

How much skin mirrors is in `gloss`. Where an accent stands and how bright it should be is the planner's; what it does
inside the lens is in `flare`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from shotplans.light.gloss import SKIN_INDEX, gloss
from shotplans.light.units import F, require_positive
from shotplans.light.vectors import dot

_EDGE_DEG = 80.0  # normals turned farther from the lens fill a hundredth of the head's radius: a line nobody sees
_NORMALS = 361


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
