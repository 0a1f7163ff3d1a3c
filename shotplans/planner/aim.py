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
from studio.tongue import gettext as _
from studio.tongue import noop

F = NDArray[np.float64]
AT_DEG = 2.5  # half of the step an aim is set by
AIMED = {
    "between": noop("between the faces"),
    "nose": noop("at the bridge of the nose"),
    "at": noop("{by} degrees past the middle, at {far}'s far cheek"),
    "toward": noop("{by} degrees past the middle, toward {far}"),
    "beyond": noop("{by} degrees past the middle, beyond {far}"),
}


def of_key(choice: Choice, at: Point) -> tuple[Point, str]:
    """The aimed point, as far from the front as the mark's eyes are, and its words. Canonical set."""
    together = choice.pose.together
    eyes = (0.0, round(choice.pose.eye_m, 3), 0.0)
    if not choice.feather_deg:
        return eyes, _hung(choice, _(AIMED["between" if len(together) > 1 else "nose"]))
    toward = np.asarray(direction(choice.bearing_deg, choice.height_deg), dtype=np.float64)
    across = tangents(toward)[0]
    turn = np.radians(choice.feather_deg)
    x, y, z = np.array(at) - choice.distance_m * (np.cos(turn) * toward + np.sin(turn) * across)
    aim = (round(float(x), 2) + 0.0, round(float(y), 2) + 0.0, round(float(z), 2) + 0.0)
    return aim, _hung(choice, _words(choice.feather_deg, np.array(at), np.array(eyes), together))


def _hung(choice: Choice, aim: str) -> str:
    """The words of an aim, with how a front lies that is not hung as it is owned."""
    if not choice.emitter.roll_deg:
        return aim
    level = choice.emitter.width_m > choice.emitter.height_m
    return (_("{aim}, its long side level") if level else _("{aim}, its long side upright")).format(aim=aim)


def _words(feather_deg: float, at: F, eyes: F, together: Sequence[Seated]) -> str:
    """An aim past the middle, by the one who sits farthest from the light."""
    far = max(together, key=lambda s: (round(float(np.linalg.norm(np.array(s.face_m) - at)), 6), s.person.index))
    middle, face = eyes - at, np.array(far.face_m) - at
    cos = float(middle @ face / np.linalg.norm(middle) / np.linalg.norm(face))
    beyond = feather_deg - float(np.degrees(np.arccos(np.clip(cos, -1.0, 1.0))))
    way = "at" if abs(beyond) <= AT_DEG else "toward" if beyond < 0 else "beyond"
    return _(AIMED[way]).format(by=f"{feather_deg:.0f}", far=far.person.label)
