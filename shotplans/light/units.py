"""Stops, directions and rounding: the few conversions every other module of light shares.

Nothing about lamps, cameras or faces belongs here, and no wording beyond a length in feet and inches.
"""

from __future__ import annotations

import math
from typing import overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

F = NDArray[np.float64]
Numbers = F | float

_INCH_M = 0.0254
_TAPE_STEP_IN = 2
_DUST = 1e-9


def require_positive(**values: ArrayLike) -> None:
    """Raise ValueError, naming the quantity, unless every number given is finite and above zero."""
    for name, value in values.items():
        if isinstance(value, float) and 0.0 < value < math.inf:
            continue  # most are one number, and asking NumPy about one takes ten times as long
        numbers = np.asarray(value, dtype=np.float64)
        if not np.all(np.isfinite(numbers) & (numbers > 0)):
            raise ValueError(f"{name} must be above zero and finite, not {value!r}")


def require_not_negative(**values: ArrayLike) -> None:
    """Raise ValueError, naming the quantity, if any number given is below zero or not a number."""
    for name, value in values.items():
        if isinstance(value, float) and value >= 0.0:
            continue
        if not (np.asarray(value, dtype=np.float64) >= 0).all():
            raise ValueError(f"{name} must not be below zero, not {value!r}")


@overload
def stops(ratio: float) -> float: ...
@overload
def stops(ratio: F) -> F: ...
def stops(ratio: Numbers) -> Numbers:
    """Stops between two lights of this ratio: log2(ratio); any shape.

    Valid for ratio >= 0 (0 gives -inf); raises ValueError below. Source: [APEX].
    """
    require_not_negative(ratio=ratio)
    with np.errstate(divide="ignore"):
        found: Numbers = np.log2(ratio)
    return found


@overload
def ratio(stops: float) -> float: ...
@overload
def ratio(stops: F) -> F: ...
def ratio(stops: Numbers) -> Numbers:
    """Ratio of light for a difference in stops: 2**stops; any shape, any real number. Source: [APEX]."""
    found: Numbers = np.exp2(stops)
    return found


def direction(bearing_deg: Numbers, height_deg: Numbers) -> F:
    """Unit vector (..., 3) of a bearing and a height angle in degrees, in the frame of the set.

    (cos h sin b, sin h, cos h cos b): bearing 0 points from the sitter to the camera, + to camera right.
    Any real angle; the shapes broadcast. Source: the product's own frame (a convention, not a measurement).
    """
    bearing, height = np.broadcast_arrays(np.radians(bearing_deg), np.radians(height_deg))
    level = np.cos(height)
    return np.stack([level * np.sin(bearing), np.sin(height), level * np.cos(bearing)], axis=-1)


def unit(vector: ArrayLike) -> F:
    """Vector (..., 3) scaled to length one; raises ValueError where the length is zero. Definition."""
    vectors = np.asarray(vector, dtype=np.float64)
    squares = vectors * vectors
    length: F = np.sqrt(squares[..., :1] + squares[..., 1:2] + squares[..., 2:3])
    require_positive(length=float(length[0]) if length.ndim == 1 else length)
    return vectors / length


def bearing_deg(vector: ArrayLike) -> F:
    """Bearing atan2(x, z) of a vector (..., 3), degrees in (-180, 180]; 0 straight up. Source: definition."""
    vectors = np.asarray(vector, dtype=np.float64) + 0.0  # + 0.0: minus zero would turn 180 into -180
    found: F = np.degrees(np.arctan2(vectors[..., 0], vectors[..., 2]))
    return found


def height_deg(vector: ArrayLike) -> F:
    """Elevation of a vector (..., 3) above the level, degrees in [-90, 90]. Source: definition."""
    vectors = np.asarray(vector, dtype=np.float64)
    level = np.hypot(vectors[..., 0], vectors[..., 2])
    found: F = np.degrees(np.arctan2(vectors[..., 1], level))
    return found


@overload
def round_to(value: float, step: float) -> float: ...
@overload
def round_to(value: F, step: float) -> F: ...
def round_to(value: Numbers, step: float) -> Numbers:
    """Nearest multiple of step, half away from zero; never -0.0, and equal to the literal one would type.

    Any shape; step > 0, else ValueError. Source: common practice, no source (what a hand can set).
    """
    require_positive(step=step)
    if isinstance(value, float) and math.isfinite(value):
        return _one_rounded(value, step)
    count = np.asarray(value, dtype=np.float64) / step
    whole = np.copysign(np.floor(np.abs(count) + 0.5 + _DUST), count)
    per_one = round(1 / step)
    # Dividing by a whole number lands on the double nearest to the decimal; multiplying by 0.05 does not.
    exact = abs(per_one * step - 1) < _DUST
    found = whole / per_one if exact else np.round(whole * step, 10)
    tidy: F = found + 0.0
    return float(tidy) if np.ndim(value) == 0 else tidy


def _one_rounded(value: float, step: float) -> float:
    """`round_to` of one number, without NumPy, which takes five times as long to say the same."""
    count = value / step
    whole = math.copysign(math.floor(abs(count) + 0.5 + _DUST), count)
    per_one = round(1 / step)
    if abs(per_one * step - 1) < _DUST:
        return float(whole / per_one + 0.0)
    return float(np.round(whole * step, 10) + 0.0)


def feet_and_inches(metres: float) -> str:
    """Length in metres as text on a tape, to the nearest 2 in: 2.36 -> "7 ft 8 in" (1 in = 0.0254 m)."""
    inches = round(round_to(metres / _INCH_M, _TAPE_STEP_IN))
    feet, rest = divmod(abs(inches), 12)
    return f"{'-' if inches < 0 else ''}{feet} ft {rest} in"
