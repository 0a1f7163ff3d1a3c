"""The readings of the meter round as values: where each is taken, what is on, and what the meter will read there.

Each light with a head is read alone with panels out, then key and fill together with panels in (this sets the camera),
then every face of a group, the ground, and all lights on against flare. How they are printed is in rounds.py, how sure
they are in uncertainty.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.planner import behind
from shotplans.planner.accent import on_hair
from shotplans.planner.expect import Meter
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import reading, toward
from studio.tongue import gettext as _
from studio.tongue import noop

F = NDArray[np.float64]
FACES_READ = 9
FACING_CAMERA = np.array([0.0, 0.0, 1.0])
AT_FACE, ALL_ON = noop("at {label}'s face"), noop("{place}, all lights on, against flare and wrap")


@dataclass(frozen=True)
class Step:
    """One reading: `kind` is key, fill, accent, background, setting, faces or all; `value` the exposure read."""

    kind: str
    place: str
    point: F
    axis: F
    on: tuple[Light, ...]
    panels_in: bool
    recessed: bool
    to_light: bool
    value: float

    @property
    def alone(self) -> Light | None:
        """The one light that is read, where panels are out and nothing else is on."""
        return self.on[0] if len(self.on) == 1 and self.kind not in ("setting", "faces", "all") else None


def steps(solved: Solved, meter: Meter) -> list[Step]:
    """All readings in the order they are taken."""
    white = solved.ground is not None and solved.ground.wanted[0] >= 95  # such a set is built ground first
    order = sorted(solved.lights, key=lambda x: white and x.role != "background")
    found = [_alone(solved, meter, x) for x in order if x.emitter]
    found.append(setting(solved, meter))
    found += _faces(solved, meter)
    if solved.by_role("accent", "background"):
        found.append(_all_on(solved, meter))
    return found


def setting(solved: Solved, meter: Meter) -> Step:
    """The reading that sets the camera: key, fill and panels, at the mark."""
    mark = solved.mark_eyes
    place = face_words(solved)
    return Step(
        "setting", place, mark, meter.axis(mark), tuple(meter.lights), True, meter.recessed, meter.at_key,
        meter.setting(),
    )  # fmt: skip


def face_words(solved: Solved) -> str:
    """Where the meter is held for the face readings."""
    if len(solved.pose.together) > 3:
        return _("at the middle of the group, at mean eye height")
    if len(solved.pose.together) > 1:
        return _("between the faces, in their plane, at eye height")
    return _("at the lit cheek, in the face's plane")


def face_place(label: str) -> str:
    """Where the meter is held for one face."""
    return _(AT_FACE).format(label=label)


def _alone(solved: Solved, meter: Meter, light: Light) -> Step:
    point, axis, recessed, to_light = solved.mark_eyes, meter.axis(solved.mark_eyes), meter.recessed, meter.at_key
    place = face_words(solved)
    if light.role == "accent":
        point = np.array(light.aim)
        axis, to_light = toward(point, light.at), True
        place = _("at the crown") if on_hair(light, solved.mark_eyes) else _("at the side of the head it strikes")
    elif light.role == "background":
        point, axis, recessed, to_light = np.array(light.aim), FACING_CAMERA, True, False
        place = _("flat against the middle of the ground")
    value = reading(point, axis, [light], solved.box, recessed=recessed)
    return Step(light.role, place, point, axis, (light,), False, recessed, to_light, value)


def _faces(solved: Solved, meter: Meter) -> list[Step]:
    """One reading at each face of several (for large groups the nine that say most: ends, middle, front and back)."""
    chosen = list(solved.pose.together)
    if len(chosen) < 2:
        return []
    if len(chosen) > FACES_READ:
        by_x = sorted(chosen, key=lambda s: (s.face_m[0], s.face_m[2]))
        picks = np.unique(np.linspace(0, len(by_x) - 1, FACES_READ).round().astype(int))
        chosen = [by_x[i] for i in picks]
    found = []
    for s in chosen:
        face = np.array(s.face_m)
        found.append(
            Step(
                "faces", face_place(s.person.label), face, meter.axis(face), tuple(meter.lights), True, meter.recessed,
                meter.at_key, meter.setting(face),
            )
        )  # fmt: skip
    return found


def _all_on(solved: Solved, meter: Meter) -> Step:
    """All lights on, at the face: nothing may have crept in from behind."""
    on = tuple(x for x in solved.lights if x.emitter)
    mark = solved.mark_eyes
    place = _(ALL_ON).format(place=face_words(solved))
    return Step("all", place, mark, meter.axis(mark), on, True, meter.recessed, meter.at_key, behind.all_on(meter))
