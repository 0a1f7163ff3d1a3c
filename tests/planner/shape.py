"""The keys and kinds of value a plan document may hold, written from recommend-io.md "Out" alone.

What belongs here: one table of shapes and the walk that compares a document with it. Laws between values live in
contract.py and its neighbours.
"""

from __future__ import annotations

import math
import re
from typing import Any

ROLES = ("key", "fill", "accent", "background")
# The list of recommend-io.md, and after it those added since: it may grow, nothing in it is renamed.
LIMITS = (
    "ceiling", "room", "picture", "reach", "power", "sync", "lens", "sharpness", "glare", "catchlight", "evenness",
    "load", "circuit", "kit", "mount", "background", "bounce", "flash", "people", "time",
    "fill", "battery", "overhead", "accent", "colour",
)  # fmt: skip


class Maybe:
    """A value that may be null because null says "none" there, not "not computed"."""

    def __init__(self, spec: Any) -> None:
        self.spec = spec


class Any_:
    """Any one of several shapes."""

    def __init__(self, *specs: Any) -> None:
        self.specs = specs


N, S, B = float, str, bool
XYZ, XZ = ("vector", 3), ("vector", 2)
TARGET = {"f_number": N, "shown": S}
PARTS = {"output": N, "placement": N, "bounce": N, "dial": N}

SITTER = {
    "label": S, "face_m": XYZ, "seat": Maybe(S), "body_turn_deg": N, "nose_bearing_deg": N, "chin_deg": N,
    "side_of_picture": {"left", "middle", "right"}, "row": N, "step": Maybe(S),
}  # fmt: skip
LIGHT = {
    "letter": S, "role": set(ROLES), "head": Maybe(S), "modifier": Maybe(S), "adapter": Maybe(S), "stand": S,
    "panel": Maybe(S), "position_m": XYZ, "aim_m": XYZ, "aim_words": S, "distance_m": N, "bearing_deg": N,
    "height_angle_deg": N, "centre_height_m": N, "top_height_m": N, "bearing_from_nose_deg": {"*": N},
    "side": {"short", "broad", "none"}, "feather_deg": N, "tilt_deg": N, "roll_deg": N, "foot_m": XZ,
    "arm_m": Maybe(N), "counterweight_kg": Maybe(N), "sandbag_kg": Maybe(N), "tipping_margin_nm": Maybe(N),
    "cloths": Any_(N, S, B, [S]), "grid": Maybe(Any_(N, S, B)),
    "power_below_full_stops": Maybe(N), "dial": Maybe(S), "colour_shift_k": N,
}  # fmt: skip
CAMERA = {
    "body": S, "lens": S, "focal_mm": N, "distance_m": N, "height_m": N, "pitch_deg": N, "aperture": N, "shown": S,
    "nearest_third": S, "trim_stops": N, "shutter_s": N, "iso": N, "white_balance_k": N,
    "orientation": {"upright", "horizontal"},
}  # fmt: skip
BACKGROUND = {"id": S, "distance_m": N, "reading_below_setting_stops": N, "lightness": N, "covers": B}
GLOW = {
    "evenness_stops": N, "lowest_below_setting_stops": N, "back_below_face_stops": N, "wrap_below_key_stops": N,
    "black_lift_stops": N,
}  # fmt: skip
ROOM = {
    "axis": {"width", "depth"}, "ground_from_wall_m": N, "mark_from_ground_m": N, "mark_from_side_wall_m": N,
    "camera_from_mark_m": N,
}  # fmt: skip
STEP = {
    "step": N, "place": S, "dome": {"out", "recessed"}, "toward": {"light", "camera"}, "on": [S],
    "panels": {"in", "out"}, "target": TARGET, "uncertainty_stops": N, "tolerance_stops": N, "sets_camera": B,
    "uncertainty_parts": PARTS,
}  # fmt: skip
PER_SITTER = {
    "label": S, "relief_stops": N, "relief_shadow_stops": N, "relief_highlight_stops": N, "worst_place": S,
    "lines": [{"place": S, "direction": S, "shadow_stops": N, "highlight_stops": N}],
    "catchlights": [
        {"light": S, "image_side": {"left", "right"}, "clock": Maybe(N), "size_mm": Maybe(N), "seen": B,
         "why_not": Maybe(S), "radial_mm": Maybe(N), "tangential_mm": Maybe(N),
         "offset_mm": Maybe({"right": N, "up": N})}
    ],
    "glasses": [{"light": S, "margin_deg": N, "clear_above_deg": Maybe(N), "cure": Maybe(S)}],
    "nose_shadow": {
        "light": S, "length_mm": Maybe(N), "slant_deg": Maybe(N), "touches_lip": B, "joins_cheek": B,
    },
}  # fmt: skip
EXPECTED = {
    "setting_reading": TARGET, "setting_uncertainty_stops": N, "setting_uncertainty_parts": PARTS,
    "fill_below_key_stops": N, "bounce_below_key_stops": N, "shadow_below_lit_stops": N,
    "evenness_stops": N, "worst_pair": [S], "hands_below_face_stops": N, "sway_stops": N, "shadow_edge_mm": N,
    "apparent_size_deg": N, "pattern": S, "field_width_m": N, "sharp_from_m": N, "sharp_to_m": N,
    "load": [{"circuit": S, "watts": N, "peak_amps": N, "limit_watts": N, "staggered_amps": N, "letters": [S]}],
    "per_sitter": [PER_SITTER], "group": Maybe({"*": N}), "ground": GLOW,
}  # fmt: skip
BLOCK = {
    "id": S, "at_m": Any_(XYZ, XZ), "why": S, "stand": Maybe(S), "distance_m": N, "bearing_deg": N,
    "shades": Maybe(S), "keeps": {"bounce", "lens", "faces", "ground", "cloth"}, "size_m": XZ, "aim_m": XYZ,
}  # fmt: skip
SETUP = {
    "name": S, "intent": S, "sitters": [SITTER], "lights": [LIGHT], "blocks": [BLOCK],
    "camera": Maybe(CAMERA), "background": Maybe(BACKGROUND),
    "room": Maybe(ROOM), "meter_round": [STEP],
    "teaches_most": Maybe({"step": N, "because": S}), "expected": Maybe(EXPECTED),
    "changes_per_person": [{"label": S, "key_up_m": N, "camera_up_m": N, "seat": Maybe(S)}],
    "reasons": [{"about": S, "because": S, "from": [S], "source": S}],
    "alternatives": [{"kind": S, "differs": S, "lights": [LIGHT], "blocks": [BLOCK], "expected": EXPECTED, "costs": S}],
}  # fmt: skip
DOCUMENT = {
    "engine": S, "fingerprint": S, "assumptions": [S], "cautions": [S], "candidates_scored": N,
    "planning_seconds": N, "setups": [SETUP],
    "problems": [
        {"setup": Maybe(S), "limit": set(LIMITS), "short_by": Maybe(N), "unit": Maybe(S), "says": S, "mend": S}
    ],
    "shots": [
        {"n": N, "setup": S, "who": [S], "framing": S, "cue": S, "seat": Maybe(S), "frames": N, "must": B, "minutes": N,
         "words": S, "proposed": B, "key": S, "starts_min": Maybe(N), "falls_off": B, "last": [S],
         "orientation": {"upright", "horizontal"},
         "orientation_why": S,
         "pose": dict.fromkeys(
             ("card", "name", "base", "weight", "turn", "hands", "chin", "eyes", "seat", "caution"), S)}
    ],
    "shots_proposed": [{"setup": S, "who": [S], "framing": S, "words": S}], "minutes_changes": N,
    "packing": [{"item": S, "label": S, "for": Any_(S, [S]), "count": N}],
    "retouch": [{"shot": Any_(N, S), "level": S, "why": S}],
    "minutes_build": N,
    "consequences": [
        {"kind": {"light", "camera", "pose", "gear", "people", "minutes"}, "says": S, "number": Maybe(N),
         "unit": Maybe(S), "rule": S, "from": [S]}
    ],
}  # fmt: skip

