"""Where a key is pointed: at the face, between the faces, or past the near one, and how that is said on set."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shotplans.light.units import direction
from shotplans.planner.candidates import tangents
from shotplans.planner.key import Choice
from shotplans.planner.people import Seated
from shotplans.planner.plan import Point

F = NDArray[np.float64]
AT_DEG = 2.5  # half of the step an aim is set by


def of_key(choice: Choice, at: Point) -> tuple[Point, str]:
    """The aimed point, as far from the front as the mark's eyes are, and its words. Canonical set."""
    together = choice.pose.together
    eyes = (0.0, round(choice.pose.eye_m, 3), 0.0)
    hung = _hung(choice)
    if not choice.feather_deg:
        return eyes, ("between the faces" if len(together) > 1 else "at the bridge of the nose") + hung
    toward = np.asarray(direction(choice.bearing_deg, choice.height_deg), dtype=np.float64)
    across, _ = tangents(toward)
    turn = np.radians(choice.feather_deg)
    x, y, z = np.array(at) - choice.distance_m * (np.cos(turn) * toward + np.sin(turn) * across)
    aim = (round(float(x), 2) + 0.0, round(float(y), 2) + 0.0, round(float(z), 2) + 0.0)
    return aim, _words(choice.feather_deg, np.array(at), np.array(eyes), together) + hung


def _hung(choice: Choice) -> str:
    """How a front that is not hung as it is owned lies."""
    if not choice.emitter.roll_deg:
        return ""
    return f", its long side {'level' if choice.emitter.width_m > choice.emitter.height_m else 'upright'}"


def _words(feather_deg: float, at: F, eyes: F, together: Sequence[Seated]) -> str:
    """An aim past the middle, by the one who sits farthest from the light."""
    far = max(together, key=lambda s: (round(float(np.linalg.norm(np.array(s.face_m) - at)), 6), s.person.index))
    middle, face = eyes - at, np.array(far.face_m) - at
    cos = float(middle @ face / np.linalg.norm(middle) / np.linalg.norm(face))
    beyond = feather_deg - float(np.degrees(np.arccos(np.clip(cos, -1.0, 1.0))))
    past = f"{feather_deg:.0f} degrees past the middle"
    if abs(beyond) <= AT_DEG:
        return f"{past}, at {far.person.label}'s far cheek"
    return f"{past}, toward {far.person.label}" if beyond < 0 else f"{past}, beyond {far.person.label}"
