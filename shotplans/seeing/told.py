"""What a picture of a head or an eye is told by in numbers: the nose's shadow, how high a light may stand for an eye to
mirror it, how much of a lens it covers.

Belongs here: these numbers for a placed light. Not here: the pictures, or the sentences.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from shotplans.light import eyes, glasses, shadows
from shotplans.light.units import bearing_deg, height_deg
from shotplans.planner import anatomy
from shotplans.planner.expect import NOSE_GAP_M
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light

STRIP = 1.5  # times as long as wide: upright and level edges are told apart; own convention
AHEAD_DEG = 10.0  # of a nose off the lens: so far the highest light of a head that faces it holds; own convention


@dataclass(frozen=True)
class NoseShadow:
    """Share of the key left in its middle; widths (mm) of upright and of level edges, where a strip draws two kinds."""

    core: float
    edges_mm: tuple[float, float] | None


def nose_shadow(key: Light) -> NoseShadow:
    """The shadow a key throws of a nose as `light.shadows` has it: a bar 30 mm wide, 40 mm off; edges 30 mm off."""
    assert key.emitter is not None
    core = shadows.core_share(key.disc_size_m, key.distance_m)
    sides = key.emitter.even_sides
    if key.emitter.disc or max(sides) < STRIP * min(sides):
        return NoseShadow(core, None)
    upright, level = (
        shadows.edge_width_mm(sides, key.distance_m, NOSE_GAP_M, key.emitter.roll_deg + turned) for turned in (0, 90)
    )
    return NoseShadow(core, (upright, level))


def too_high_by(light: Light, sitter: Seated, image_side: str) -> tuple[float, float] | None:
    """Degrees up from which an eye mirrors a light at its bearing, at most, and how high it stands; None where it is
    not too high, or the head does not face the lens.
    """
    if abs(sitter.nose_deg) > AHEAD_DEG or abs(sitter.chin_deg) > AHEAD_DEG:
        return None
    way = (light.at - np.array(sitter.face_m)) @ anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    side = 1.0 if image_side == "right" else -1.0
    most = eyes.highest_light_deg(side * float(bearing_deg(way)), sitter.person.brow_mm)
    stands = float(height_deg(way))
    return (most, stands) if stands > most else None


def covered(light: Light, sitter: Seated, camera_m: np.ndarray) -> dict[str, float]:
    """Share of each lens of somebody's glasses that a light covers, by the side of the picture; none that it misses."""
    if sitter.person.base_dioptre is None:
        return {}
    face = np.array(sitter.face_m)
    found = {}
    for name, side in (("left", -1.0), ("right", 1.0)):
        cover = glasses.covered_share(
            (light.at - face) * 1000, light.glare_size_m * 1000, (camera_m - face) * 1000, side=side,
            yaw_deg=sitter.nose_deg, pitch_deg=sitter.chin_deg, base_dioptre=float(sitter.person.base_dioptre),
        )  # fmt: skip
        if cover.share > 0:
            found[name] = cover.share
    return found
