"""What the plan does to each face: relief place by place, catchlights eye by eye, every light against every lens.

For people taken in turn, the lights and the camera go up and down with the eyes (changes_per_person), and each is
judged at the place as changed.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes, glasses
from shotplans.light.relief import relief
from shotplans.light.units import round_to
from shotplans.planner import anatomy
from shotplans.planner.expect import Meter
from shotplans.planner.judge import BRIDGE_MM, STANDARD_ASPECT
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import bounce_plane, direct, panel_radiance, panel_vector

F = NDArray[np.float64]
EYE_APART_M = 0.0315  # half a pupil distance of 63 mm (values.md Y16)
SHOWS_DEG = 0.5  # clear on the edge of what a person can set; the search asks for twice that
# places a beard covers: their lines are printed but never the worst
COVERED: dict[str, tuple[str, ...]] = {
    "none": (),
    "short": ("upper lip", "chin"),
    "full": (
        "upper lip", "chin", "neck", "fold beside the mouth, image left", "fold beside the mouth, image right",
    ),
}  # fmt: skip
WHY_NOT = {1: "the upper lid covers it", 2: "the brow is in the way", 3: "the nose is in the way"}


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
        "catchlights": _catchlights(sitter, fronts, camera_at, face),
        "glasses": _glasses(solved, sitter, fronts, camera_at, face),
    }


def _raised(light: Light, rise: float) -> Light:
    if not rise or light.emitter is None:
        return light
    (x, y, z), (aim_x, aim_y, aim_z) = light.position, light.aim
    return replace(light, position=(x, y + rise, z), aim=(aim_x, aim_y + rise, aim_z))


def _received(meter: Meter, fronts: list[Light], face: F) -> tuple[F, F, F, float]:
    """Unit vectors to the lights (n, 3), their angular radii and strengths at a face, and the even part."""
    heads = [x for x in fronts if x.emitter]
    even = bounce_plane(heads, meter.solved.box, meter.solved.blocks)
    to_light, alpha, strength = [], [], []
    for light in fronts:
        radiance = 0.0 if light.emitter else panel_radiance(light, heads, even)
        vector = direct(light, face) if light.emitter else panel_vector(light, radiance, face)
        far = light.at - face
        to_light.append(far / np.linalg.norm(far))
        alpha.append(light.alpha(face))
        strength.append(float(np.linalg.norm(vector)))
    return np.array(to_light), np.array(alpha), np.array(strength), even


def _relief(
    solved: Solved, meter: Meter, sitter: Seated, fronts: list[Light], camera_at: F, face: F
) -> tuple[tuple[float, float], list[dict[str, Any]]]:
    to_light, alpha, strength, even = _received(meter, fronts, face)
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    to_camera = (camera_at - face) / np.linalg.norm(camera_at - face)
    skin = {
        "dome": even,
        "reflectance": sitter.person.reflectance,
        "roughness": sitter.person.roughness,
        "aspect": STANDARD_ASPECT,
    }
    front = relief(_normals(anatomy.FRONT) @ turn.T, to_camera, to_light, alpha, strength, **skin)
    lines = []
    for lined in (True, False):
        places = [p for p in anatomy.PLACES if (p.line is not None) == lined]
        along = np.array([anatomy.line_vector(p) for p in places]) @ turn.T if lined else None
        normals = _normals(tuple((p.bearing_deg, p.elevation_deg) for p in places)) @ turn.T
        found = relief(normals, to_camera, to_light, alpha, strength, line=along, **skin)
        lines += [_line(p, found.shadow_stops[n], found.highlight_stops[n]) for n, p in enumerate(places)]
    order = [p.name for p in anatomy.PLACES]
    lines.sort(key=lambda line: order.index(line["place"]))
    return (float(front.shadow_stops.mean()), float(front.highlight_stops.mean())), lines


def _line(place: anatomy.Place, shadow: float, highlight: float) -> dict[str, Any]:
    return {
        "place": place.name,
        "direction": place.line or "every",
        "shadow_stops": float(round_to(float(shadow), 0.01)),
        "highlight_stops": float(round_to(float(highlight), 0.01)),
    }


def _normals(angles: tuple[tuple[float, float], ...]) -> F:
    b, e = np.radians(np.array(angles)).T
    return np.stack([np.cos(e) * np.sin(b), np.sin(e), np.cos(e) * np.cos(b)], axis=-1)


def _catchlights(sitter: Seated, fronts: list[Light], camera_at: F, face: F) -> list[dict[str, Any]]:
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    found = []
    for light in fronts:
        for side, name in ((-1, "left"), (1, "right")):
            eye = face + turn @ np.array([side * EYE_APART_M, 0.0, 0.0])
            source, camera = (light.at - eye) @ turn, (camera_at - eye) @ turn
            found.append(_one_catchlight(light, side, name, source, camera, sitter, turn))
    return found


def _one_catchlight(
    light: Light, side: int, name: str, source: F, camera: F, sitter: Seated, turn: F
) -> dict[str, Any]:
    """One light in one eye, the eyes looking at the lens; source and camera from the eye in the head's frame."""
    gaze_az = float(np.degrees(np.arctan2(camera[0], camera[2])))
    gaze_el = float(np.degrees(np.arcsin(camera[1] / np.linalg.norm(camera))))
    _, _, clock, off = eyes.catchlight(source * 1000, camera * 1000, gaze_az, gaze_el)
    code = int(eyes.hidden_by(source / np.linalg.norm(source), side, sitter.person.brow_mm, BRIDGE_MM))
    on = bool(eyes.on_cornea(off))
    seen = on and code == 0
    alpha = float(np.arctan(light.disc_size_m / (2 * np.linalg.norm(source))))
    half = float(np.arccos(np.clip(source @ camera / np.linalg.norm(source) / np.linalg.norm(camera), -1, 1))) / 2
    return {
        "light": light.letter,
        "image_side": name,
        "clock": round(float(clock), 1) if seen else None,
        # the reflected outline across: (R/2)(2 alpha)/cos(gamma/2), light.md section 5
        "size_mm": round(float(7.8 / 2 * 2 * alpha / max(np.cos(half), 0.1)), 1) if seen else None,
        "seen": seen,
        "why_not": None if seen else WHY_NOT.get(code, "it falls beside the cornea"),
    }


def _glasses(solved: Solved, sitter: Seated, fronts: list[Light], camera_at: F, face: F) -> list[dict[str, Any]]:
    if sitter.person.base_dioptre is None:
        return []
    found = []
    for light in fronts:
        margins = [
            float(
                glasses.glare(
                    (light.at - face) * 1000,
                    light.glare_size_m * 1000,
                    (camera_at - face) * 1000,
                    side=side,
                    yaw_deg=sitter.nose_deg,
                    pitch_deg=sitter.chin_deg,
                    base_dioptre=sitter.person.base_dioptre,
                ).margin_deg
            )
            for side in (1, -1)
        ]
        margin = round(min(margins), 0) + 0.0
        clear = min(margins) >= SHOWS_DEG
        found.append({"light": light.letter, "margin_deg": margin, "cure": None if clear else _cure(sitter, light)})
    return found


def _cure(sitter: Seated, light: Light) -> str:
    """The first cure that is left for a light in the glasses."""
    worn = sitter.person.sitter.glasses
    if (sitter.person.sitter.chin_limit_deg or 0.0) > abs(sitter.chin_deg):
        return "chin a little further down, temples up"
    if light.role == "fill":
        return "fill higher, or to the key's side"
    if worn is not None and worn.may_remove:
        return "one frame with the glasses off"
    return "key higher by five degrees, temples up"
