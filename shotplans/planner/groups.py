"""A group as it stands in the finished plan: how wide and deep, who is hidden, who is shaded by whom, where to focus.

Reckoned from the rounded placement. What is said of it is in `check_people` and `reasons_of_people`; what would mend
it in `cures`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import falloff, lenses, overlap
from shotplans.light.units import bearing_deg, height_deg
from shotplans.planner import sight
from shotplans.planner.expect import Meter
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Solved
from shotplans.planner.rows import breadth_m

F = NDArray[np.float64]
SHADED_MOST_STOPS = 0.2  # of the setting reading a face may lose to the heads before it: common practice, no source
THIRD_IN = 1.0 / 3.0


@dataclass(frozen=True)
class Shade:
    """The face that loses most of a light to another's head: share of the light, stops of the setting reading."""

    light: Light
    label: str
    by: str
    share: float
    stops: float
    height_deg: float
    clear_height_deg: float


def is_group(solved: Solved) -> bool:
    """Whether people stand in the picture in rows: more than three, or two and three in a picture framed as a group."""
    together = len(solved.pose.together)
    return together > 3 or (solved.setup.framing == "group" and together > 1)


def width_m(seated: tuple[Seated, ...]) -> float:
    """From the outer side of the first body to that of the last, in metres."""
    sides = [(s.face_m[0], breadth_m(s.person) / 2) for s in seated]
    return max(x + half for x, half in sides) - min(x - half for x, half in sides)


def depth_m(seated: tuple[Seated, ...]) -> float:
    """From the nearest bridge of a nose to the furthest, in metres."""
    zs = [s.face_m[2] for s in seated]
    return max(zs) - min(zs)


def hidden(solved: Solved) -> list[tuple[Seated, Seated, float]]:
    """Who is hidden behind whom from the lens, and how much of the face, the worst first; only what is not clear."""
    together = solved.pose.together
    lost = sight.hidden(sight.bodies(together), solved.camera.at)
    order = sorted(range(len(together)), key=lambda n: (-lost.share[n], together[n].person.index))
    return [
        (together[n], together[int(lost.by[n])], float(lost.share[n]))
        for n in order
        if lost.share[n] > sight.CLEAR_SHARE
    ]


def shade(solved: Solved, meter: Meter, light: Light) -> Shade | None:
    """The face that loses most of the setting reading to a head between it and a light; None where none loses any."""
    together = solved.pose.together
    if len(together) < 2:
        return None
    where = tuple((s.person.label, s.face_m, s.body_deg) for s in together)
    lost = light.once(
        ("shaded", where), lambda: sight.shaded(sight.bodies(together), light.at, light.disc_size_m)
    )
    if not (lost.share > 0).any():
        return None
    stops = np.zeros(len(together))
    for n in np.flatnonzero(lost.share > 0):
        face = np.array(together[n].face_m)
        part = min(0.98, meter.direct(light, face) / meter.setting(face))
        stops[n] = -np.log2(1 - part * lost.share[n])
    worst = int(np.argmax(stops))
    who, by = together[worst], together[int(lost.by[worst])]
    return Shade(
        light, who.person.label, by.person.label, float(lost.share[worst]), float(stops[worst]),
        *heights(who, by, light),
    )  # fmt: skip


def heights(who: Seated, by: Seated, light: Light) -> tuple[float, float]:
    """How high a light stands seen from a chin, and from how high on the chin sees all of it past a head, degrees.

    The chin is the first of a face to be shaded: what is clear of it is clear of the whole face.
    """
    build = who.person.build
    chin = np.array(who.face_m) - [0.0, build.face_under_eyes_m + 0.7 * build.face_half_m[1], 0.0]
    ball, to_light = np.array(by.face_m) - [0.0, 0.0, 0.08] - chin, light.at - chin
    apart = float(bearing_deg(ball)) - float(bearing_deg(to_light))
    clearing = overlap.clearing_angle_deg(
        max(float(np.linalg.norm(ball)), sight.HEAD_BALL_M * 1.05), sight.HEAD_BALL_M, light.alpha(chin)
    )
    return float(height_deg(to_light)), float(overlap.clear_height_deg(float(height_deg(ball)), apart, clearing))


@dataclass(frozen=True)
class Focus:
    """Where to focus a group: distance, f-number its depth asks for there and a third of the way in, nearest face."""

    distance_m: float
    need: float
    need_a_third_in: float
    nearest: Seated
    off_m: float


def focus(solved: Solved) -> Focus:
    """The plane that holds the group's depth with the widest aperture, against the rule of a third."""
    c = solved.camera
    near, far = c.focus_m - c.zone_m[0], c.focus_m + c.zone_m[1]
    third = near + THIRD_IN * (far - near)
    need = float(lenses.aperture_for_depth(c.focal_mm, c.focus_m, *c.zone_m, c.blur_mm))
    other = float(lenses.aperture_for_depth(c.focal_mm, third, third - near, far - third, c.blur_mm))
    plane_z = c.distance_m - c.focus_m
    nearest = min(solved.pose.together, key=lambda s: (abs(s.face_m[2] - plane_z), s.person.index))
    return Focus(c.focus_m, need, other, nearest, nearest.face_m[2] - plane_z)


def spread_raw(meter: Meter, faces: list[F]) -> float:
    """Evenness over faces in stops, not rounded: for comparing one placement with another."""
    return float(falloff.spread_stops(np.log2([meter.setting(face) for face in faces])))


def measures(solved: Solved) -> dict[str, Any] | None:
    """The `group` part of the `expected` block; None where nobody stands in rows."""
    if not is_group(solved):
        return None
    together, camera = solved.pose.together, solved.camera
    eyes = [s.face_m[1] for s in together]
    found = focus(solved)
    return {
        "width_m": round(width_m(together), 2),
        "depth_m": round(depth_m(together), 2),
        "rows": len({s.row for s in together}),
        "eyes_low_m": round(min(eyes), 2),
        "eyes_high_m": round(max(eyes), 2),
        "camera_over_mean_eyes_m": round(camera.height_m - sum(eyes) / len(eyes), 2) + 0.0,
        "focus_m": round(found.distance_m, 2),
        "focus_before_mark_m": round(camera.distance_m - found.distance_m, 2) + 0.0,
        "depth_asks_f": round(found.need, 1),
        "faces_hidden": len(hidden(solved)),
    }
