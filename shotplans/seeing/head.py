"""A head from our own formula: a smooth egg with brow, nose and lids, its normals, and its horizons made once.

Belongs here: the shape, and from which heights each place of it sees out. Not here: light, or a picture of it. Nobody's
likeness: sizes are rounded means of anatomy.py (head breadth, length and height), the rest is drawn by eye, no source.

The head is star-shaped about its middle: one radius in every direction. Directions go by stereographic coordinates
(u, v) = (x, y)/(1 + z), so that the face is sampled finest and no angle is ever taken. Millimetres, head's frame: +x to
the picture's right when the nose points at the lens, +y up, +z along the nose.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

F = NDArray[np.float32]
EYES_UP_MM = 5.0  # the pupils' height over the head's middle
BRIDGE_MM = 92.0  # the bridge of the nose before it
REACH, FINE, COARSE = 2.2, 640, 144  # half side of the grid in (u, v); samples of shape and of horizons
AZIMUTHS = 64
STEPS_DEG = np.concatenate([np.arange(3.0, 24.0, 2.0), np.arange(24.0, 60.0, 4.0), np.arange(60.0, 111.0, 10.0)])
NECK_MM, NECK_BACK_MM, NECK_LOW_MM = 52.0, -18.0, 230.0
JOIN_PER_MM = 0.14  # how sharply the parts of the egg meet


@dataclass(frozen=True)
class Head:
    """The fixed head: radius (FINE, FINE), unit normals (FINE, FINE, 3) and horizons (COARSE, COARSE, AZIMUTHS).

    A horizon is the height angle (radians) over the plane square to the radius from which a place sees past the head,
    by azimuth from the direction of growing u.
    """

    radius: F
    normals: F
    horizons: F


def radius_mm(direction: F) -> F:
    """Radius (...) in unit directions (..., 3): two ellipsoids and a neck, joined smoothly, and what stands on them."""
    x, y, z = direction[..., 0], direction[..., 1], direction[..., 2]
    skull = _ellipsoid(x, y, z, (0.0, 25.0, -12.0), (76.0, 92.0, 97.0))
    jaw = _ellipsoid(x, y, z, (0.0, -34.0, 20.0), (59.0, 86.0, 70.0))
    level = np.sqrt(x * x + z * z) + 1e-6
    reach = np.minimum(_cylinder(x, z, level), NECK_LOW_MM / np.maximum(-y, 0.3))
    neck = _ramp(-y, 0.05, 0.4) * reach
    joined = np.log(sum(np.exp(JOIN_PER_MM * (part - 100.0)) for part in (skull, jaw, neck))) / JOIN_PER_MM + 100.0
    found: F = (joined + _face(x, y, z)).astype(np.float32)
    return found


def _ellipsoid(x: F, y: F, z: F, centre: tuple[float, float, float], half: tuple[float, float, float]) -> F:
    """How far out an ellipsoid's surface lies; the middle lies inside it."""
    (cx, cy, cz), (ax, ay, az) = centre, half
    a = (x / ax) ** 2 + (y / ay) ** 2 + (z / az) ** 2
    b = x * cx / ax**2 + y * cy / ay**2 + z * cz / az**2
    c = (cx / ax) ** 2 + (cy / ay) ** 2 + (cz / az) ** 2 - 1
    found: F = (b + np.sqrt(b * b - a * c)) / a
    return found


def _cylinder(x: F, z: F, level: F) -> F:
    """The same for the neck's upright cylinder."""
    b = z / level * NECK_BACK_MM
    found: F = (b + np.sqrt(b * b - NECK_BACK_MM**2 + NECK_MM**2)) / level
    return found


def _bump(a: F, b: F, at: tuple[float, float], wide: float, tall: float) -> F:
    found: F = np.exp(-(((a - at[0]) / wide) ** 2) - ((b - at[1]) / tall) ** 2)
    return found


def _ramp(value: F, start: float, end: float) -> F:
    """0 before the start, 1 after the end, smooth between."""
    t = np.clip((value - start) / (end - start), 0.0, 1.0)
    found: F = t * t * (3 - 2 * t)
    return found


def _face(x: F, y: F, z: F) -> F:
    """What stands on the egg, millimetres: in the plane 92 mm ahead of the middle, across and up from it."""
    ahead = np.maximum(z, 0.05)
    across, up = np.abs(x) / ahead * BRIDGE_MM, y / ahead * BRIDGE_MM - EYES_UP_MM
    front = _ramp(z, 0.25, 0.6)
    # the nose: a ridge from the bridge to the tip, wider below, its foot drawn in under the tip
    share = np.clip((6.0 - up) / 40.0, 0.0, 1.1)
    high = 25.0 * share**1.2 * _ramp(up, -50.0, -36.0)
    wide = 8.5 + 8.0 * np.clip(share, 0.0, 1.0) ** 2
    nose = high * np.exp(-((across / wide) ** 2))
    # brow and sockets, eyeballs under closed lids with one edge
    arch = up - (19.0 - 0.005 * (across - 26.0) ** 2)
    brow = 3.2 * np.exp(-((arch / 11.0) ** 2)) * np.exp(-(((across - 24.0) / 30.0) ** 4))
    socket = -8.0 * _bump(across, up, (30.0, 0.0), 20.0, 14.0)
    ball = 5.5 * _bump(across, up, (31.0, -1.0), 13.0, 9.5)
    lid = np.exp(-(((across - 31.0) / 13.0) ** 4))
    edge = -1.1 * lid * np.exp(-(((up + 4.0 - 0.008 * (across - 31.0) ** 2) / 1.8) ** 2))
    # cheekbones, and where the mouth and the chin are, without lips
    cheek = 3.0 * _bump(across, up, (44.0, -26.0), 24.0, 18.0)
    mouth = 2.5 * _bump(across, up, (0.0, -70.0), 26.0, 15.0)
    groove = -1.2 * _bump(across, up, (0.0, -88.0), 28.0, 8.0)
    chin = 4.0 * _bump(across, up, (0.0, -104.0), 24.0, 15.0)
    parts = nose + brow + socket + ball + edge + cheek + mouth + groove + chin
    found: F = front * parts
    return found


