"""Flags: how large a screen must be to keep a light off a place, and how much of a light it hides from any point.

Where a flag stands and what it is for is the planner's.
"""

from __future__ import annotations

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive
from shotplans.light.vectors import dot


def size_needed_m(source_m: Numbers, kept_m: Numbers, along: Numbers) -> F:
    """Width of a screen that hides the whole of a source from the whole of a place: S (1 - t) + K t; any shape.

    `source_m` and `kept_m` are the widths of the two, seen square to the line between them, `along` (0 to 1) how far
    along it the screen stands, from the source. ValueError outside. Source: similar triangles.
    """
    require_not_negative(source_m=source_m, kept_m=kept_m)
    t = np.asarray(along, dtype=np.float64)
    if not np.all((t >= 0) & (t <= 1)):
        raise ValueError(f"along must lie between 0 and 1, not {along!r}")
    found: F = np.asarray(source_m, dtype=np.float64) * (1 - t) + np.asarray(kept_m, dtype=np.float64) * t
    return found


def hidden_share(points: F, source: F, centre: F, axes: tuple[F, F], width_m: float, height_m: float) -> F:
    """Share (n,) of a source, given by its sample points (m, 3), that a rectangle hides from points (n, 3).

    `axes` are the unit vectors along the rectangle's width and height; metres. Lines that lie in its plane are not
    hidden. Good to one over the number of samples. ValueError unless the sides are above zero. Source: geometry.
    """
    require_positive(width_m=width_m, height_m=height_m)
    across, up = axes
    normal = np.cross(across, up)
    to_point = dot(points - centre, normal)[:, None]
    to_source = dot(source - centre, normal)[None, :]
    parts = to_point * to_source < 0
    t = to_point / np.where(parts, to_point - to_source, 1.0)
    hit = points[:, None, :] + t[..., None] * (source[None] - points[:, None, :]) - centre
    inside = (np.abs(dot(hit, across)) <= width_m / 2) & (np.abs(dot(hit, up)) <= height_m / 2)
    found: F = (parts & inside).mean(axis=1)
    return found
