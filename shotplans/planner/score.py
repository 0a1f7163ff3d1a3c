"""Step 2, second half: how near a candidate key comes to the brief, 0 to 1; here the parts and the cheap score of all.

The parts and their weights are rules of taste (common practice, no source); the quantities they judge are physics.
The cheap score stands in for relief, catchlights and evenness with closed approximations; judge.py computes them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.planner.candidates import BOOM_COST, ISO_COST, STEADY_ISO_COST, Grid, Limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.intents import Band
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose

F = NDArray[np.float64]
WEIGHTS = {
    "nose": 0.18,
    "camera": 0.10,
    "height": 0.14,
    "source": 0.17,
    "relief": 0.16,
    "catch": 0.12,
    "faces": 0.06,
    "side": 0.04,
    "sway": 0.03,
}
SLACK = {"nose": 9.0, "camera": 10.0, "height": 7.0, "source": 10.0, "relief": 0.30}
# A key one would rather not use where another does as well: an umbrella spills over the room, a strip is long one way,
# a bare reflector is hot near by.
KIND_COST = {
    "umbrella_back": 0.012,
    "umbrella_through": 0.015,
    "strip": 0.03,
    "reflector": 0.03,
    "snoot": 0.05,
    "lantern": 0.03,
}
EVEN_AIM_STOPS = 0.3
FEATHER_COST = 0.0005  # for a degree of it: a light is aimed past the faces only where that evens them
MID_TASTE = 0.08  # inside a band the middle is liked this much more than the edge


@dataclass(frozen=True)
class PoseArrays:
    """The people of one pose as arrays over k people."""

    face: F
    nose: F
    chin: F
    minds: F
    reflectance: F
    roughness: F
    brow: F
    base: tuple[float | None, ...]


def pose_arrays(pose: Pose, targets: Targets, order: list[int]) -> PoseArrays:
    """Arrays of a pose; people in turn are all seen at the first one's place. `order` gives minds by person index."""
    home = pose.seated[0].face_m
    minds = np.array([targets.minds[order.index(s.person.index)] for s in pose.seated])
    return PoseArrays(
        face=np.array([home if pose.in_turn else s.face_m for s in pose.seated]),
        nose=np.array([s.nose_deg for s in pose.seated]),
        chin=np.array([s.chin_deg for s in pose.seated]),
        minds=minds / minds.sum(),
        reflectance=np.array([s.person.reflectance for s in pose.seated]),
        roughness=np.array([s.person.roughness for s in pose.seated]),
        brow=np.array([s.person.brow_mm for s in pose.seated]),
        base=tuple(s.person.base_dioptre for s in pose.seated),
    )


def fit(value: F, band: Band, slack: float) -> F:
    """1 in the middle of a band, a little less at its edges, falling as a bell outside with the given slack."""
    half = max(1e-6, 0.5 * (band.high - band.low))
    inside = 1.0 - MID_TASTE * np.minimum(1.0, ((value - band.mid) / half) ** 2)
    out = np.maximum(np.maximum(band.low - value, value - band.high), 0.0)
    return np.asarray(inside * np.exp(-((out / slack) ** 2)), dtype=np.float64)


def camera_band(pose: PoseArrays, targets: Targets, view: str) -> Band:
    """The wanted camera bearing: the intent's own, or the nose's turn plus its band when the brief turns the head."""
    if view in ("three_quarter", "profile"):
        turn = float(np.abs(pose.nose).mean())
        return Band(turn + targets.row.nose.low, turn + targets.row.nose.high)
    return targets.row.camera


def side_part(pose: PoseArrays, targets: Targets) -> float:
    """How well a single pose serves the wished side: short or broad light, better side toward the camera."""
    part = 1.0
    if len(pose.nose) == 1 or np.ptp(pose.nose) == 0:
        turn = float(pose.nose[0])
        if turn:
            part -= 0.5 * abs(targets.short_side) * (np.sign(turn) != np.sign(targets.short_side))
        shown = "own_left" if turn < 0 else "own_right"
        if targets.better in ("own_left", "own_right") and turn and shown != targets.better:
            part -= 0.5
    elif targets.fairer_far and len(pose.nose) == 2:
        far_is_fairer = pose.reflectance[0] > pose.reflectance[1]
        part -= 0.0 if far_is_fairer else 0.5
    return float(part)


@dataclass(frozen=True)
class Scope:
    """One front on the grid, and what it is judged by; the head behind it is no part of that."""

    g: Grid
    emitter: Emitter
    poses: tuple[PoseArrays, ...]
    targets: Targets
    camera: Camera
    view: str

    @property
    def together(self) -> bool:
        """Whether several faces are lit at once, so that how even they are counts."""
        return bool(np.ptp(self.poses[0].face, axis=0).max() > 0)


