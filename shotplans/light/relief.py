"""Visible skin texture under given lights: the three-facet index of a standard groove.

How much darker and brighter than the flat skin the walls of a small wrinkle come out, from geometry alone.
Which places of a face are judged and what skin they have belongs to the planner; irradiances come from
`sources`.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from shotplans.light import gloss
from shotplans.light.sources import cone_irradiance
from shotplans.light.vectors import cross, dot, scaled_to_one

F = NDArray[np.float64]

STANDARD_ASPECT = 0.15  # depth over width of the standard wrinkle (LIGHT-3; a convention)
_CHUNK = 4096  # patches in one go: the working set stays in the processor's cache
_DEEPEST_STOPS = 4.0  # a shadow is counted no deeper: by then bounced light rules
_TINY = 1e-12
_UP = np.array([0.0, 1.0, 0.0])
_RIGHT = np.array([1.0, 0.0, 0.0])


class Relief(NamedTuple):
    """Relief of a groove: the stops its walls fall below and rise above flat skin, RMS and Michelson
    contrast.
    """

    shadow_stops: F
    highlight_stops: F
    rms: F
    michelson: F


class _Lights(NamedTuple):
    """Lights over patches (n, rows): cosines with the normal, the groove and the camera; what reaches the skin."""

    cos: F
    across: F
    to_camera: F
    normal_part: F
    slant: F  # tangential part of the light vector over the sine
    visible: NDArray[np.bool_]
    alpha: F
    sin_alpha: F
    e_perp: F


def slope(aspect: ArrayLike) -> F:
    """Steepest slope of the Gaussian groove whose depth over full width at half depth is `aspect`: 1.4282
    h/w. Its derivative, greatest at the bell's own deviation; the shape is a convention of [LIGHT-3].
    """
    steepest: F = 2 * np.sqrt(2 * np.log(2)) * np.exp(-0.5) * np.asarray(aspect, dtype=np.float64)
    return steepest


def relief(
    normal: ArrayLike,
    to_camera: ArrayLike,
    to_light: ArrayLike,
    alpha_rad: ArrayLike,
    e_perp: ArrayLike,
    *,
    dome: ArrayLike,
    reflectance: ArrayLike,
    roughness: ArrayLike,
    aspect: ArrayLike,
    line: ArrayLike | None = None,
    transfer: ArrayLike = 1.0,
    index: float = gloss.SKIN_INDEX,
) -> Relief:
    """Relief of a groove in skin with the given normal, seen along `to_camera`, under n lights and an even
    dome.

    Unit vectors (..., 3), `to_light` (..., n, 3); `alpha_rad` and `e_perp` (..., n): angular radius and
    irradiance at normal incidence (any one unit); `dome` (...): the irradiance of even surroundings on the
    flat skin. `line` is the direction the groove runs in (None: the worst one), `transfer` the share of
    diffuse relief that translucent skin leaves (0 to 1). Valid for aspect .05-.20, incidence to 75 degrees,
    alpha 0.5-45 degrees, reflectance .04-.65, roughness .25-.40, camera within 30 degrees of the normal: there
    within 0.1 stop or 10 % of path tracing [LIGHT-3] (tests/proof). Beyond, the order stays right, but a deep fold
    (aspect .35) in light skin comes out too deep by up to 0.7 stop and its highlight near the axis up to 0.3 too low,
    and a shadow is counted no deeper than 4 stops, where a small light grazing at 80 degrees alone makes 5 to 11. A
    light below the skin's horizon counts for nothing; where none arrives all four are 0.
    """
    skin = [np.asarray(v, dtype=np.float64) for v in (dome, reflectance, roughness, aspect, transfer)]
    vectors = [np.asarray(v, dtype=np.float64) for v in (normal, to_camera, _UP if line is None else line)]
    lights = np.asarray(to_light, dtype=np.float64)
    alpha, e = np.asarray(alpha_rad, dtype=np.float64), np.asarray(e_perp, dtype=np.float64)
    per_light = np.broadcast_shapes(lights.shape[:-1], alpha.shape, e.shape)
    shape = np.broadcast_shapes(per_light[:-1], *(v.shape[:-1] for v in vectors), *(v.shape for v in skin))
    n = per_light[-1]
    flat = [np.broadcast_to(v, (*shape, 3)).reshape(-1, 3) for v in vectors]
    flat_light = np.broadcast_to(lights, (*shape, n, 3)).reshape(-1, n, 3)
    flat_alpha, flat_e = (np.broadcast_to(v, (*shape, n)).reshape(-1, n) for v in (alpha, e))
    flat_skin = [np.broadcast_to(v, shape).reshape(-1) for v in skin]
    out = np.empty((4, flat_skin[0].size))
    for start in range(0, out.shape[1], _CHUNK):
        rows = slice(start, start + _CHUNK)
        n_rows, c_rows, line_rows = (_by_component(v[rows]) for v in flat)
        # Lights before patches, so that a patch's own numbers meet them along the long axis.
        lights_here = (_by_component(flat_light[rows].swapaxes(0, 1)), flat_alpha[rows].T, flat_e[rows].T)
        groove = None if line is None else line_rows
        out[:, rows] = _patches(n_rows, c_rows, groove, *lights_here, [v[rows] for v in flat_skin], index)
    return Relief(*(v.reshape(shape) for v in out))


def _by_component(vectors: F) -> F:
    """The same vectors (..., 3), each component in one piece of memory."""
    return np.moveaxis(np.ascontiguousarray(np.moveaxis(vectors, -1, 0)), 0, -1)


def _patches(
    normal: F, camera: F, line: F | None, light: F, alpha: F, e_perp: F, skin: list[F], index: float
) -> tuple[F, F, F, F]:
    dome, reflectance, roughness, aspect, transfer = skin
    g, lights = _light_vectors(normal, camera, line, light, alpha, e_perp)
    cos_view = np.maximum(dot(normal, camera), 1e-3)
    camera_slope = dot(g, camera)
    p = slope(aspect)
    steep = 1 / np.sqrt(1 + p**2)
    fresnel_quarter = gloss.fresnel(np.sqrt(np.clip((1 + lights.to_camera) / 2, 0.0, 1.0)), index) / 4
    lobe = np.sqrt(roughness**2 + lights.alpha**2 / 8)
    diffuse, sheen = [], []
    for tilt in (np.zeros_like(p), p, -p):
        stretch = np.where(tilt == 0, 1.0, steep)
        received = _received(lights, tilt, stretch)
        view = np.maximum((cos_view + tilt * camera_slope) * stretch, 1e-3)
        mirror = _mirror(lights, tilt, stretch, view, lobe) * fresnel_quarter
        # The skin's own plane rises before a tilted wall and hides (1 - cos)/2 of the even surroundings.
        even = dome * (1 + stretch) / 2
        diffuse.append(received.sum(axis=0) + even)
        # Sheen of even surroundings: the one fitted term of the index (LIGHT-3).
        sheen.append((received * mirror).sum(axis=0) + even / np.pi * (0.0278 + 0.02 * (1 - view) ** 2))
    flat, wall, other = (
        reflectance / np.pi * (diffuse[0] + transfer * (d - diffuse[0])) + s
        for d, s in zip(diffuse, sheen, strict=True)
    )
    return _contrasts(flat, wall, other)


def _light_vectors(normal: F, camera: F, line: F | None, light: F, alpha: F, e_perp: F) -> tuple[F, _Lights]:
    """Direction across the groove (rows, 3) and what each light sends, cut by the skin's own horizon."""
    cos = dot(normal, light)
    sin = np.sqrt(np.maximum(1 - cos**2, 0.0))
    alpha = np.clip(alpha, 1e-4, np.pi / 2 - 1e-6)
    sin_alpha = np.sin(alpha)
    visible = (cos > -sin_alpha) & (e_perp > 0)
    normal_part, tangent_part = np.where(visible, cos, 0.0), np.where(visible, sin, 0.0)
    cut = visible & (np.abs(cos) < sin_alpha)
    if cut.any():
        normal_part[cut], tangent_part[cut] = _cut_vector(cos[cut], sin[cut], alpha[cut])
    slant = tangent_part / np.maximum(sin, _TINY)
    pull = e_perp * slant  # times (s - cos n) gives the tangential part
    total = (pull[..., None] * light).sum(axis=0) - (pull * cos).sum(axis=0)[:, None] * normal
    g = _across(normal, line, total, e_perp.sum(axis=0))
    across = dot(g, light)
    to_camera = dot(camera, light)
    return g, _Lights(cos, across, to_camera, normal_part, slant, visible, alpha, sin_alpha, e_perp)


