"""The name of the lighting pattern from where the shadow of the nose falls; our own words where the trade borrows a
painter's. What each border means on the face is said beside it; the ranges agree with values.md L13-L17."""

from __future__ import annotations

from shotplans.light import nose
from shotplans.light.units import bearing_deg, direction
from shotplans.planner import anatomy
from studio.tongue import noop

PHILTRUM_HALF_MM = 6.0  # value from memory
NOSE_HALF_MM = 15.0  # a nose 30 mm wide: the convention of light.md section 2
PUPIL_MM = 31.5  # half a pupil distance (values.md Y16)


def name(from_nose_deg: float, height_deg: float, chin_deg: float = 0.0) -> str:
    """The pattern of a key at a bearing from the nose and a height angle, the chin up by `chin_deg`; degrees.

    Flat front: the shadow of the nose's tip stays on the nose itself. Butterfly: it falls under the nose, within the
    groove of the upper lip. Loop: beside that, on the cheek. Triangle: it joins the cheek's own shadow and comes down
    to the mouth's line there, so that a patch of light is closed in below the far eye; open loop: it joins higher.
    Half-light: the far eye lies in the dark. Split: the dark reaches the side of the nose, half the face is lit. Edge:
    only a rim of the face is. Borders: geometry of a simple face [LIGHT-2] and values from memory.
    """
    to_light = anatomy.head_matrix(0.0, chin_deg).T @ direction(from_nose_deg, height_deg)
    fall = nose.shadow(to_light)
    if bool(fall.joins_cheek):
        return _joined(abs(float(bearing_deg(to_light))), float(fall.down_mm))
    below, aside = float(fall.down_mm) >= nose.BASE_DOWN_MM, abs(float(fall.right_mm))
    if aside <= (PHILTRUM_HALF_MM if below else NOSE_HALF_MM):
        return noop("butterfly") if below else noop("flat front")
    return noop("loop")


def _joined(from_nose_deg: float, down_mm: float) -> str:
    dark_from = float(nose.dark_from_deg(from_nose_deg))
    if dark_from < nose.bearing_of_deg(PUPIL_MM):
        side_of_nose = nose.bearing_of_deg(NOSE_HALF_MM)
        if dark_from > side_of_nose:
            return noop("half-light")
        return noop("split") if dark_from >= -side_of_nose else noop("edge")
    return noop("triangle") if down_mm >= nose.MOUTH_DOWN_MM else noop("open loop")


def side(nose_deg: float, from_nose_deg: float) -> str:
    """Short when the key lights the cheek turned from the camera, broad when the near one, none for a full face."""
    if abs(nose_deg) < 5 or abs(from_nose_deg) < 3:
        return "none"
    return "short" if (nose_deg > 0) == (from_nose_deg > 0) else "broad"
