"""The full score of a shortlist: light at every face, relief of those who mind, catchlights, glare on every lens.

Vectorised over candidates of one emitter, each with its own pose. What is judged and how much it weighs is in score.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes, glasses, metering
from shotplans.light.relief import STANDARD_ASPECT, relief
from shotplans.planner import anatomy
from shotplans.planner.score import (
    SLACK,
    WEIGHTS,
    Scope,
    camera_band,
    faces_part,
    fit,
    kind_cost,
    side_part,
    sway_part,
)

F = NDArray[np.float64]
Indices = NDArray[np.intp]
RELIEF_PEOPLE = 5  # everybody beyond the fifth adds cost and no information to a ranking
GLARE_CLEAR_DEG = 1.0  # a light this far out of the glare zone is clear at what a person can set
EVEN_MARGIN_STOPS = 0.05  # two readings, each shown to a tenth, may differ by more than there is
BRIDGE_MM = 10.0
EYE_APART_M = 0.0315  # half a pupil distance of 63 mm (values.md Y16)


@dataclass(frozen=True)
class Full:
    """The full judgement of a shortlist: score and how far the people's limits are broken, whatever the head."""

    score: F
    broken: F


@dataclass(frozen=True)
class _Faces:
    """The people of every candidate (s, k) and the light that reaches them."""

    place: F
    nose: F
    chin: F
    minds: F
    to_light: F
    strength: F
    distance: F
    axis: F


def full(scope: Scope, picked: Indices, pose_of: Indices) -> Full:
    """Score the placements `picked`, each with the pose `pose_of`."""
    found = but_relief(scope, picked, pose_of)
    return Full(found.score + relief_part(scope, picked, pose_of), found.broken)


def relief_part(scope: Scope, picked: Indices, pose_of: Indices) -> F:
    """What relief adds to the score, 0 to its weight; the costliest part by far."""
    found = _relief(scope, _faces(scope, picked, pose_of), pose_of)
    return np.asarray(WEIGHTS["relief"] * fit(found, scope.targets.row.relief, SLACK["relief"]), dtype=np.float64)


def but_relief(scope: Scope, picked: Indices, pose_of: Indices) -> Full:
    """The judgement without what relief adds."""
    row, g, emitter = scope.targets.row, scope.g, scope.emitter
    faces = _faces(scope, picked, pose_of)
    from_nose = np.degrees(np.arctan2(faces.to_light[..., 0], faces.to_light[..., 2])) - faces.nose
    spread = _spread(scope, faces)
    seen, least = _catchlights(scope, faces, pose_of)
    camera = np.zeros(len(picked))
    for q, pose in enumerate(scope.poses):
        mine = pose_of == q
        band = camera_band(pose, scope.targets, scope.view)
        camera[mine] = fit(g.bearing_deg[picked[mine]], band, SLACK["camera"])
    parts = {
        "nose": (faces.minds * fit(np.abs(from_nose), row.nose, SLACK["nose"])).sum(axis=1),
        "camera": camera,
        "height": fit(g.height_deg[picked], row.height, SLACK["height"]),
        "source": fit(2 * np.degrees(emitter.alpha(g.distance_m[picked])), row.source, SLACK["source"]),
        "catch": seen,
        "faces": faces_part(spread, row.faces_stops),
        "side": np.array([side_part(p, scope.targets) for p in scope.poses])[pose_of],
        "sway": sway_part(g.distance_m[picked]),
    }
    score = np.asarray(sum(WEIGHTS[k] * v for k, v in parts.items())) - kind_cost(scope)
    broken = np.maximum(GLARE_CLEAR_DEG - _glare_margin(scope, picked, pose_of), 0.0) / 10
    broken = broken + np.maximum(spread - row.faces_stops + EVEN_MARGIN_STOPS, 0.0)
    broken = broken + _eyes_missing(least, row.both_eyes)
    return Full(score, broken)


def _eyes_missing(least: F, both: bool) -> F:
    """No eye lit is a broken limit; one of two where both are wanted is a small one."""
    return np.where(least == 0, 0.5, np.where((least < 2) & both, 0.05, 0.0))


def _faces(scope: Scope, picked: Indices, pose_of: Indices) -> _Faces:
    place = np.stack([p.face for p in scope.poses])[pose_of]
    position, axis = scope.g.position[picked], -scope.g.back[picked]
    vectors = scope.emitter.vector(place, position[:, None, :], axis[:, None, :])
    distance = np.linalg.norm(position[:, None, :] - place, axis=-1)
    return _Faces(
        place=place,
        nose=np.stack([p.nose for p in scope.poses])[pose_of],
        chin=np.stack([p.chin for p in scope.poses])[pose_of],
        minds=np.stack([p.minds for p in scope.poses])[pose_of],
        to_light=(position[:, None, :] - place) / distance[..., None],
        strength=np.maximum(np.linalg.norm(vectors, axis=-1), 1e-12),
        distance=distance,
        axis=axis,
    )


