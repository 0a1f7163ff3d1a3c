"""What the plan draws on skin: relief place by place, for all sitters who share the same lights and camera at once.

Judged is the front of the face; every place is printed. One call for everybody, because the formulas are made for many
patches and a what-if asks for nine faces while somebody waits.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light.relief import STANDARD_ASPECT, relief
from shotplans.light.units import round_to
from shotplans.planner import anatomy
from shotplans.planner.expect import Meter
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light
from shotplans.planner.readings import bounce_plane, direct, panel_radiance, panel_vector
from studio.tongue import gettext as _

F = NDArray[np.float64]
Entry = dict[str, Any]
# places a beard covers: their lines are printed but never the worst
COVERED: dict[str, tuple[str, ...]] = {
    "none": (),
    "short": ("upper lip", "chin"),
    "full": (
        "upper lip", "chin", "neck", "fold beside the mouth, image left", "fold beside the mouth, image right",
    ),
}  # fmt: skip
LINED = tuple(p for p in anatomy.PLACES if p.line is not None)
UNLINED = tuple(p for p in anatomy.PLACES if p.line is None)
ORDER = {p.name: n for n, p in enumerate(anatomy.PLACES)}


def views(meter: Meter, seated: Sequence[Seated], fronts: list[Light], camera_at: F) -> list[Entry]:
    """Relief of each sitter: the front of the face, the worst bare place, every line."""
    faces = np.array([s.face_m for s in seated])
    turns = np.stack([anatomy.head_matrix(s.nose_deg, s.chin_deg) for s in seated])
    front, unlined, lined = (_turned(_normals(a), turns) for a in (anatomy.FRONT, _angles(UNLINED), _angles(LINED)))
    shared = _Shared(meter, seated, fronts, camera_at, faces)
    # the front and the places without a direction ask for the worst groove, so they go together
    worst = shared.relief(np.concatenate([front, unlined], axis=1), None)
    along = shared.relief(lined, _turned(np.array([anatomy.line_vector(p) for p in LINED]), turns))
    at = front.shape[1]
    worst_lines, along = round_to(worst[:, :, at:], 0.01), round_to(along, 0.01)
    found = []
    for n, sitter in enumerate(seated):
        lines = [_line(p, worst_lines[:, n, k]) for k, p in enumerate(UNLINED)]
        lines += [_line(p, along[:, n, k]) for k, p in enumerate(LINED)]
        found.append(_entry(sitter, worst[:, n, :at].mean(axis=1), sorted(lines, key=lambda x: ORDER[x["place"]])))
    return found


class _Shared:
    """What reaches the faces of sitters who share lights and camera."""

    def __init__(
        self, meter: Meter, seated: Sequence[Seated], fronts: list[Light], camera_at: F, faces: F
    ) -> None:
        heads = [x for x in fronts if x.emitter]
        self.fronts, self.faces = fronts, faces
        self.even = bounce_plane(heads, meter.solved.box, meter.solved.blocks)
        vectors = [
            direct(x, faces) if x.emitter else panel_vector(x, panel_radiance(x, heads, self.even), faces)
            for x in fronts
        ]
        self.strength = np.stack([np.linalg.norm(v, axis=-1) for v in vectors], axis=-1)
        away = np.stack([x.at - faces for x in fronts], axis=1)
        self.to_light = away / np.linalg.norm(away, axis=-1, keepdims=True)
        to_camera = camera_at - faces
        self.to_camera = to_camera / np.linalg.norm(to_camera, axis=-1, keepdims=True)
        self.reflectance = np.array([s.person.reflectance for s in seated])[:, None]
        self.roughness = np.array([s.person.roughness for s in seated])[:, None]

    def _radii(self, light: Light, normals: F) -> F:
        return light.once(
            ("radii", self.faces.tobytes(), normals.tobytes()),
            lambda: np.stack([light.alpha_on(f, n) for f, n in zip(self.faces, normals, strict=True)]),
        )

    def relief(self, normals: F, line: F | None) -> F:
        """Shadow and highlight (2, sitters, patches) of the standard groove on patches with these normals."""
        radii = np.stack([self._radii(x, normals) for x in self.fronts], axis=-1)
        found = relief(
            normals, self.to_camera[:, None, :], self.to_light[:, None, :, :], radii, self.strength[:, None, :],
            dome=self.even, reflectance=self.reflectance, roughness=self.roughness, aspect=STANDARD_ASPECT, line=line,
        )  # fmt: skip
        return np.stack([found.shadow_stops, found.highlight_stops])


def _entry(sitter: Seated, judged: F, lines: list[Entry]) -> Entry:
    bare = [x for x in lines if x["place"] not in COVERED[str(sitter.person.sitter.beard)]]
    worst = max(bare, key=lambda x: (x["shadow_stops"] + x["highlight_stops"], x["place"]))
    shadow, highlight = (float(round_to(float(v), 0.01)) for v in judged)
    return {
        "relief_stops": round(shadow + highlight, 2),
        "relief_shadow_stops": shadow,
        "relief_highlight_stops": highlight,
        "worst_place": _(worst["place"]),
        "lines": [x | {"place": _(x["place"])} for x in lines],
    }


def _line(place: anatomy.Place, stops: F) -> Entry:
    shadow, highlight = stops
    return {
        "place": place.name,
        "direction": place.line or "every",
        "shadow_stops": float(shadow),
        "highlight_stops": float(highlight),
    }


def _angles(places: Sequence[anatomy.Place]) -> tuple[tuple[float, float], ...]:
    return tuple((p.bearing_deg, p.elevation_deg) for p in places)


def _normals(angles: tuple[tuple[float, float], ...]) -> F:
    b, e = np.radians(np.array(angles)).T
    return np.stack([np.cos(e) * np.sin(b), np.sin(e), np.cos(e) * np.cos(b)], axis=-1)


def _turned(vectors: F, turns: F) -> F:
    """Vectors (patches, 3) of the head's frame in the set's, for each head (sitters, patches, 3)."""
    return np.asarray(np.einsum("sij,pj->spi", turns, vectors))
