"""What the rounded plan will show: setting reading, fill, evenness, edges and sharpness, reckoned from the placement.

Per-sitter judgements (relief, catchlights, glasses) are in sitter_view.py. Everything is computed from the lights
as printed, so that the numbers of a plan agree with one another.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import exposure, falloff, lenses, metering, shadows, sources
from shotplans.light.units import direction, round_to, unit
from shotplans.planner import anatomy, pattern
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Point, Solved
from shotplans.planner.readings import (
    bounce_plane,
    direct,
    dome,
    f_number,
    panel_radiance,
    panel_vector,
    reading,
    readings,
    toward,
)
from studio.tongue import gettext as _

F = NDArray[np.float64]
NOSE_GAP_M = 0.03  # nose to cheek: the convention of light.md section 2
LEAN_M = 0.05
HANDS_BELOW_M, HANDS_BEFORE_M = 0.50, 0.20
HORIZON_M = 1000.0  # a plan is finite: what is sharp without end stands as sharp to here from the lens
MOST_BELOW_STOPS = 9.9  # light further under the key than this stands as this much "or more": it is not seen


@dataclass(frozen=True)
class Meter:
    """Reads a solved set the way the house does: dome out or recessed, toward the camera or the key."""

    solved: Solved
    recessed: bool
    at_key: bool
    _taken: dict[Point, float] = field(default_factory=dict, init=False, compare=False, repr=False)
    kept: dict[str, Any] = field(default_factory=dict, init=False, compare=False, repr=False)  # reckoned once, by name

    @property
    def lights(self) -> list[Light]:
        """The headed lights of the setting reading: key and fill."""
        return [x for x in self.solved.by_role("key", "fill") if x.emitter]

    @property
    def panels(self) -> list[Light]:
        return [x for x in self.solved.lights if x.emitter is None]

    def axis(self, point: F) -> F:
        key = self.solved.lights[0]
        return toward(point, key.at if self.at_key else self.solved.camera.at)

    def setting(self, point: F | None = None) -> float:
        """Exposure of key + fill + bounce + panels on the dome at a point (the mark's eyes unless said)."""
        where = self.solved.mark_eyes if point is None else point
        place = (float(where[0]), float(where[1]), float(where[2]))
        if place not in self._taken and not self._taken and len(self.solved.pose.together) > 1:
            self._read_faces()  # whoever asks for one of several faces asks for all of them
        if place not in self._taken:
            self._taken[place] = reading(
                where,
                self.axis(where),
                self.lights,
                self.solved.box,
                panels=self.panels,
                blocks=self.solved.blocks,
                recessed=self.recessed,
            )
        return self._taken[place]

    def _read_faces(self) -> None:
        places = [s.face_m for s in self.solved.pose.together]
        points = np.array(places)
        axes = unit((self.solved.lights[0].at if self.at_key else self.solved.camera.at) - points)
        found = readings(
            points, axes, self.lights, self.solved.box, panels=self.panels, blocks=self.solved.blocks,
            recessed=self.recessed,
        )  # fmt: skip
        self._taken.update(zip(places, map(float, found), strict=True))

    def alone(self, light: Light) -> float:
        """Exposure of one light alone, panels out, its bounce included, on the dome of the house."""
        mark = self.solved.mark_eyes
        return reading(mark, self.axis(mark), [light], self.solved.box, recessed=self.recessed)

    def direct(self, light: Light, point: F | None = None) -> float:
        """Exposure of one light without bounce."""
        where = self.solved.mark_eyes if point is None else point
        return dome(direct(light, where), light.alpha(where), self.axis(where), self.recessed)

    def shown(self, value: float) -> dict[str, Any]:
        """A reading as printed: the f-number rounded to the tenth it shows."""
        raw = f_number(value, self.solved.camera, self.solved.steady)
        tenth = 2.0 ** (float(round_to(2 * float(np.log2(max(raw, 0.1))), 0.1)) / 2)
        return {"f_number": round(tenth, 2), "shown": exposure.shown(tenth)}


def levels_at_faces(meter: Meter) -> list[float]:
    """The setting reading at each face in the picture, in stops to the tenth a meter shows, as the round prints it."""
    solved = meter.solved
    faces = [meter.setting(np.array(s.face_m)) for s in solved.pose.together]
    return [_tenth(2 * float(np.log2(f_number(v, solved.camera, solved.steady)))) for v in faces]


def surroundings(solved: Solved, meter: Meter, load: list[dict[str, Any]]) -> dict[str, Any]:
    """The `expected` block but for its per-sitter part."""
    key, camera = solved.lights[0], solved.camera
    key_direct = meter.direct(key)
    base = meter.setting()
    levels = levels_at_faces(meter)
    bright, dim = falloff.worst_pair(levels)
    labels = [s.person.label for s in solved.pose.together]
    even = bounce_plane(meter.lights, solved.box, solved.blocks)
    bounce = even if meter.recessed else float(metering.dome_uniform(even))
    near, far = lenses.depth_of_field_m(camera.focal_mm, camera.aperture, camera.focus_m, camera.blur_mm)
    first = solved.pose.together[0]
    from_nose = bearing_from_nose(key, main_sitter(solved))
    return {
        "setting_reading": meter.shown(base),
        "fill_below_key_stops": _stops(key_direct / max(base - key_direct, 1e-9 * key_direct)),
        "bounce_below_key_stops": _stops(key_direct / max(bounce, 1e-9 * key_direct)),
        "shadow_below_lit_stops": _cheeks(solved, meter, main_sitter(solved)),
        "evenness_stops": _tenth(max(levels) - min(levels)),
        "worst_pair": [labels[bright], labels[dim]] if len(labels) > 1 else [],
        "hands_below_face_stops": _tenth(_hands(solved, meter, first)),
        "sway_stops": _tenth(_sway(meter)),
        "shadow_edge_mm": round(float(shadows.edge_disc_mm(key.disc_size_m, key.distance_m, NOSE_GAP_M)), 1),
        "apparent_size_deg": round(apparent(key), 1),
        "pattern": _(pattern.name(from_nose, key.height_deg, main_sitter(solved).chin_deg)),
        "field_width_m": round(camera.field_width_m, 2),
        "sharp_from_m": round(float(near) - camera.focus_m, 2),
        "sharp_to_m": round(min(float(far), HORIZON_M) - camera.focus_m, 2),
        "load": load,
    }


def sharp_without_end(sharp_to_m: float) -> bool:
    """Whether a printed far end of sharpness, metres behind the focus, stands for the horizon."""
    return sharp_to_m > HORIZON_M / 2


def apparent(light: Light) -> float:
    """Full angle of a front seen from the face it is for, in degrees; of a rectangle, the disc that spreads as far."""
    round_front = light.emitter is not None and light.emitter.disc
    size = light.width_m if round_front else sources.disc_like_rect_m(light.width_m, light.height_m)
    return float(sources.apparent_deg(size, light.distance_m))


def main_sitter(solved: Solved) -> Seated:
    """The one the light is judged on: who minds most, else the first."""
    together = solved.pose.together
    order = sorted(s.person.index for s in solved.pose.seated)
    return max(together, key=lambda s: (solved.targets.minds[order.index(s.person.index)], -s.person.index))


def bearing_from_nose(light: Light, sitter: Seated) -> float:
    """Bearing of a light seen from a face, off the nose, degrees in (-180, 180]."""
    x, _, z = light.at - np.array(sitter.face_m)
    return float((np.degrees(np.arctan2(x, z)) - sitter.nose_deg + 180.0) % 360.0 - 180.0)


def _stops(ratio: float) -> float:
    return _tenth(min(MOST_BELOW_STOPS, float(np.log2(max(ratio, 1e-9)))))


def _tenth(value: float) -> float:
    return float(round_to(float(value), 0.1))


def plane_at(meter: Meter, point: F, normal: F) -> float:
    """Exposure of a facet of skin under the setting lights: key, fill, panels, bounce."""
    solved = meter.solved
    even = bounce_plane(meter.lights, solved.box, solved.blocks)
    total = even
    for light in meter.lights:
        total += _on_facet(light, point, normal)
    for panel in meter.panels:
        vector = panel_vector(panel, panel_radiance(panel, meter.lights, even), point)
        total += max(0.0, float(vector @ normal))
    return float(total)


def _on_facet(light: Light, point: F, normal: F) -> float:
    emitter = light.emitter
    assert emitter is not None
    whole: float = light.once(
        ("facet", point.tobytes(), normal.tobytes()), lambda: emitter.plane(point, normal, light.at, light.axis)
    )
    return float(whole * 2.0**-light.power_stops)


def _cheeks(solved: Solved, meter: Meter, sitter: Seated) -> float:
    """Stops from the lit cheek to the other: the sides of the face, 55 degrees off the nose."""
    face = np.array(sitter.face_m)
    sides = [plane_at(meter, face, normal) for normal in _cheek_normals(sitter)]
    return _stops(max(sides) / max(min(sides), 1e-12))


def _cheek_normals(sitter: Seated) -> list[F]:
    turns = (anatomy.CHEEK_DEG, -anatomy.CHEEK_DEG)
    return [np.asarray(direction(sitter.nose_deg + turn, 0.0), dtype=np.float64) for turn in turns]


def cheeks_with_front_fill(solved: Solved, meter: Meter, fill_stops: float) -> float:
    """Stops from the lit cheek to the other if the key were filled from the lens, `fill_stops` under it."""
    sitter, key = main_sitter(solved), solved.lights[0]
    face = np.array(sitter.face_m)
    strength = float(np.linalg.norm(direct(key, face)))
    front = toward(face, solved.camera.at) * strength * 2.0**-fill_stops
    only_key = replace(meter, solved=replace(solved, lights=(key,), blocks=()))
    sides = [
        plane_at(only_key, face, n) - bounce_plane([key], solved.box, ()) + max(0.0, float(front @ n))
        for n in _cheek_normals(sitter)
    ]
    return _stops(max(sides) / max(min(sides), 1e-12))


def _hands(solved: Solved, meter: Meter, sitter: Seated) -> float:
    """Stops by which the key's and fill's light at the hands lies under that at the face (negative = above)."""
    face = np.array(sitter.face_m)
    hands = face + np.array([0.0, -HANDS_BELOW_M, HANDS_BEFORE_M])
    return float(np.log2(meter.setting(face) / meter.setting(hands)))


def _sway(meter: Meter) -> float:
    """Largest change of the setting reading, in stops, for a lean of 5 cm toward or away from the key."""
    mark, key = meter.solved.mark_eyes, meter.solved.lights[0]
    lean = toward(mark, key.at) * LEAN_M
    base = meter.setting()
    return max(abs(float(np.log2(meter.setting(mark + sign * lean) / base))) for sign in (1.0, -1.0))
