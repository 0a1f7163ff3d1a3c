"""The meter round: where the meter stands, where its dome points, what is on, and the target for each reading.

Each light with a head is read alone with panels out, then key and fill together with panels in (this sets the camera),
then every face of a group, the ground, and all lights on against flare. Targets include the bounce. A reading's
uncertainty adds the head's and the bounce's (0.5 stop on the bounce share, a stated estimate).
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light.bounce import UNCERTAINTY_STOPS
from shotplans.light.units import round_to
from shotplans.planner.expect import Meter
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import bounce_plane, direct, dome, reading, toward

F = NDArray[np.float64]
TOLERANCE = {"key": 0.2, "fill": 0.2, "accent": 0.3, "background": 0.2, "setting": 0.2, "faces": 0.3, "all": 0.3}
MATCHED_TOLERANCE = 0.1
FACES_READ = 9


def meter_round(solved: Solved, meter: Meter) -> list[dict[str, Any]]:
    """The steps in the order they are done, numbered from 1."""
    matched = solved.setup.intent == "even"
    steps = [_alone(solved, meter, x, matched) for x in solved.lights if x.emitter]
    steps.append(_together(solved, meter, matched))
    steps += _faces(solved, meter)
    if solved.by_role("accent", "background"):
        steps.append(_all_on(solved, meter))
    return [{"step": n + 1, **s} for n, s in enumerate(steps)]


def _step(
    solved: Solved,
    meter: Meter,
    place: str,
    on: list[Light],
    value: float,
    *,
    kind: str,
    panels: str,
    recessed: bool,
    to_light: bool,
    sets: bool = False,
    matched: bool = False,
) -> dict[str, Any]:
    bounce = bounce_plane(on, solved.box, ()) * (1.0 if recessed else 1.5)
    share = min(1.0, bounce / max(value, 1e-12))
    head = max((x.emitter.uncertainty_stops for x in on if x.emitter), default=0.3)
    uncertainty = float(round_to(float(np.hypot(head, UNCERTAINTY_STOPS * share)), 0.1))
    return {
        "place": place,
        "dome": "recessed" if recessed else "out",
        "toward": "light" if to_light else "camera",
        "on": [x.letter for x in on],
        "panels": panels,
        "target": meter.shown(value),
        "uncertainty_stops": max(0.1, uncertainty),
        "tolerance_stops": MATCHED_TOLERANCE if matched and kind in ("key", "setting") else TOLERANCE[kind],
        "sets_camera": sets,
    }


def face_words(solved: Solved) -> str:
    """Where the meter is held for the face readings."""
    if len(solved.pose.together) > 3:
        return "at the middle of the group, at mean eye height"
    if len(solved.pose.together) > 1:
        return "between the faces, in their plane, at eye height"
    return "at the lit cheek, in the face's plane"


def _alone(solved: Solved, meter: Meter, light: Light, matched: bool) -> dict[str, Any]:
    box = solved.box
    if light.role in ("key", "fill"):
        return _step(
            solved,
            meter,
            face_words(solved),
            [light],
            meter.alone(light),
            kind=light.role,
            panels="out",
            recessed=meter.recessed,
            to_light=meter.at_key,
            matched=matched,
        )
    aim = np.array(light.aim)
    if light.role == "accent":
        value = reading(aim, toward(aim, light.at), [light], box, recessed=meter.recessed)
        place = "at the crown" if light.aim_words == "at the crown" else "at the side of the head it strikes"
        return _step(
            solved, meter, place, [light], value, kind="accent", panels="out", recessed=meter.recessed, to_light=True
        )
    even = bounce_plane([light], box, ())
    value = even + dome(direct(light, aim), light.alpha(aim), np.array([0.0, 0.0, 1.0]), True)
    return _step(
        solved,
        meter,
        "flat against the middle of the ground",
        [light],
        value,
        kind="background",
        panels="out",
        recessed=True,
        to_light=False,
    )


def _together(solved: Solved, meter: Meter, matched: bool) -> dict[str, Any]:
    on = meter.lights
    panels = "in" if meter.panels or solved.blocks else "out"
    return _step(
        solved,
        meter,
        face_words(solved),
        on,
        meter.setting(),
        kind="setting",
        panels=panels,
        recessed=meter.recessed,
        to_light=meter.at_key,
        sets=True,
        matched=matched,
    )


def _faces(solved: Solved, meter: Meter) -> list[dict[str, Any]]:
    """One reading at each face of several (for large groups the nine that say most: ends, middle, front and back)."""
    together = solved.pose.together
    if len(together) < 2:
        return []
    chosen = list(together)
    if len(chosen) > FACES_READ:
        by_x = sorted(chosen, key=lambda s: (s.face_m[0], s.face_m[2]))
        picks = np.unique(np.linspace(0, len(by_x) - 1, FACES_READ).round().astype(int))
        chosen = [by_x[i] for i in picks]
    panels = "in" if meter.panels or solved.blocks else "out"
    return [
        _step(
            solved,
            meter,
            f"at {s.person.label}'s face",
            meter.lights,
            meter.setting(np.array(s.face_m)),
            kind="faces",
            panels=panels,
            recessed=meter.recessed,
            to_light=meter.at_key,
        )
        for s in chosen
    ]


def _all_on(solved: Solved, meter: Meter) -> dict[str, Any]:
    """All lights on, at the face: nothing may have crept in from behind."""
    on = [x for x in solved.lights if x.emitter]
    mark = solved.mark_eyes
    value = reading(
        mark, meter.axis(mark), on, solved.box, panels=meter.panels, blocks=solved.blocks, recessed=meter.recessed
    )
    panels = "in" if meter.panels or solved.blocks else "out"
    return _step(
        solved,
        meter,
        face_words(solved) + ", all lights on, against flare and wrap",
        on,
        value,
        kind="all",
        panels=panels,
        recessed=meter.recessed,
        to_light=meter.at_key,
    )
