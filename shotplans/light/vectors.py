"""Products of stacked 3-vectors, written out by component because that is several times faster than NumPy's
own.

Only algebra on a last axis of three; directions in degrees and anything with a unit belong to `units`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

F = NDArray[np.float64]


def dot(a: F, b: F) -> F:
    """Scalar product (...) of vectors (..., 3); broadcasts. Definition."""
    product: F = a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1] + a[..., 2] * b[..., 2]
    return product


def cross(a: F, b: F) -> F:
    """Vector product (..., 3) of vectors (..., 3); broadcasts. Definition."""
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    first = ay * bz - az * by
    product = np.empty((*first.shape, 3))
    product[..., 0], product[..., 1], product[..., 2] = first, az * bx - ax * bz, ax * by - ay * bx
    return product


def scaled_to_one(v: F) -> F:
    """Vectors (..., 3) scaled to length one; a zero vector stays zero instead of raising. Definition."""
    unit: F = v / np.maximum(np.sqrt(dot(v, v)), 1e-12)[..., None]
    return unit
