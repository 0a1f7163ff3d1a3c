"""Places of the face and sizes of bodies the plan reckons with.

Normals are bearing and elevation in degrees in the head's frame (0, 0 = along the nose, + bearing = the side of the
picture's right when the nose points at the lens). Line directions run ALONG the line. Places, offsets and line
directions are common practice, no source; body heights are ANSUR II and CDC medians (values.md A01-A38).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

F = NDArray[np.float64]


@dataclass(frozen=True)
class Place:
    """A place of the face where lines are judged; `line` is None where they run in every direction."""

    name: str
    bearing_deg: float
    elevation_deg: float
    line: str | None
    tilt_deg: float = 0.0


# The standard groove at these five normals, averaged, is the judged relief (design.md section 6).
FRONT: Final = ((0.0, 0.0), (20.0, 0.0), (-20.0, 0.0), (0.0, 15.0), (0.0, -15.0))

PLACES: Final = (
    Place("forehead", 0, 15, "across"),
    Place("between the brows", 0, 5, "upright"),
    Place("outer corner of the eye, image left", -50, 0, "across"),
    Place("outer corner of the eye, image right", 50, 0, "across"),
    Place("under the eye, image left", -25, -10, "across"),
    Place("under the eye, image right", 25, -10, "across"),
    Place("cheek, image left", -40, -5, None),
    Place("cheek, image right", 40, -5, None),
    Place("upper lip", 0, -10, "upright"),
    Place("fold beside the mouth, image left", -30, -10, "slanting", 25.0),
    Place("fold beside the mouth, image right", 30, -10, "slanting", -25.0),
    Place("chin", 0, -25, None),
    Place("neck", 0, -30, "across"),
)

# Luminous reflectance by the sitter's skin: published facial L* clusters of 26.7-64 are 0.05-0.33 (values.md K07, K08
# and light.md section 3); the steps between are interpolated, value from memory.
REFLECTANCE: Final = {
    "very light": 0.33,
    "light": 0.26,
    "intermediate": 0.20,
    "tan": 0.15,
    "brown": 0.10,
    "dark": 0.05,
    "not noted": 0.20,
}
# Beckmann roughness: 0.3 for the whole face (values.md K19); the sides of it are values from memory, kept inside the
# valid range of the relief index.
ROUGHNESS: Final = {"matte": 0.38, "usual": 0.30, "shiny": 0.25}

HEAD_HEIGHT_M: Final = 0.23  # chin to crown with a little hair; ANSUR tragion-to-top plus face length, rounded
CROWN_ABOVE_EYES_M: Final = 0.115  # stature less standing eye height, ANSUR II, rounded
SHOULDER_M: Final = 0.48  # bideltoid breadth, mean of men 509 and women 450 mm (values.md A04)
FACE_FRONT_M: Final = 0.03  # nose tip before the bridge
FACE_BEHIND_M: Final = 0.10  # ears behind the bridge
CHEEK_DEG: Final = 55.0  # where the lit and the shadow cheek are read, off the nose

# Median stature by age, both sexes averaged (values.md A27-A35 and A01), cm.
_STATURE_CM: Final = (
    (0.0, 52.0),
    (1.0, 75.0),
    (2.0, 86.0),
    (4.0, 102.0),
    (6.0, 115.0),
    (8.0, 128.0),
    (10.0, 138.5),
    (12.0, 150.5),
    (14.0, 162.0),
    (16.0, 168.0),
    (20.0, 169.0),
)
# Sitting height over stature falls with age (values.md A39): 3 y 0.578, 6 y 0.556, adult 0.515.
_SITTING_SHARE: Final = ((0.0, 0.64), (3.0, 0.578), (6.0, 0.556), (12.0, 0.53), (18.0, 0.52))


def stature_m(age_years: float) -> float:
    """Median body height in metres at an age in years (0 upward), interpolated; ANSUR II and CDC 2000 medians."""
    ages, heights = zip(*_STATURE_CM, strict=True)
    return float(np.interp(age_years, ages, heights)) / 100.0


def eye_height_m(posture: str, height_m: float, age_years: float, seat_m: float) -> float:
    """Height of the eyes above the floor in metres.

    `posture` standing | seated | wheelchair | floor | lap, `height_m` the stature, `seat_m` the seat's height.
    Standing eyes lie 0.934 of the stature up (ANSUR II: stature less 115 mm) plus 25 mm of shoe; seated ones at
    seat + sitting height - 0.115 m - 0.04 m of slump (values.md A02, A24, A39). A lap is a seat 0.15 m higher.
    Raises KeyError for an unknown posture.
    """
    ages, shares = zip(*_SITTING_SHARE, strict=True)
    sitting_eye = height_m * float(np.interp(age_years, ages, shares)) - CROWN_ABOVE_EYES_M
    above_floor = {
        "standing": 0.934 * height_m + 0.025,
        "seated": seat_m + sitting_eye - 0.04,
        "wheelchair": 0.50 + sitting_eye - 0.04,
        "floor": sitting_eye,
        "lap": seat_m + 0.15 + sitting_eye,
    }
    return above_floor[posture]


def head_matrix(nose_bearing_deg: float, chin_deg: float) -> F:
    """Rotation (3, 3) from the head's frame to the set's: first the chin (+ up), then the nose (+ camera right).

    Geometry: Ry(bearing) Rx(chin); a head-frame vector v becomes M @ v.
    """
    yaw, pitch = np.radians(nose_bearing_deg), np.radians(chin_deg)
    cy, sy, cp, sp = np.cos(yaw), np.sin(yaw), np.cos(pitch), np.sin(pitch)
    turn = np.array([[cy, 0.0, sy], [0.0, 1.0, 0.0], [-sy, 0.0, cy]])
    nod = np.array([[1.0, 0.0, 0.0], [0.0, cp, sp], [0.0, -sp, cp]])
    return np.asarray(turn @ nod, dtype=np.float64)


def line_vector(place: Place) -> F | None:
    """Unit vector along the lines at a place, in the head's frame, lying in the skin there; None = every direction."""
    if place.line is None:
        return None
    b, e = np.radians(place.bearing_deg), np.radians(place.elevation_deg)
    across = np.array([np.cos(b), 0.0, -np.sin(b)])
    upright = np.array([-np.sin(e) * np.sin(b), np.cos(e), -np.sin(e) * np.cos(b)])
    if place.line == "across":
        return across
    if place.line == "upright":
        return upright
    lean = np.radians(place.tilt_deg)
    return np.asarray(np.cos(lean) * upright + np.sin(lean) * across, dtype=np.float64)
