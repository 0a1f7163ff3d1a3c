"""Lenses: angle of view, field, depth of field and perspective of a thin lens.

Which lens and how far off are the planner's questions; what an aperture does to exposure is in exposure.
"""

from __future__ import annotations

import math

import numpy as np

from shotplans.light.units import F, Numbers, require_not_negative, require_positive

BLUR_36X24_MM = 0.03
BIG_PRINT_BLUR_36X24_MM = 0.02
_DIAGONAL_36X24_MM = math.hypot(36, 24)


def field_m(sensor_mm: Numbers, focal_mm: Numbers, distance_m: Numbers) -> F:
    """Width (or height) that the sensor's side sees at a focused distance, m: d (s - f) / f; any shape.

    ValueError unless above zero and the distance above the focal length. Source: thin lens [VIEW].
    """
    require_positive(sensor_mm=sensor_mm, focal_mm=focal_mm)
    beyond_focus_m = _beyond_focus_m(focal_mm, distance_m)
    return np.asarray(sensor_mm, dtype=np.float64) / focal_mm * beyond_focus_m


def distance_for_field_m(sensor_mm: Numbers, focal_mm: Numbers, field_m: Numbers) -> F:
    """Distance at which the sensor's side sees that field, m: f (1 + field / d); the inverse of `field_m`.

    Any shape; ValueError unless above zero. Source: thin lens [VIEW].
    """
    require_positive(sensor_mm=sensor_mm, focal_mm=focal_mm, field_m=field_m)
    return np.asarray(focal_mm, dtype=np.float64) * (1e-3 + np.asarray(field_m) / sensor_mm)


def depth_of_field_m(focal_mm: Numbers, f_number: Numbers, focus_m: Numbers, blur_mm: Numbers) -> tuple[F, F]:
    """Nearest and furthest sharp distance from the camera, m; the far one is inf at the hyperfocal and
    beyond.

    With H' = f^2/(N c): near = s H'/(H' + s - f), far = s H'/(H' - (s - f)). Any shape; ValueError unless
    above zero and the focus beyond the focal length. Source: exact thin lens [DOF].
    """
    require_positive(focal_mm=focal_mm, f_number=f_number, blur_mm=blur_mm)
    beyond_focus_m = _beyond_focus_m(focal_mm, focus_m)
    reach_m = _reach_m(focal_mm, f_number, blur_mm)
    focus = np.asarray(focus_m, dtype=np.float64)
    left = reach_m - beyond_focus_m
    far: F = np.where(left > 0, focus * reach_m / np.where(left > 0, left, 1.0), np.inf)
    return focus * reach_m / (reach_m + beyond_focus_m), far[()]


def blur_mm(sensor_width_mm: float, sensor_height_mm: float, big_print: bool) -> float:
    """Widest blur circle taken as sharp, mm on the sensor: 0.03 for 36 x 24, 0.02 for a big print.

    Scales with the sensor's diagonal. ValueError unless above zero. Source: [BLUR]; that a big print asks for
    0.02 is common practice, no source.
    """
    require_positive(sensor_width_mm=sensor_width_mm, sensor_height_mm=sensor_height_mm)
    full_frame_mm = BIG_PRINT_BLUR_36X24_MM if big_print else BLUR_36X24_MM
    return full_frame_mm * math.hypot(sensor_width_mm, sensor_height_mm) / _DIAGONAL_36X24_MM


def aperture_for_depth(
    focal_mm: Numbers, focus_m: Numbers, front_m: Numbers, behind_m: Numbers, blur_mm: Numbers
) -> F:
    """Smallest f-number that keeps a zone sharp, `front_m` before and `behind_m` behind the focus.

    The greater of f^2 a/(c n (s - f)) for the near end n = s - a and f^2 b/(c r (s - f)) for the far end r =
    s + b: the limits of `depth_of_field_m` solved for N. Any shape; `behind_m` may be inf. ValueError below
    zero, or where the zone reaches the camera. Source: exact thin lens [DOF].
    """
    require_positive(focal_mm=focal_mm, blur_mm=blur_mm)
    require_not_negative(front_m=front_m, behind_m=behind_m)
    focus, behind = np.asarray(focus_m, dtype=np.float64), np.asarray(behind_m, dtype=np.float64)
    near = focus - front_m
    require_positive(near_end_m=near)
    per_share = _reach_m(focal_mm, 1.0, blur_mm) / _beyond_focus_m(focal_mm, focus_m)
    endless = np.isinf(behind)
    far_share = np.where(endless, 1.0, behind / np.where(endless, 1.0, focus + behind))
    found: F = per_share * np.maximum(front_m / near, far_share)
    return found


def focus_for_depth_m(nearest_m: Numbers, furthest_m: Numbers) -> F:
    """Focus distance that holds a zone sharp with the widest aperture, m: 2 n r / (n + r), the harmonic mean.

    `nearest_m` and `furthest_m` from the camera; any shape. There both ends of `aperture_for_depth` ask for the same
    f-number; a third of the way in is the place only for one ratio of the two. ValueError unless above zero and the
    furthest at least as far as the nearest. Source: exact thin lens [DOF], its two limits set equal.
    """
    require_positive(nearest_m=nearest_m)
    require_not_negative(depth_m=np.asarray(furthest_m, dtype=np.float64) - nearest_m)
    near, far = np.asarray(nearest_m, dtype=np.float64), np.asarray(furthest_m, dtype=np.float64)
    found: F = 2 * near * far / (near + far)
    return found


def size_on_print(size_m: Numbers, print_width: Numbers, field_width_m: Numbers) -> F:
    """How large a thing in the picture comes out on a print, in the print's own unit: width x size / field.

    Any shape; ValueError unless above zero. Source: similar figures; a worked value of the trade is feature row 30.
    """
    require_positive(size_m=size_m, print_width=print_width, field_width_m=field_width_m)
    found: F = np.asarray(print_width, dtype=np.float64) * size_m / field_width_m
    return found


def perspective_gain(distance_m: Numbers, nearer_m: Numbers) -> F:
    """How much larger a part of the face looks for standing nearer: 1 + a / d, d from camera to that part.

    Any shape; ValueError unless d > 0 and a >= 0. Source: pinhole (value from memory), agrees with [NOSE].
    """
    require_positive(distance_m=distance_m)
    require_not_negative(nearer_m=nearer_m)
    return 1 + np.asarray(nearer_m, dtype=np.float64) / distance_m


def _reach_m(focal_mm: Numbers, f_number: Numbers, blur_mm: Numbers) -> F:
    """f^2 / (N c) in metres: the hyperfocal distance counted from the front focal point."""
    found: F = np.square(np.asarray(focal_mm, dtype=np.float64)) / (np.asarray(f_number) * blur_mm) / 1000
    return found


def _beyond_focus_m(focal_mm: Numbers, focus_m: Numbers) -> F:
    beyond = np.asarray(focus_m, dtype=np.float64) - np.asarray(focal_mm) / 1000
    require_positive(focus_distance_beyond_the_focal_length_m=beyond)
    return beyond