# What this order may leave uncomputed (issue 2, point 4), each named in an assumption.
LATER = ("colour_shift_k", "hands_below_face_stops", "sway_stops", "minutes_build", "cloths", "retouch")
LATER_IN_SHOTS = ("cue", "frames", "minutes")

Nulls = dict[str, str]


def faults_of_shape(document: Any) -> list[str]:
    """Every key too many or missing, every value of a wrong kind, every null that no assumption names."""
    nulls: Nulls = {}
    faults = _walk(document, DOCUMENT, "plan", nulls)
    if faults:
        return faults
    told = " ".join(document["assumptions"]).lower()
    for key, path in nulls.items():
        words = re.sub(r"_(stops|k|m|mm|kg|deg)$", "", key)
        if not any(name in told for name in (key, key.replace("_", " "), words, words.replace("_", " "))):
            faults.append(f"{path}: is null, but no assumption names {key}")
    return faults


def _walk(value: Any, spec: Any, path: str, nulls: Nulls) -> list[str]:
    if isinstance(spec, Maybe):
        return [] if value is None else _walk(value, spec.spec, path, nulls)
    if value is None:
        key = path.rsplit(".", 1)[-1]
        nulls.setdefault(key, path)
        later = key in LATER or (key in LATER_IN_SHOTS and path.startswith("plan.shots["))
        return [] if later else [f"{path}: is null"]
    if isinstance(spec, Any_):
        tries = [_walk(value, one, path, {}) for one in spec.specs]
        return [] if [] in tries else tries[0]
    if isinstance(spec, dict):
        return _walk_dict(value, spec, path, nulls)
    if isinstance(spec, list):
        if not isinstance(value, list):
            return [f"{path}: is {value!r}, not a list"]
        return [f for i, v in enumerate(value) for f in _walk(v, spec[0], f"{path}[{i}]", nulls)]
    if isinstance(spec, tuple):
        if not isinstance(value, list) or len(value) != spec[1]:
            return [f"{path}: is {value!r}, not {spec[1]} numbers"]
        return [f for i, v in enumerate(value) for f in _walk(v, N, f"{path}[{i}]", nulls)]
    return _leaf(value, spec, path)


def _walk_dict(value: Any, spec: dict[str, Any], path: str, nulls: Nulls) -> list[str]:
    if not isinstance(value, dict):
        return [f"{path}: is {value!r}, not an object"]
    if "*" in spec:
        return [f for k, v in value.items() for f in _walk(v, spec["*"], f"{path}.{k}", nulls)]
    faults = [f"{path}.{key}: is missing" for key in spec if key not in value]
    faults += [f"{path}.{key}: is no key of the format" for key in value if key not in spec]
    for key, inner in spec.items():
        if key in value:
            faults += _walk(value[key], inner, f"{path}.{key}", nulls)
    return faults


def _leaf(value: Any, spec: Any, path: str) -> list[str]:
    if isinstance(spec, set):
        return (
            []
            if isinstance(value, str) and value in spec
            else [f"{path}: is {value!r}, not one of {', '.join(sorted(spec))}"]
        )
    if spec is N:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return [f"{path}: is {value!r}, not a number"]
        if not math.isfinite(value):
            return [f"{path}: is {value!r}, not finite"]
        return [f"{path}: is -0.0"] if value == 0 and math.copysign(1.0, value) < 0 else []
    return [] if isinstance(value, spec) else [f"{path}: is {value!r}, not {spec.__name__}"]
