"""What holds each light: the least stand that carries it, or a boom where a column would stand in the picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from shotplans.light import rigging
from shotplans.planner import kit as owned
from shotplans.planner.candidates import ABOVE_SPIGOT_M
from shotplans.planner.frame import Camera
from shotplans.planner.people import Seated
from shotplans.planner.plan import Mounting
from shotplans.planner.space import Box

F = NDArray[np.float64]
COUNTER_ARM_SHARE = 1 / 3  # of the boom's reach, where its maker's figure is not known: common practice
PANEL_KG = 3.0  # a panel with its arm; value from memory
BODY_CLEAR_M = 0.55
OVERHEAD_M = 0.6  # an arm that passes a face nearer than this, seen from above, is over that sitter: common practice
INFANT_YEARS, OLDER_YEARS = 4.0, 65.0  # nothing is boomed over those younger or older: common practice


@dataclass(frozen=True)
class Site:
    """What a mounting must respect: camera, room, where people are (n, 3), and over whom no arm may reach (n, 3)."""

    camera: Camera
    box: Box
    faces: F
    never_under: F = field(default_factory=lambda: np.empty((0, 3)))


def mount(
    position: F, backward: F, back_m: float, mass_kg: float, stands: Sequence[owned.Stand], site: Site
) -> Mounting | None:
    """The mounting for a light at `position` whose body reaches `back_m` along `backward`, or None.

    A plain stand is tried first (smallest that reaches), then a boom with the shortest arm whose column is out of
    the picture, off the keep-out strips and clear of people, and which reaches over no infant or older sitter.
    """
    height = float(position[1])
    flat = np.array([backward[0], 0.0, backward[2]])
    foot = position + flat * back_m
    plain = sorted(
        (s for s in stands if s.kind == "stand" and _carries(s, height, mass_kg)),
        key=lambda s: (s.max_height_m, s.max_load_kg, s.id),
    )
    if plain and _free(foot, height, site):
        return Mounting(plain[0].id, False, (_cm(foot[0]), _cm(foot[2])), 0.0, 0.0)
    for boom in sorted((s for s in stands if s.kind == "boom"), key=lambda s: (s.max_load_kg, s.id)):
        if _carries(boom, height, mass_kg):
            found = _boom(boom, position, height, mass_kg, site)
            if found is not None:
                return found
    return None


def _carries(stand: owned.Stand, height: float, mass_kg: float) -> bool:
    return (
        mass_kg <= stand.max_load_kg
        and stand.min_height_m - 0.05 <= height
        and height <= stand.max_height_m + ABOVE_SPIGOT_M + 1e-9
    )


def _free(foot: F, height: float, site: Site) -> bool:
    if bool(site.camera.column_seen(np.asarray(foot[0]), np.asarray(foot[2]), np.asarray(height))):
        return False
    if float(site.box.foot_over(np.asarray(foot[0]), np.asarray(foot[2]))) > 1e-9:
        return False
    near_people = np.hypot(site.faces[:, 0] - foot[0], site.faces[:, 2] - foot[2]).min() < 0.35
    near_camera = np.hypot(foot[0], foot[2] - site.camera.distance_m) < 0.30
    return not (near_people or near_camera)


def counter_arm_m(boom: owned.Stand) -> float:
    """Length of a boom's short end, m: a third of its reach, where its maker's figure is not known: common practice."""
    return max(0.2, float(boom.reach_m or 0.0) * COUNTER_ARM_SHARE)


def arm_centre_m(boom: owned.Stand) -> float:
    """Where an arm's own weight lies from the column, + toward the light, fully out and as heavy all along, m."""
    return float(rigging.boom_centre_m(float(boom.reach_m or 0.0), counter_arm_m(boom)))


def never_under(seated: Sequence[Seated]) -> F:
    """Faces (n, 3) of those over whom nothing is boomed: infants and older sitters."""
    ages = [(s, s.person.sitter.age_years) for s in seated]
    found = [s.face_m for s, age in ages if age is not None and (age < INFANT_YEARS or age >= OLDER_YEARS)]
    return np.array(found, dtype=np.float64).reshape(-1, 3)


def overhead_short_m(foot: F, position: F, counter_m: float, faces: F) -> float:
    """How much farther an arm, from its short end to the light, should pass from the nearest face, m; 0 when clear."""
    if not len(faces):
        return 0.0
    start, end = np.array([foot[0], foot[-1]]), np.array([position[0], position[2]])
    way = end - start
    start = start - way / max(float(np.linalg.norm(way)), 1e-9) * counter_m
    way, at = end - start, faces[:, [0, 2]] - start
    along = np.clip(at @ way / max(float(way @ way), 1e-9), 0.0, 1.0)
    near = float(np.linalg.norm(at - along[:, None] * way, axis=1).min())
    return max(0.0, OVERHEAD_M - near)


def _boom(boom: owned.Stand, position: F, height: float, mass_kg: float, site: Site) -> Mounting | None:
    reach, counter_m = float(boom.reach_m or 0.0), counter_arm_m(boom)
    for arm in np.arange(0.4, reach + 1e-9, 0.1):
        for turn in np.arange(0.0, 360.0, 15.0):
            # Sideways first, then behind: the order of turns is fixed so that equal input gives equal output.
            angle = np.radians(90.0 + turn) * (1.0 if position[0] >= 0 else -1.0)
            foot = position + arm * np.array([np.sin(angle), 0.0, np.cos(angle)])
            clear = np.hypot(site.faces[:, 0] - foot[0], site.faces[:, 2] - foot[2]).min() > BODY_CLEAR_M
            over = overhead_short_m(foot, position, counter_m, site.never_under)
            if clear and over == 0 and _free(foot, height, site):
                weight = float(
                    rigging.counterweight_kg(
                        mass_kg, float(arm), counter_m, float(boom.arm_kg or 0.0), arm_centre_m(boom)
                    )
                )
                return Mounting(boom.id, True, (_cm(foot[0]), _cm(foot[2])), _cm(float(arm)), round(weight + 0.049, 1))
    return None


def _cm(value: float) -> float:
    return round(float(value), 2) + 0.0
