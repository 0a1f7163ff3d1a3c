"""What the plan does to each face: relief place by place, catchlights eye by eye, every light against every lens.

For people taken in turn, the lights and the camera go up and down with the eyes (changes_per_person), and each is
judged at the place as changed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes, glasses, nose
from shotplans.light.relief import relief
from shotplans.light.sources import panel_axes
from shotplans.light.units import bearing_deg, direction, height_deg, round_to
from shotplans.planner import anatomy
from shotplans.planner.expect import Meter
from shotplans.planner.judge import BRIDGE_MM, STANDARD_ASPECT
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import bounce_plane, direct, panel_radiance, panel_vector

F = NDArray[np.float64]
EYE_APART_M = 0.0315  # half a pupil distance of 63 mm (values.md Y16)
EYE_SIDES = np.array([-1.0, 1.0])  # the eye on the picture's left, the one on its right
TIP_DOWN_MM = 38.0  # the nose's tip below the pupils (light.md section 5)
SHOWS_DEG = 0.5  # clear on the edge of what a person can set; the search asks for twice that
PANTO_DEG = 8.0  # how far lenses lean as worn (values.md Y12)
TEMPLES_UP_DEG = 5.0  # temples raised by a centimetre on arms of 11 cm tip the lenses so far: value from memory
HIGHER_DEG = (5.0, 10.0, 15.0, 20.0)  # how far a light is raised before another cure is looked for
# places a beard covers: their lines are printed but never the worst
COVERED: dict[str, tuple[str, ...]] = {
    "none": (),
    "short": ("upper lip", "chin"),
    "full": (
        "upper lip", "chin", "neck", "fold beside the mouth, image left", "fold beside the mouth, image right",
    ),
}  # fmt: skip
WHY_NOT = {
    eyes.LID: "a lid covers it",
    eyes.BROW: "the brow is in the way",
    eyes.NOSE: "the nose is in the way",
    eyes.BESIDE: "it falls beside the cornea",
}


def changes(solved: Solved, sitter: Seated) -> dict[str, Any]:
    """How key and camera move for one of several people in turn, to 5 cm, against the one the set is built for."""
    rise = float(round_to(sitter.person.eye_m - solved.pose.eye_m, 0.05)) if solved.pose.in_turn else 0.0
    return {"label": sitter.person.label, "key_up_m": rise, "camera_up_m": rise, "seat": sitter.person.seat}


def view(solved: Solved, meter: Meter, sitter: Seated) -> dict[str, Any]:
    """The `per_sitter` entry of one sitter."""
    rise = float(changes(solved, sitter)["key_up_m"])
    fronts = [_raised(x, rise) for x in solved.by_role("key", "fill")]
    camera_at = solved.camera.at + np.array([0.0, rise, 0.0])
    face = np.array(sitter.face_m)
    judged, lines = _relief(solved, meter, sitter, fronts, camera_at, face)
    bare = [x for x in lines if x["place"] not in COVERED[str(sitter.person.sitter.beard)]]
    worst = max(bare, key=lambda x: (x["shadow_stops"] + x["highlight_stops"], x["place"]))
    shadow, highlight = (float(round_to(float(v), 0.01)) for v in judged)
    return {
        "label": sitter.person.label,
        "relief_stops": round(shadow + highlight, 2),
        "relief_shadow_stops": shadow,
        "relief_highlight_stops": highlight,
        "worst_place": worst["place"],
        "lines": lines,
        "nose_shadow": _nose_shadow(fronts[0], sitter, face),
        "catchlights": _catchlights(sitter, fronts, camera_at, face),
        "glasses": _glasses(sitter, fronts, camera_at, face),
    }


def _raised(light: Light, rise: float) -> Light:
    if not rise or light.emitter is None:
        return light
    (x, y, z), (aim_x, aim_y, aim_z) = light.position, light.aim
    return replace(light, position=(x, y + rise, z), aim=(aim_x, aim_y + rise, aim_z))


def _received(meter: Meter, fronts: list[Light], face: F) -> tuple[F, F, float]:
    """Unit vectors to the lights (n, 3), their strengths at a face, and the even part."""
    heads = [x for x in fronts if x.emitter]
    even = bounce_plane(heads, meter.solved.box, meter.solved.blocks)
    to_light, strength = [], []
    for light in fronts:
        radiance = 0.0 if light.emitter else panel_radiance(light, heads, even)
        vector = direct(light, face) if light.emitter else panel_vector(light, radiance, face)
        far = light.at - face
        to_light.append(far / np.linalg.norm(far))
        strength.append(float(np.linalg.norm(vector)))
    return np.array(to_light), np.array(strength), even


def _relief(
    solved: Solved, meter: Meter, sitter: Seated, fronts: list[Light], camera_at: F, face: F
) -> tuple[tuple[float, float], list[dict[str, Any]]]:
    to_light, strength, even = _received(meter, fronts, face)
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    to_camera = (camera_at - face) / np.linalg.norm(camera_at - face)
    skin = {
        "dome": even,
        "reflectance": sitter.person.reflectance,
        "roughness": sitter.person.roughness,
        "aspect": STANDARD_ASPECT,
    }
    normals = _normals(anatomy.FRONT) @ turn.T
    front = relief(normals, to_camera, to_light, _radii(fronts, face, normals), strength, **skin)
    lines = []
    for lined in (True, False):
        places = [p for p in anatomy.PLACES if (p.line is not None) == lined]
        along = np.array([anatomy.line_vector(p) for p in places]) @ turn.T if lined else None
        normals = _normals(tuple((p.bearing_deg, p.elevation_deg) for p in places)) @ turn.T
        found = relief(normals, to_camera, to_light, _radii(fronts, face, normals), strength, line=along, **skin)
        shadows, highlights = (round_to(v, 0.01) for v in (found.shadow_stops, found.highlight_stops))
        lines += [_line(p, shadows[n], highlights[n]) for n, p in enumerate(places)]
    order = [p.name for p in anatomy.PLACES]
    lines.sort(key=lambda line: order.index(line["place"]))
    return (float(front.shadow_stops.mean()), float(front.highlight_stops.mean())), lines


def _radii(fronts: list[Light], face: F, normals: F) -> F:
    """Angular radii (patches, lights) of the fronts as relief goes by them."""
    return np.stack([light.alpha_on(face, normals) for light in fronts], axis=-1)


def _line(place: anatomy.Place, shadow: float, highlight: float) -> dict[str, Any]:
    return {
        "place": place.name,
        "direction": place.line or "every",
        "shadow_stops": float(shadow),
        "highlight_stops": float(highlight),
    }


def _normals(angles: tuple[tuple[float, float], ...]) -> F:
    b, e = np.radians(np.array(angles)).T
    return np.stack([np.cos(e) * np.sin(b), np.sin(e), np.cos(e) * np.cos(b)], axis=-1)


def _catchlights(sitter: Seated, fronts: list[Light], camera_at: F, face: F) -> list[dict[str, Any]]:
    """Every light in both eyes, which look at the lens; places in millimetres from each eye, in the head's frame."""
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    seats = face + (EYE_SIDES[:, None] * EYE_APART_M * np.array([1.0, 0.0, 0.0])) @ turn.T
    camera = (camera_at - seats) @ turn * 1000
    gaze = np.asarray(bearing_deg(camera)), np.asarray(height_deg(camera))
    sources = (np.array([light.at for light in fronts])[:, None, :] - seats) @ turn * 1000  # lights, eyes, place
    seen = eyes.catchlight(sources, camera, *gaze)
    because = eyes.unseen_because(sources, camera, EYE_SIDES, sitter.person.brow_mm, BRIDGE_MM, *gaze)
    found = []
    for at, light in enumerate(fronts):
        roll = _roll(light, turn)
        outline = eyes.catchlight_outline(sources[at], light.axis @ turn, _size_mm(light), camera, roll, *gaze)
        here = eyes.Catchlight(*(v[at] for v in seen))
        found += [_catchlight(light, n, int(because[at, n]), here, outline) for n in range(2)]
    return found