def to_plane(direction: F) -> tuple[F, F]:
    """(u, v) of unit directions; straight back has none and lands far out."""
    far = np.maximum(1.0 + direction[..., 2], 1e-3)
    return direction[..., 0] / far, direction[..., 1] / far


def from_plane(u: F, v: F) -> F:
    """Unit directions (..., 3) of (u, v)."""
    s = u * u + v * v
    found: F = np.stack([2 * u, 2 * v, 1 - s], axis=-1) / (1 + s)[..., None]
    return found


def between(grid: F, u: F, v: F) -> F:
    """A grid's value at (u, v), linear between its samples; the edge's own beyond."""
    last = grid.shape[0] - 1
    across = np.clip((u + REACH) * (last / (2 * REACH)), 0, last - 0.001)
    down = np.clip((v + REACH) * (last / (2 * REACH)), 0, last - 0.001)
    i, j = across.astype(np.int32), down.astype(np.int32)
    a, b = across - i, down - j
    if grid.ndim > 2:
        a, b = a[..., None], b[..., None]
    flat = grid.reshape(grid.shape[0] * grid.shape[1], *grid.shape[2:])
    k = j * (last + 1) + i
    first = flat[k] * (1 - a) + flat[k + 1] * a
    found: F = first * (1 - b) + (flat[k + last + 1] * (1 - a) + flat[k + last + 2] * a) * b
    return found


@lru_cache(maxsize=1)
def the_head() -> Head:
    """The head and its horizons, made once a process and kept: about 0.6 s of one core.

    A server makes it at its start (`MADE_AT_START` in settings). No lock: whoever asks in that first second makes it,
    too, for a lock held while a server forks would never open again.
    """
    side = np.linspace(-REACH, REACH, FINE, dtype=np.float32)
    u, v = np.meshgrid(side, side)
    out = from_plane(u, v)
    radius = radius_mm(out)
    place = out * radius[..., None]
    along_v, along_u = np.gradient(place, axis=(0, 1))
    normal = np.cross(along_u, along_v)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    return Head(radius, normal.astype(np.float32), horizons(radius))


def horizons(radius: F, size: int = COARSE) -> F:
    """Horizons (size, size, AZIMUTHS) of a star-shaped surface whose radius is given on the grid; mirrored in x."""
    side = np.linspace(-REACH, REACH, size, dtype=np.float32)
    half = size // 2
    u, v = (a.ravel() for a in np.meshgrid(side[half:], side))
    out = from_plane(u, v)
    own = between(radius, u, v)
    right, up = frame(out)
    found = np.empty((u.size, AZIMUTHS), dtype=np.float32)
    steps = np.radians(STEPS_DEG).astype(np.float32)
    for n in range(AZIMUTHS):
        turn = 2 * np.pi * n / AZIMUTHS
        way = right * np.float32(np.cos(turn)) + up * np.float32(np.sin(turn))
        steepest = np.full(u.size, -9.0, dtype=np.float32)
        for step in steps:
            there = out * np.cos(step) + way * np.sin(step)
            far = _nearest(radius, there)
            steepest = np.maximum(steepest, (far * np.cos(step) - own) / (far * np.sin(step)))
        found[:, n] = np.arctan(steepest)
    right_half = found.reshape(size, size - half, AZIMUTHS)
    # the left half is the mirror image: azimuth turns to half a turn less itself
    mirrored = right_half[:, ::-1][..., (AZIMUTHS // 2 - np.arange(AZIMUTHS)) % AZIMUTHS]
    whole: F = np.concatenate([mirrored[:, -half:] if size % 2 == 0 else mirrored[:, :-1], right_half], axis=1)
    return whole


def _nearest(grid: F, direction: F) -> F:
    last = grid.shape[0] - 1
    u, v = to_plane(direction)
    i = np.clip((u + REACH) * (last / (2 * REACH)) + 0.5, 0, last).astype(np.int32)
    j = np.clip((v + REACH) * (last / (2 * REACH)) + 0.5, 0, last).astype(np.int32)
    found: F = grid.ravel()[j * (last + 1) + i]
    return found


def frame(out: F) -> tuple[F, F]:
    """Unit vectors (..., 3) square to directions, the way u and the way v grow: the grid's own, so no pole in front."""
    x, y, z = out[..., 0], out[..., 1], out[..., 2]
    far = np.maximum(1.0 + z, 1e-3)
    right = np.stack([1 - x * x / far, -x * y / far, -x], axis=-1)
    up = np.stack([-x * y / far, 1 - y * y / far, -y], axis=-1)
    return right.astype(np.float32), up.astype(np.float32)