def _cut_vector(cos: F, sin: F, alpha: F) -> tuple[F, F]:
    """Normal and tangential part of a cut disc's light vector, as shares of its irradiance at normal
    incidence.
    """
    sin_alpha = np.sin(alpha)
    arc = np.arccos(np.clip(-cos / (np.tan(alpha) * np.maximum(sin, _TINY)), -1.0, 1.0))
    tangent = (sin_alpha * arc * sin + np.cos(alpha) * np.sin(arc) * cos) / (np.pi * sin_alpha)
    return cone_irradiance(cos, alpha) / (np.pi * sin_alpha**2), np.maximum(tangent, 0.0)


def _across(normal: F, line: F | None, total: F, strength: F) -> F:
    """Unit vector in the skin's plane across the groove, on the side of the light vector's tangential part."""
    if line is not None:
        across = scaled_to_one(cross(line, normal))
        return across * np.where(dot(across, total) < 0, -1.0, 1.0)[:, None]
    size = np.sqrt(dot(total, total))
    leaning = size > 1e-9 * strength
    # Light straight down the normal has no worst direction: take the groove that runs level.
    level = np.where((np.abs(normal[:, 1]) < 0.999)[:, None], _UP, _RIGHT)
    level = scaled_to_one(level - dot(level, normal)[:, None] * normal)
    return np.where(leaning[:, None], total / np.where(leaning, size, 1.0)[:, None], level)