def _size_mm(light: Light) -> tuple[float, ...]:
    """A front as it hangs: a disc's diameter or a rectangle's width and height."""
    disc = light.emitter is not None and light.emitter.disc
    return (light.width_m * 1000,) if disc else (light.width_m * 1000, light.height_m * 1000)


def _roll(light: Light, turn: F) -> float:
    """How far a front that hangs upright in the set is rolled about its axis in the head's frame, degrees."""
    upright = panel_axes(light.axis)[1] @ turn
    across, up = panel_axes(light.axis @ turn)
    return float(np.degrees(np.arctan2(-(upright @ across), upright @ up)))


def _catchlight(light: Light, n: int, because: int, seen: eyes.Catchlight, outline: eyes.Outline) -> dict[str, Any]:
    """The nth eye's entry. `size_mm` is the longer of the two extents: along and across the line from the pupil."""
    entry: dict[str, Any] = {"light": light.letter, "image_side": ("left", "right")[n]}
    if because != eyes.CLEAR:
        unseen = ("clock", "size_mm", "radial_mm", "tangential_mm", "offset_mm")
        return entry | dict.fromkeys(unseen) | {"seen": False, "why_not": WHY_NOT[because]}
    radial, tangential = (_tenth_mm(v[n]) for v in outline)
    return entry | {
        "clock": round(float(seen.clock_hours[n]), 1) % 12,
        "size_mm": max(radial, tangential),
        "radial_mm": radial,
        "tangential_mm": tangential,
        "offset_mm": {"right": _tenth_mm(seen.dx_mm[n]), "up": _tenth_mm(seen.dy_mm[n])},
        "seen": True,
        "why_not": None,
    }