def _spread(scope: Scope, faces: _Faces) -> F:
    """Evenness over the faces in stops, the fill taken as even."""
    alpha = scope.emitter.alpha(faces.distance)
    read = np.asarray(metering.dome_reading(faces.to_light[..., 2], faces.strength, alpha))
    level = read + 2.0**-scope.targets.row.fill.mid * read.mean(axis=1, keepdims=True)
    return np.asarray(np.log2(level.max(axis=1) / level.min(axis=1)), dtype=np.float64)


def _relief(scope: Scope, faces: _Faces, pose_of: Indices) -> F:
    """Relief of the front of the face of those who mind most, weighed, in stops; the fill taken as even."""
    people = scope.poses[0].minds
    chosen = np.argsort(-people, kind="stable")[:RELIEF_PEOPLE]
    if len(people) > RELIEF_PEOPLE and people.max() < 2 * people.min():
        chosen = np.unique(np.linspace(0, len(people) - 1, RELIEF_PEOPLE).astype(int))
    turns = np.stack([[anatomy.head_matrix(float(p.nose[k]), float(p.chin[k])) for k in chosen] for p in scope.poses])[
        pose_of
    ]
    b, e = np.radians(np.array(anatomy.FRONT)).T
    local = np.stack([np.cos(e) * np.sin(b), np.sin(e), np.cos(e) * np.cos(b)], axis=-1)
    to_camera = scope.camera.at - faces.place[:, chosen]
    to_camera = to_camera / np.linalg.norm(to_camera, axis=-1, keepdims=True)
    normals = np.einsum("skij,pj->skpi", turns, local)
    to_light, distance = faces.to_light[:, chosen][:, :, None, :], faces.distance[:, chosen][:, :, None]
    found = relief(
        normals,
        to_camera[:, :, None, :],
        to_light[:, :, :, None, :],
        scope.emitter.alpha_on(normals, to_light, distance, faces.axis[:, None, None, :])[..., None],
        1.0,
        dome=2.0**-scope.targets.row.fill.mid,
        reflectance=np.stack([p.reflectance for p in scope.poses])[pose_of][:, chosen][:, :, None],
        roughness=np.stack([p.roughness for p in scope.poses])[pose_of][:, chosen][:, :, None],
        aspect=STANDARD_ASPECT,
    )
    each = (found.shadow_stops + found.highlight_stops).mean(axis=-1)
    minds = faces.minds[:, chosen]
    return np.asarray((each * minds).sum(axis=1) / minds.sum(axis=1), dtype=np.float64)


def _catchlights(scope: Scope, faces: _Faces, pose_of: Indices) -> tuple[F, F]:
    """Share of eyes with a catchlight, and the fewest any one sitter has."""
    seen = np.zeros(faces.nose.shape)
    brow = np.stack([p.brow for p in scope.poses])[pose_of]
    light = to_head(faces.to_light * faces.distance[..., None], faces.nose, faces.chin)
    lens = to_head(scope.camera.at - faces.place, faces.nose, faces.chin)
    for side in (1, -1):
        eye = np.array([side * EYE_APART_M, 0.0, 0.0])
        gaze = anatomy.gaze_deg(lens - eye)
        because = eyes.unseen_because((light - eye) * 1000, (lens - eye) * 1000, side, brow, BRIDGE_MM, *gaze)
        seen += because == eyes.CLEAR
    return seen.mean(axis=1) / 2, seen.min(axis=1)


def to_head(vector: F, nose_deg: F, chin_deg: F) -> F:
    """Vectors (..., 3) of the set's frame seen in the heads' frames (inverse of anatomy.head_matrix)."""
    yaw, pitch = np.radians(nose_deg), np.radians(chin_deg)
    x = np.cos(yaw) * vector[..., 0] - np.sin(yaw) * vector[..., 2]
    z = np.sin(yaw) * vector[..., 0] + np.cos(yaw) * vector[..., 2]
    y = np.cos(pitch) * vector[..., 1] - np.sin(pitch) * z
    return np.stack([x, y, np.sin(pitch) * vector[..., 1] + np.cos(pitch) * z], axis=-1)


def _glare_margin(scope: Scope, picked: Indices, pose_of: Indices) -> F:
    """Degrees the key is clear of the nearest glare zone of any lens (90 when nobody wears glasses)."""
    margin = np.full(len(picked), 90.0)
    size_mm = scope.emitter.glare_size_m * 1000
    for q, p in enumerate(scope.poses):
        mine = np.flatnonzero(pose_of == q)
        for k, base in enumerate(p.base):
            if base is None or not len(mine):
                continue
            light, camera = (scope.g.position[picked[mine]] - p.face[k]) * 1000, (scope.camera.at - p.face[k]) * 1000
            yaw, pitch = float(p.nose[k]), float(p.chin[k])
            for side in (1, -1):
                found = glasses.glare(
                    light, size_mm, camera, side=side, yaw_deg=yaw, pitch_deg=pitch, base_dioptre=base
                )
                margin[mine] = np.minimum(margin[mine], found.margin_deg)
    return margin
