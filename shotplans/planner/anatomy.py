"""Places of the face and sizes of bodies the plan reckons with.

Normals are bearing and elevation in degrees in the head's frame (0, 0 = along the nose, + bearing = the side of the
picture's right when the nose points at the lens). Line directions run ALONG the line. Places, offsets and line
directions are common practice, no source; body heights are ANSUR II and CDC medians (values.md A01-A38).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from shotplans.light.units import bearing_deg, height_deg
from studio.tongue import noop

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
    Place(noop("forehead"), 0, 15, "across"),
    Place(noop("between the brows"), 0, 5, "upright"),
    Place(noop("outer corner of the eye, image left"), -50, 0, "across"),
    Place(noop("outer corner of the eye, image right"), 50, 0, "across"),
    Place(noop("under the eye, image left"), -25, -10, "across"),
    Place(noop("under the eye, image right"), 25, -10, "across"),
    Place(noop("cheek, image left"), -40, -5, None),
    Place(noop("cheek, image right"), 40, -5, None),
    Place(noop("upper lip"), 0, -10, "upright"),
    Place(noop("fold beside the mouth, image left"), -30, -10, "slanting", 25.0),
    Place(noop("fold beside the mouth, image right"), 30, -10, "slanting", -25.0),
    Place(noop("chin"), 0, -25, None),
    Place(noop("neck"), 0, -30, "across"),
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

GROWN_YEARS: Final = 40.0  # of whom no age is noted: the stated default

HEAD_HEIGHT_M: Final = 0.23  # chin to crown with a little hair; ANSUR tragion-to-top plus face length, rounded
CROWN_ABOVE_EYES_M: Final = 0.115  # stature less standing eye height, ANSUR II, rounded
CROWN_AND_HAIR_M: Final = 0.12  # of that, with a little hair: how far a picture and a ceiling reach over the eyes
SHOULDER_M: Final = 0.48  # bideltoid breadth, mean of men 509 and women 450 mm (values.md A04)
FACE_FRONT_M: Final = 0.03  # nose tip before the bridge
FACE_BEHIND_M: Final = 0.10  # ears behind the bridge
EYES_TURN_DEG: Final = 50.0
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


@dataclass(frozen=True)
class Build:
    """Breadths and heights of one clothed body in metres, as rows and sight lines need them.

    Shoulders across and over the elbows, chest depth; half the breadth, height and length of the head with its hair;
    half the face's breadth and height, how far its middle lies under the eyes; how far under the eyes the foot of the
    neck and the tips of the shoulders are.
    """

    shoulders_m: float
    elbows_m: float
    chest_m: float
    head_half_m: tuple[float, float, float]
    face_half_m: tuple[float, float]
    face_under_eyes_m: float
    neck_under_eyes_m: float
    tips_under_eyes_m: float


# Bideltoid breadth over stature: published for grown-ups (A04 over A01: 0.290 men, 0.277 women, their mean), for
# children 0.235 to 0.26 (A40 over A27-A35, low confidence).
_SHOULDER_SHARE: Final = ((3.0, 0.259), (6.0, 0.243), (10.0, 0.235), (13.0, 0.240), (16.0, 0.255), (20.0, 0.2834))
# The head over a grown-up's: circumference 521 mm at 6 years against 567 (A38, A14); 2 years and birth from memory.
_HEAD_SHARE: Final = ((0.0, 0.62), (2.0, 0.85), (6.0, 0.92), (16.0, 1.0))
_CLOTH_M: Final = 0.010  # indoor clothes on the shoulders (A24)
_ELBOWS_OVER_SHOULDERS: Final = 1.116  # forearm to forearm 579 and 492 over bideltoid 509 and 450 mm (A06, A04)
_CHEST_SHARE: Final = 0.1475  # chest depth 253 and 245 over stature 1755 and 1626 mm (A08, A01)
_HAIR_M: Final = 0.015  # hair around the head, value from memory
_HEAD_HALF: Final = (0.0753, 0.1150, 0.0975)  # half of head breadth A10, of chin to crown, of head length A09
_FACE_HALF: Final = (0.0693, 0.090)  # half of bizygomatic breadth A11; from chin to mid forehead
_CHIN_UNDER_EYES: Final = 0.118  # menton to sellion 123 and 113 mm (A12)
_TIPS_SHARE: Final = 0.1145  # standing eyes 0.934 of stature less acromion 1439 over 1755 and 1332 over 1626 (A16)
_NECK_SHARE: Final = 0.080  # foot of the neck, value from memory
HALF_NECK_M: Final = 0.06  # value from memory


def _at_age(age_years: float, table: tuple[tuple[float, float], ...]) -> float:
    ages, values = zip(*table, strict=True)
    return float(np.interp(age_years, ages, values))


@lru_cache(maxsize=512)
def build_of(height_m: float, age_years: float) -> Build:
    """The body of a stature in metres (above 0) at an age in years, by published shares; medians of both sexes."""
    head = _at_age(age_years, _HEAD_SHARE)
    shoulders = height_m * _at_age(age_years, _SHOULDER_SHARE)
    half = tuple(head * part + _HAIR_M for part in _HEAD_HALF)
    face = tuple(head * part for part in _FACE_HALF)
    return Build(
        shoulders_m=shoulders + _CLOTH_M,
        elbows_m=shoulders * _ELBOWS_OVER_SHOULDERS + _CLOTH_M,
        chest_m=_CHEST_SHARE * height_m + _CLOTH_M,
        head_half_m=(half[0], half[1], half[2]),
        face_half_m=(face[0], face[1]),
        face_under_eyes_m=head * _CHIN_UNDER_EYES - face[1],
        neck_under_eyes_m=max(_NECK_SHARE * height_m, head * _CHIN_UNDER_EYES),
        tips_under_eyes_m=max(_TIPS_SHARE * height_m, head * _CHIN_UNDER_EYES + 0.02),
    )


@lru_cache(maxsize=1024)
def head_matrix(nose_bearing_deg: float, chin_deg: float) -> F:
    """Rotation (3, 3) from the head's frame to the set's: first the chin (+ up), then the nose (+ camera right).

    Geometry: Ry(bearing) Rx(chin); a head-frame vector v becomes M @ v.
    """
    yaw, pitch = np.radians(nose_bearing_deg), np.radians(chin_deg)
    cy, sy, cp, sp = np.cos(yaw), np.sin(yaw), np.cos(pitch), np.sin(pitch)
    turn = np.array([[cy, 0.0, sy], [0.0, 1.0, 0.0], [-sy, 0.0, cy]])
    nod = np.array([[1.0, 0.0, 0.0], [0.0, cp, sp], [0.0, -sp, cp]])
    found = np.asarray(turn @ nod, dtype=np.float64)
    found.flags.writeable = False  # every number of a face asks for the same one
    return found


def gaze_deg(lens: F) -> tuple[F, F]:
    """Bearing and height angle in the head's frame of where eyes look, for the lens seen from them (..., 3).

    At the lens while it lies within 50 degrees of the nose, about as far as eyes turn (value from memory); beyond, as
    in a profile, straight ahead.
    """
    bearing, height = np.asarray(bearing_deg(lens)), np.asarray(height_deg(lens))
    ahead = np.abs(bearing) > EYES_TURN_DEG
    return np.where(ahead, 0.0, bearing), np.where(ahead, 0.0, height)


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