def of_place(g: Grid, pose: PoseArrays, targets: Targets, view: str) -> F:
    """What the cheap score says of every placement whatever the source; parts of one step are reckoned once."""
    row, (d, b, h) = targets.row, g.axes
    heavy = [k for k in range(len(pose.minds)) if pose.minds[k] > 0.02] or list(range(len(pose.minds)))
    nose = sum(pose.minds[k] * fit(np.abs(b - pose.nose[k]), row.nose, SLACK["nose"]) for k in heavy)
    nose = nose / pose.minds[heavy].sum()
    by_bearing = WEIGHTS["nose"] * nose + WEIGHTS["camera"] * fit(b, camera_band(pose, targets, view), SLACK["camera"])
    by_height = WEIGHTS["height"] * fit(h, row.height, SLACK["height"])
    by_distance = WEIGHTS["sway"] * sway_part(d) + WEIGHTS["side"] * side_part(pose, targets)
    bb, hh = b[:, None], h[None, :]
    theta = np.degrees(np.arccos(np.clip(np.cos(np.radians(hh)) * np.cos(np.radians(bb - _minded(pose))), -1, 1)))
    rough = np.interp(theta, [0, 20, 30, 45, 60, 75, 90], [0.45, 0.55, 0.70, 0.95, 1.25, 1.9, 2.5])
    rough = rough * (1 - 0.8 * 2.0**-row.fill.mid)
    by_angle = WEIGHTS["relief"] * fit(rough, row.relief, SLACK["relief"]) + by_bearing[:, None] + by_height[None, :]
    by_angle = by_angle + WEIGHTS["catch"] * np.clip((58.0 - hh) / 15.0, 0, 1) * np.clip((100.0 - bb) / 30.0, 0, 1)
    total = (by_distance[:, None, None] + by_angle[None]).ravel()
    if len(pose.face) > 1 and np.ptp(pose.face, axis=0).max() > 0:
        total = total + WEIGHTS["faces"] * faces_part(_point_spread(g, pose, row.fill.mid), row.faces_stops)
        return np.asarray(total, dtype=np.float64)
    return np.asarray(total + WEIGHTS["faces"], dtype=np.float64)


def of_front(scope: Scope, glass: F | None) -> F:
    """What the cheap score adds for a front at every placement; `glass` is `glass_reach` of the pose."""
    d = scope.g.axes[0]
    alpha = np.degrees(np.arctan(scope.emitter.glare_size_m / (2 * d)))
    size = WEIGHTS["source"] * fit(2 * np.degrees(scope.emitter.alpha(d)), scope.targets.row.source, SLACK["source"])
    added = np.repeat(size - kind_cost(scope), len(scope.g.distance_m) // len(d))
    if glass is None:
        return added
    # A penalty where a lens would plainly mirror the light.
    inside = glass + np.repeat(alpha, len(added) // len(d))
    return np.asarray(added - 0.25 * np.clip(inside / 12.0, 0.0, 1.0), dtype=np.float64)


def glass_reach(g: Grid, pose: PoseArrays) -> F | None:
    """Degrees each placement lies inside where worn lenses mirror a point to the camera; None if nobody wears any.

    The trade's form: the lower edge of a light above 3 + 2 x chin-up is clear.
    """
    worn = [k for k, base in enumerate(pose.base) if base is not None]
    if not worn:
        return None
    inside = [
        np.minimum(4.0 + 2 * pose.chin[k] - g.height_deg, 38.0 - np.abs(g.bearing_deg - 2 * pose.nose[k])) for k in worn
    ]
    return np.asarray(np.maximum.reduce(inside), dtype=np.float64)


def kind_cost(scope: Scope) -> float:
    """What a kind of source one would rather not use costs."""
    # over a group the spill of an umbrella is what one wants, and there is no near face for a small source to burn
    spread = len(scope.poses[0].face) > 3 and scope.together
    return 0.0 if spread else KIND_COST.get(str(scope.emitter.modifier.kind), 0.0)


def standing_cost(emitter: Emitter, lim: Limits) -> F:
    """What each placement costs whatever the pose: ISO raised, a boom."""
    iso = STEADY_ISO_COST if emitter.steady else ISO_COST
    return np.asarray(iso * lim.iso_up + BOOM_COST * lim.boom, dtype=np.float64)


def _minded(pose: PoseArrays) -> float:
    return float(pose.nose[int(np.argmax(pose.minds))])


def sway_part(distance_m: F) -> F:
    # 5 cm of lean against the distance: 0.1 stop at 1.5 m (values.md P37, inverse square)
    return np.asarray(np.exp(-((2 * np.log2((distance_m + 0.05) / distance_m) / 0.25) ** 2)), dtype=np.float64)


def faces_part(spread: F, limit: float) -> F:
    """How even the faces are: 0.3 stop is aimed at, whatever the limit (common practice, no source)."""
    aim = min(limit, EVEN_AIM_STOPS)
    return np.asarray(np.exp(-((np.maximum(spread - 0.5 * aim, 0.0) / aim) ** 2)), dtype=np.float64)


def _point_spread(g: Grid, pose: PoseArrays, fill: float) -> F:
    """Evenness over the outermost faces with the key as a point, in stops."""
    middle = np.array([0.0, pose.face[:, 1].mean(), 0.0])
    ends = {
        int(np.argmin(pose.face[:, 0])),
        int(np.argmax(pose.face[:, 0])),
        int(np.argmin(pose.face[:, 2])),
        int(np.argmax(pose.face[:, 2])),
    }
    levels = []
    for k in sorted(ends):
        offset = pose.face[k] - middle
        near = g.distance_m**2 - 2 * g.distance_m * (g.toward @ offset) + float(offset @ offset)
        levels.append(g.distance_m**2 / np.maximum(near, 1e-3) + 2.0**-fill)
    stacked = np.stack(levels)
    return np.asarray(np.log2(stacked.max(axis=0) / stacked.min(axis=0)), dtype=np.float64)