def _tenth_mm(value: float) -> float:
    return round(float(value), 1) + 0.0


def _nose_shadow(key: Light, sitter: Seated, face: F) -> dict[str, Any]:
    """Where the key throws the shadow of the nose on a simple face; no length where the key is behind it."""
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    tip = face + turn @ np.array([0.0, -TIP_DOWN_MM, nose.PROJECTION_MM]) / 1000
    fall = nose.shadow((key.at - tip) @ turn)
    lands = math.isfinite(float(fall.length_mm))
    return {
        "light": key.letter,
        "length_mm": float(round(float(fall.length_mm))) if lands else None,
        "slant_deg": float(round(float(fall.slant_deg))) + 0.0 if lands else None,
        "touches_lip": bool(fall.touches_lip),
        "joins_cheek": bool(fall.joins_cheek),
    }


@dataclass(frozen=True)
class _Worn:
    """One pair of glasses and one light, millimetres from the bridge of the nose."""

    sitter: Seated
    light: Light
    light_mm: F
    camera_mm: F

    def margin(self, chin_deg: float, panto_deg: float = PANTO_DEG, higher_deg: float = 0.0) -> float:
        """Degrees the light is clear of the nearer lens, with the chin, the temples and the light's height as given."""
        far = float(np.linalg.norm(self.light_mm))
        at = far * np.asarray(direction(bearing_deg(self.light_mm), height_deg(self.light_mm) + higher_deg))
        found = glasses.glare(
            at, self.light.glare_size_m * 1000, self.camera_mm, side=EYE_SIDES, yaw_deg=self.sitter.nose_deg,
            pitch_deg=chin_deg, base_dioptre=self._base, panto_deg=panto_deg,
        )  # fmt: skip
        return float(found.margin_deg.min())

    @property
    def _base(self) -> float:
        return float(self.sitter.person.base_dioptre or 0.0)

    def clear_above_deg(self) -> float | None:
        """Height angle the light's lower edge stays above, to the next degree up; None where no height shows it."""
        found = glasses.clear_above_deg(
            float(bearing_deg(self.light_mm)), float(np.linalg.norm(self.light_mm)), self.light.glare_size_m * 1000,
            self.camera_mm, yaw_deg=self.sitter.nose_deg, pitch_deg=self.sitter.chin_deg, base_dioptre=self._base,
            margin_deg=SHOWS_DEG,
        )  # fmt: skip
        return None if math.isnan(found) else float(math.ceil(min(found, 90.0))) + 0.0

    def cures(self) -> Iterator[tuple[float, str]]:
        """What may be done, each with the margin it would leave; a key's height last, as the search has weighed it."""
        chin, worn, role = self.sitter.chin_deg, self.sitter.person.sitter.glasses, self.light.role
        tipped = PANTO_DEG + TEMPLES_UP_DEG
        room = int((self.sitter.person.sitter.chin_limit_deg or 0.0) - abs(chin))
        for down in range(1, room + 1):
            yield self.margin(chin - down), f"chin {_degrees(down)} further down"
        if room > 0:
            yield self.margin(chin - room, tipped), f"chin {_degrees(room)} further down, temples up"
        else:
            yield self.margin(chin, tipped), "temples up"
        if role == "fill":
            for higher in HIGHER_DEG:
                yield self.margin(chin, higher_deg=higher), f"fill higher by {_degrees(higher)}, or to the key's side"
        if worn is not None and worn.may_remove:
            yield math.inf, "one frame with the glasses off"
        for higher in HIGHER_DEG:
            yield self.margin(chin, higher_deg=higher), f"{role} higher by {_degrees(higher)}"
        yield math.inf, "the face turned, or the light further round"


def _degrees(count: float) -> str:
    return "1 degree" if count == 1 else f"{count:.0f} degrees"


def _glasses(sitter: Seated, fronts: list[Light], camera_at: F, face: F) -> list[dict[str, Any]]:
    """Every light against the glasses of one who wears them; the margin rounded down, so that none is promised."""
    if sitter.person.base_dioptre is None:
        return []
    found = []
    for light in fronts:
        worn = _Worn(sitter, light, (light.at - face) * 1000, (camera_at - face) * 1000)
        margin = worn.margin(sitter.chin_deg)
        cure = None if margin >= SHOWS_DEG else next(says for left, says in worn.cures() if left >= SHOWS_DEG)
        shown = float(math.floor(margin + 1e-9)) + 0.0
        found.append(
            {"light": light.letter, "margin_deg": shown, "clear_above_deg": worn.clear_above_deg(), "cure": cure}
        )
    return found
