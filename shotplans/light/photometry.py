"""Measured beams: what a luminous intensity table over angles says of a source. Belongs here: its flux, its even-sided
beam, and the gain of that beam on an even front. Not here: reading the file a laboratory wrote (`records.lm63`), beams
of which the width alone is known (`beams`)."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

F = NDArray[np.float64]
STEP_DEG = 1.0  # of a kept beam: 91 shares from the axis to the plane of the front
_LEAST_COS = 1e-3  # nearer the plane of the front an even one gives nothing to multiply


def _floats(value: ArrayLike) -> F:
    return np.asarray(value, dtype=np.float64)


def mean_over_planes(planes_deg: ArrayLike, candela: ArrayLike) -> F:
    """Mean intensity (cd) at each angle from the axis, over the half planes round it; rows of `candela` are half
    planes at `planes_deg`, rising from 0.

    By trapezoids over the planes given: what symmetry leaves out repeats what is there (0 to 90 a quadrant, 0 to 180
    a half, 0 to 360 all round), so their mean is the mean of all. Source: [LM63].
    """
    planes, values = _floats(planes_deg), _floats(candela)
    if len(planes) == 1:
        return np.asarray(values[0], dtype=np.float64)
    gaps = np.diff(planes)
    found: F = ((values[:-1] + values[1:]) / 2 * gaps[:, None]).sum(axis=0) / gaps.sum()
    return found


def flux_lm(angles_deg: ArrayLike, candela: ArrayLike) -> float:
    """Luminous flux (lm) of mean intensities (cd) at rising angles from the axis, 0 to 180 degrees: 2 pi x integral of
    I sin.

    Exact for an intensity that runs straight from angle to angle, and nothing outside the angles given. ValueError
    unless the angles rise. Source: flux is the integral of the intensity over the solid angle [LM63]: 100 cd all round
    are 1256.64 lm, a matt 1000 cd 3141.59 lm, 1000 cd in a cone of 30 degrees either side 841.79 lm.
    """
    at, sent = np.radians(_floats(angles_deg)), _floats(candela)
    if np.any(np.diff(at) <= 0):
        raise ValueError("angles rise")
    slope = np.diff(sent) / np.diff(at)
    first = sent[:-1] - slope * at[:-1]
    # integral of (a + b t) sin t dt = b sin t - (a + b t) cos t
    upper = slope * np.sin(at[1:]) - (first + slope * at[1:]) * np.cos(at[1:])
    lower = slope * np.sin(at[:-1]) - (first + slope * at[:-1]) * np.cos(at[:-1])
    return float(2 * math.pi * (upper - lower).sum())


def shares_of_axis(angles_deg: ArrayLike, candela: ArrayLike) -> tuple[float, ...]:
    """The beam ahead as shares of the intensity on its axis, at 0, 1, ... 90 degrees, straight between the angles
    given and nothing beyond them; to a millionth. ValueError where the axis has no light. Definition, no source.
    """
    at, sent = _floats(angles_deg), _floats(candela)
    if at[0] > 0 or not sent[0] > 0:
        raise ValueError("no light on the axis")
    found = np.interp(np.arange(0.0, 90.0 + STEP_DEG / 2, STEP_DEG), at, sent / sent[0], right=0.0)
    return tuple(float(x) for x in np.round(found, 6))


def measured_share(off_deg: ArrayLike, shares: ArrayLike) -> F:
    """Intensity over that on the axis in a direction off it, from shares at equal steps over 0 to 90 degrees, straight
    between them; 0 at and behind the plane of the front. Definition, no source."""
    known = _floats(shares)
    off = _floats(off_deg)
    found: F = np.where(off < 90, np.interp(off, np.linspace(0.0, 90.0, len(known)), known), 0.0)
    return found


def measured_gain(cos_off: ArrayLike, shares: ArrayLike) -> F:
    """Factor on a Lambertian source's light in a direction off the axis (1 on it) that makes it the measured beam:
    share / cos, as `beams.beam_gain`. Zero at and behind the plane of the front. Source: [LAMBERT-ORDER]."""
    cos = np.clip(_floats(cos_off), 0.0, 1.0)
    share = measured_share(np.degrees(np.arccos(cos)), shares)
    return np.where(cos > 1e-9, share / np.maximum(cos, _LEAST_COS), 0.0)


def measured_flux_over_axis(shares: ArrayLike) -> float:
    """Flux that leaves a measured source ahead over its axial intensity, sr, as `beams.flux_over_axis`. Source:
    integral of the intensity over the half space [LM63]."""
    known = _floats(shares)
    return flux_lm(np.linspace(0.0, 90.0, len(known)), known)


def measured_width_deg(shares: ArrayLike) -> float:
    """Full width (degrees) at half the intensity on the axis, at most 180: where the beam first falls to half.
    Definition, no source."""
    known = _floats(shares)
    at = np.linspace(0.0, 90.0, len(known))
    under = np.flatnonzero(known < 0.5)
    if not len(under):
        return 180.0
    n = int(under[0])
    back = (0.5 - known[n]) / (known[n - 1] - known[n])
    return float(2 * (at[n] - back * (at[n] - at[n - 1])))
