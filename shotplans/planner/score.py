"""Step 2, second half: how near a candidate key comes to the brief, 0 to 1, cheaply for all and fully for the best.

The parts and their weights are rules of taste (common practice, no source); the quantities they judge are physics.
The cheap score stands in for relief, catchlights and evenness with closed approximations; the full one computes them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes, glasses, metering
from shotplans.light.relief import relief
from shotplans.planner import anatomy
from shotplans.planner.candidates import BOOM_COST, ISO_COST, STEADY_ISO_COST, Grid, Limits
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import Camera
from shotplans.planner.intents import Band
from shotplans.planner.notes import Targets
from shotplans.planner.people import Pose

F = NDArray[np.float64]
WEIGHTS = {
    "nose": 0.18, "camera": 0.10, "height": 0.14, "source": 0.17, "relief": 0.16, "catch": 0.12, "faces": 0.06,
    "side": 0.04, "sway": 0.03,
}
SLACK = {"nose": 9.0, "camera": 10.0, "height": 7.0, "source": 10.0, "relief": 0.30}
# A key one would rather not use where another does as well: an umbrella spills over the room, a strip is long one way,
# a bare reflector is hot near by.
KIND_COST = {"umbrella_back": 0.012, "umbrella_through": 0.015, "strip": 0.03, "reflector": 0.03, "snoot": 0.05,
             "lantern": 0.03}
MID_TASTE = 0.08  # inside a band the middle is liked this much more than the edge
RELIEF_PEOPLE = 5
GLARE_CLEAR_DEG = 1.0  # a light this far out of the glare zone is clear at what a person can set
STANDARD_ASPECT = 0.15


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


def cheap(g: Grid, emitter: Emitter, lim: Limits, pose: PoseArrays, targets: Targets, view: str) -> F:
    """The cheap score of every placement of one emitter for one pose; parts that hang on one step are reckoned once."""
    row, (d, b, h) = targets.row, g.axes
    heavy = [k for k in range(len(pose.minds)) if pose.minds[k] > 0.02] or list(range(len(pose.minds)))
    nose = sum(pose.minds[k] * fit(np.abs(b - pose.nose[k]), row.nose, SLACK["nose"]) for k in heavy)
    nose = nose / pose.minds[heavy].sum()
    by_bearing = WEIGHTS["nose"] * nose + WEIGHTS["camera"] * fit(b, camera_band(pose, targets, view), SLACK["camera"])
    by_height = WEIGHTS["height"] * fit(h, row.height, SLACK["height"])
    by_distance = WEIGHTS["source"] * fit(2 * np.degrees(emitter.alpha(d)), row.source, SLACK["source"])
    by_distance = by_distance + WEIGHTS["sway"] * _sway_part(d) + WEIGHTS["side"] * side_part(pose, targets)
    bb, hh = b[:, None], h[None, :]
    theta = np.degrees(np.arccos(np.clip(np.cos(np.radians(hh)) * np.cos(np.radians(bb - _minded(pose))), -1, 1)))
    rough = np.interp(theta, [0, 20, 30, 45, 60, 75, 90], [0.45, 0.55, 0.70, 0.95, 1.25, 1.9, 2.5])
    rough = rough * (1 - 0.8 * 2.0**-row.fill.mid)
    by_angle = WEIGHTS["relief"] * fit(rough, row.relief, SLACK["relief"]) + by_bearing[:, None] + by_height[None, :]
    by_angle = by_angle + WEIGHTS["catch"] * np.clip((58.0 - hh) / 15.0, 0, 1) * np.clip((100.0 - bb) / 30.0, 0, 1)
    total = (by_distance[:, None, None] + by_angle[None]).ravel()
    if len(pose.face) > 1 and np.ptp(pose.face, axis=0).max() > 0:
        total = total + WEIGHTS["faces"] * _faces_part(_point_spread(g, pose, row.fill.mid), row.faces_stops)
    else:
        total = total + WEIGHTS["faces"]
    total = total - lim.iso_up * (STEADY_ISO_COST if emitter.steady else ISO_COST) - BOOM_COST * lim.boom - KIND_COST.get(str(emitter.modifier.kind), 0.0)
    if any(base is not None for base in pose.base):
        total = total - glare_guess(g, emitter, pose)
    return np.asarray(total, dtype=np.float64)


def _minded(pose: PoseArrays) -> float:
    return float(pose.nose[int(np.argmax(pose.minds))])


def _sway_part(distance_m: F) -> F:
    # 5 cm of lean against the distance: 0.1 stop at 1.5 m (values.md P37, inverse square)
    return np.asarray(np.exp(-((2 * np.log2((distance_m + 0.05) / distance_m) / 0.25) ** 2)), dtype=np.float64)


def _faces_part(spread: F, limit: float) -> F:
    return np.asarray(np.exp(-((np.maximum(spread - 0.5 * limit, 0.0) / limit) ** 2)), dtype=np.float64)


def _point_spread(g: Grid, pose: PoseArrays, fill: float) -> F:
    """Evenness over the outermost faces with the key as a point, in stops."""
    middle = np.array([0.0, pose.face[:, 1].mean(), 0.0])
    ends = {int(np.argmin(pose.face[:, 0])), int(np.argmax(pose.face[:, 0])), int(np.argmin(pose.face[:, 2])),
            int(np.argmax(pose.face[:, 2]))}
    levels = []
    for k in sorted(ends):
        offset = pose.face[k] - middle
        near = g.distance_m**2 - 2 * g.distance_m * (g.toward @ offset) + float(offset @ offset)
        levels.append(g.distance_m**2 / np.maximum(near, 1e-3) + 2.0**-fill)
    stacked = np.stack(levels)
    return np.asarray(np.log2(stacked.max(axis=0) / stacked.min(axis=0)), dtype=np.float64)


def glare_guess(g: Grid, emitter: Emitter, pose: PoseArrays) -> F:
    """A penalty where a lens would plainly mirror the light (trade form: lower edge above 3 + 2 x chin-up)."""
    worn = [k for k, base in enumerate(pose.base) if base is not None]
    penalty = np.zeros(len(g.distance_m))
    alpha = np.degrees(np.arctan(glare_size_m(emitter) / (2 * g.distance_m)))
    for k in worn:
        short = 4.0 + 2 * pose.chin[k] + alpha - g.height_deg
        far_out = np.abs(g.bearing_deg - 2 * pose.nose[k]) - 38.0 - alpha
        inside = np.clip(np.minimum(short, -far_out) / 12.0, 0.0, 1.0)
        penalty = np.maximum(penalty, 0.25 * inside)
    return penalty


def glare_size_m(emitter: Emitter) -> float:
    """The disc a front is taken for when looking for its reflection: the larger side of a rectangle, nearly."""
    return emitter.width_m if emitter.disc else 0.9 * max(emitter.width_m, emitter.height_m)


@dataclass(frozen=True)
class Full:
    """The full judgement of a few hundred candidates: score, how far limits are broken, and the parts."""

    score: F
    broken: F
    parts: dict[str, F]


def full(
    picked: NDArray[np.intp],
    pose_of: NDArray[np.intp],
    poses: list[PoseArrays],
    g: Grid,
    emitter: Emitter,
    lim: Limits,
    targets: Targets,
    camera: Camera,
    view: str,
) -> Full:
    """Score the placements `picked`, each with the pose `pose_of`: light at every face, relief, catchlights, glare."""
    row = targets.row
    faces = np.stack([p.face for p in poses])[pose_of]
    noses = np.stack([p.nose for p in poses])[pose_of]
    chins = np.stack([p.chin for p in poses])[pose_of]
    minds = np.stack([p.minds for p in poses])[pose_of]
    position, toward = g.position[picked], g.toward[picked]
    vectors = emitter.vector(faces, position[:, None, :], -toward[:, None, :])
    strength = np.maximum(np.linalg.norm(vectors, axis=-1), 1e-12)
    distance = np.linalg.norm(position[:, None, :] - faces, axis=-1)
    to_light = (position[:, None, :] - faces) / distance[..., None]
    from_nose = np.degrees(np.arctan2(to_light[..., 0], to_light[..., 2])) - noses
    fill_share = 2.0**-row.fill.mid
    reading = np.asarray(metering.dome_reading(to_light[..., 2], strength, emitter.alpha(distance)))
    level = reading + fill_share * reading.mean(axis=1, keepdims=True)
    spread = np.log2(level.max(axis=1) / level.min(axis=1))
    judged = _judged_relief(poses, pose_of, noses, chins, faces, to_light, strength, emitter, distance, camera, fill_share)
    eyes_seen, least_eyes = _catchlights(poses, pose_of, noses, chins, to_light)
    margin = _glare_margin(poses, pose_of, position, emitter, camera)
    parts = {
        "nose": (minds * fit(np.abs(from_nose), row.nose, SLACK["nose"])).sum(axis=1),
        "camera": np.array([fit(g.bearing_deg[i], camera_band(poses[q], targets, view), SLACK["camera"])
                            for i, q in zip(picked, pose_of, strict=True)]),
        "height": fit(g.height_deg[picked], row.height, SLACK["height"]),
        "source": fit(2 * np.degrees(emitter.alpha(g.distance_m[picked])), row.source, SLACK["source"]),
        "relief": fit(judged, row.relief, SLACK["relief"]),
        "catch": eyes_seen,
        "faces": _faces_part(spread, row.faces_stops),
        "side": np.array([side_part(p, targets) for p in poses])[pose_of],
        "sway": _sway_part(g.distance_m[picked]),
    }
    score = np.asarray(sum(WEIGHTS[k] * v for k, v in parts.items()))
    score = score - lim.iso_up[picked] * (STEADY_ISO_COST if emitter.steady else ISO_COST) - BOOM_COST * lim.boom[picked]
    score = score - KIND_COST.get(str(emitter.modifier.kind), 0.0)
    broken = lim.broken()[picked] + np.maximum(GLARE_CLEAR_DEG - margin, 0.0) / 10
    broken = broken + np.maximum(spread - row.faces_stops, 0.0) + np.maximum(
        (2 if row.both_eyes else 1) - least_eyes, 0.0
    ) * np.where(least_eyes > 0, 0.0 if not row.both_eyes else 0.05, 0.5)
    return Full(score, broken, parts)


def _judged_relief(
    poses: list[PoseArrays], pose_of: NDArray[np.intp], noses: F, chins: F, faces: F, to_light: F, strength: F,
    emitter: Emitter, distance: F, camera: Camera, fill_share: float,
) -> F:
    """Relief of the front of the face of those who mind most, weighed, in stops; fill taken as even."""
    first = poses[0]
    # everybody beyond the fifth adds cost and no information to a ranking
    chosen = np.argsort(-first.minds, kind="stable")[:RELIEF_PEOPLE]
    if len(first.minds) > RELIEF_PEOPLE:
        chosen = np.unique(np.linspace(0, len(first.minds) - 1, RELIEF_PEOPLE).astype(int))
    matrices = np.stack(
        [[anatomy.head_matrix(float(n), float(c)) for n, c in zip(p.nose, p.chin, strict=True)] for p in poses]
    )[pose_of][:, chosen]
    b, e = np.radians(np.array(anatomy.FRONT)).T
    local = np.stack([np.cos(e) * np.sin(b), np.sin(e), np.cos(e) * np.cos(b)], axis=-1)
    normals = np.einsum("skij,pj->skpi", matrices, local)
    to_camera = camera.at - faces[:, chosen]
    to_camera = to_camera / np.linalg.norm(to_camera, axis=-1, keepdims=True)
    minds = np.stack([p.minds for p in poses])[pose_of][:, chosen]
    rho = np.stack([p.reflectance for p in poses])[pose_of][:, chosen]
    rough = np.stack([p.roughness for p in poses])[pose_of][:, chosen]
    found = relief(
        normals,
        to_camera[:, :, None, :],
        to_light[:, chosen][:, :, None, None, :],
        emitter.alpha(distance)[:, chosen][:, :, None, None],
        np.ones_like(strength)[:, chosen][:, :, None, None],
        dome=fill_share,
        reflectance=rho[:, :, None],
        roughness=rough[:, :, None],
        aspect=STANDARD_ASPECT,
    )
    per_person = (found.shadow_stops + found.highlight_stops).mean(axis=-1)
    return np.asarray((per_person * minds).sum(axis=1) / minds.sum(axis=1), dtype=np.float64)


def _catchlights(
    poses: list[PoseArrays], pose_of: NDArray[np.intp], noses: F, chins: F, to_light: F
) -> tuple[F, F]:
    """Share of eyes with a catchlight, and the fewest any one sitter has."""
    seen = np.zeros(noses.shape)
    brow = np.stack([p.brow for p in poses])[pose_of]
    in_head = to_head(to_light, noses, chins)
    for side in (1, -1):
        code = eyes.hidden_by(in_head, side, brow, 10.0)
        seen += np.asarray(code) == 0
    return seen.mean(axis=1) / 2, seen.min(axis=1)


def to_head(vector: F, nose_deg: F, chin_deg: F) -> F:
    """Vectors (..., 3) of the set's frame seen in the heads' frames (inverse of anatomy.head_matrix)."""
    yaw, pitch = np.radians(nose_deg), np.radians(chin_deg)
    x = np.cos(yaw) * vector[..., 0] - np.sin(yaw) * vector[..., 2]
    z = np.sin(yaw) * vector[..., 0] + np.cos(yaw) * vector[..., 2]
    y = np.cos(pitch) * vector[..., 1] - np.sin(pitch) * z
    return np.stack([x, y, np.sin(pitch) * vector[..., 1] + np.cos(pitch) * z], axis=-1)


def _glare_margin(
    poses: list[PoseArrays], pose_of: NDArray[np.intp], position: F, emitter: Emitter, camera: Camera
) -> F:
    """Degrees the key is clear of the nearest glare zone of any lens (large when nobody wears glasses)."""
    margin = np.full(len(position), 90.0)
    for q, p in enumerate(poses):
        mine = pose_of == q
        if not mine.any():
            continue
        for k, base in enumerate(p.base):
            if base is None:
                continue
            for side in (1, -1):
                found = glasses.glare(
                    (position[mine] - p.face[k]) * 1000, glare_size_m(emitter) * 1000, (camera.at - p.face[k]) * 1000,
                    side=side, yaw_deg=float(p.nose[k]), pitch_deg=float(p.chin[k]), base_dioptre=base,
                )
                margin[mine] = np.minimum(margin[mine], found.margin_deg)
    return margin
