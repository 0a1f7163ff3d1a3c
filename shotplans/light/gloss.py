"""Gloss: how much of the light skin mirrors rather than scatters, by Fresnel's equations and Beckmann slopes.

For every place that asks it: the relief of a groove, the line of a light from behind, the picture of a set.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_positive

SKIN_INDEX = 1.4
"""Refractive index of skin as a whole [SKIN-GLOSS]."""


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
    (0.25 to 0.40 for skin), widened by the source as in `accents.glancing_stops`. The two directions may change places.
    ValueError unless lobe is above zero. Sources: [SKIN-GLOSS], [LIGHT-3].
    """
    require_positive(lobe=lobe)
    ci, co, between = (np.asarray(v, dtype=np.float64) for v in (cos_light, cos_camera, cos_between))
    length = np.sqrt(np.maximum(2 + 2 * between, 1e-12))
    half2 = np.clip(((ci + co) / length) ** 2, 1e-9, 1.0)
    density = np.exp((1 - 1 / half2) / lobe**2) / (np.pi * lobe**2 * half2**2)
    mirrored = fresnel(np.sqrt(np.clip((1 + between) / 2, 0.0, 1.0)), index)
    found: F = mirrored * density * shadowing(ci, lobe) * shadowing(co, lobe) / (4 * ci * co)
    return found


def shadowing(cos: F, lobe: Numbers) -> F:
    """Share (0 to 1) of a rough surface's slopes that its own hills leave open in one direction; any shape.

    `cos` with the normal, above 0 and at most 1; `lobe` above 0 as in `gloss`. Smith's function for Beckmann slopes in
    its rational form (Walter et al. 2007, from memory).
    """
    a = cos / (lobe * np.sqrt(np.maximum(1 - cos**2, 1e-12)))
    return np.where(a < 1.6, a * (3.535 + 2.181 * a) / (1 + a * (2.276 + 2.577 * a)), 1.0)