def _received(lights: _Lights, tilt: F, stretch: F) -> F:
    """Irradiance (rows, n) of a facet n + tilt g from each light: lit walls by the cut light vector, others
    anew.
    """
    lean = tilt * lights.across
    cos = (lights.cos + lean) * stretch
    share = (lights.normal_part + lights.slant * lean) * stretch
    away = lean < 0
    share = np.where(away, np.where(lights.visible, cos, 0.0), share)
    cut = away & lights.visible & (cos < lights.sin_alpha)
    if cut.any():
        share[cut] = cone_irradiance(cos[cut], lights.alpha[cut]) / (np.pi * lights.sin_alpha[cut] ** 2)
    return lights.e_perp * np.maximum(share, 0.0)


def _mirror(lights: _Lights, tilt: F, stretch: F, view: F, lobe: F) -> F:
    """Microfacet term D G/(ci co) of a facet (Beckmann, separable Smith) without Fresnel's factor over four."""
    cos = (lights.cos + tilt * lights.across) * stretch
    incidence = np.maximum(cos, lights.sin_alpha / 2 + 0.001)
    half = np.maximum((cos + view) / np.sqrt(np.maximum(2 + 2 * lights.to_camera, _TINY)), 1e-3)
    half2 = np.minimum(half**2, 1.0)
    lobe2 = lobe**2
    density = np.exp((1 - 1 / half2) / lobe2) / (np.pi * lobe2 * half2**2)
    shadowing = gloss.shadowing(incidence, lobe) * gloss.shadowing(view, lobe)
    found: F = density * shadowing / (incidence * view)
    return found


def _contrasts(flat: F, wall: F, other: F) -> tuple[F, F, F, F]:
    """Shadow and highlight stops (shadow at most 4), RMS contrast in a window of three widths, Michelson."""
    lit = flat > 0
    base = np.where(lit, flat, 1.0)
    low = np.minimum(np.minimum(wall, other), flat)
    high = np.maximum(np.maximum(wall, other), flat)
    shadow = np.where(lit, np.log2(base / np.maximum(np.where(lit, low, 1.0), base / 2**_DEEPEST_STOPS)), 0.0)
    highlight = np.where(lit, np.log2(np.where(lit, high, 1.0) / base), 0.0)
    swing, bend = (wall - other) / (2 * base), (wall + other) / (2 * base) - 1
    # Shares of the window's variance taken by the odd and the even part of the Gaussian groove (LIGHT-3).
    rms = np.sqrt(0.34100 * swing**2 + 0.12952 * bend**2) / (1 + 0.34100 * bend)
    ratio = 2 ** (shadow + highlight)
    return shadow, highlight, np.where(lit, rms, 0.0), (ratio - 1) / (ratio + 1)
