"""What holds each light: the least stand that carries it, or a boom where a column would stand in the picture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import rigging
from shotplans.planner import kit as owned
from shotplans.planner.candidates import ABOVE_SPIGOT_M
from shotplans.planner.frame import Camera
from shotplans.planner.plan import Mounting
from shotplans.planner.space import Box

F = NDArray[np.float64]
COUNTER_ARM_SHARE = 1 / 3  # of the boom's reach, where its maker's figure is not known: common practice
PANEL_KG = 3.0  # a panel with its arm; value from memory
BODY_CLEAR_M = 0.55


@dataclass(frozen=True)
class Site:
    """What a mounting must respect: camera, room, and where people are (n, 3)."""

    camera: Camera
    box: Box
    faces: F


def mount(
    position: F, backward: F, back_m: float, mass_kg: float, stands: Sequence[owned.Stand], site: Site
) -> Mounting | None:
    """The mounting for a light at `position` whose body reaches `back_m` along `backward`, or None.

    A plain stand is tried first (smallest that reaches), then a boom with the shortest arm whose column is out of
    the picture, off the keep-out strips and clear of people.
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


def _boom(boom: owned.Stand, position: F, height: float, mass_kg: float, site: Site) -> Mounting | None:
    reach = float(boom.reach_m or 0.0)
    for arm in np.arange(0.4, reach + 1e-9, 0.1):
        for turn in np.arange(0.0, 360.0, 15.0):
            # Sideways first, then behind: the order of turns is fixed so that equal input gives equal output.
            angle = np.radians(90.0 + turn) * (1.0 if position[0] >= 0 else -1.0)
            foot = position + arm * np.array([np.sin(angle), 0.0, np.cos(angle)])
            clear = np.hypot(site.faces[:, 0] - foot[0], site.faces[:, 2] - foot[2]).min() > BODY_CLEAR_M
            if clear and _free(foot, height, site):
                counter = float(rigging.counterweight_kg(mass_kg, float(arm), max(0.2, reach * COUNTER_ARM_SHARE)))
                return Mounting(boom.id, True, (_cm(foot[0]), _cm(foot[2])), _cm(float(arm)), round(counter + 0.049, 1))
    return None


def _cm(value: float) -> float:
    return round(float(value), 2) + 0.0
