"""A small plan document worked out by hand, so that the contract can be tried without the planner.

One seated sitter, a 150 cm octabox as key, a 180 cm umbrella over the lens as fill, a grey ground lit by spill. The
powers follow from the brute sums of ruler.py; everything else is typed.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

from tests.planner import ruler

BRIEFS = Path(__file__).resolve().parents[2] / "fixtures" / "briefs"
EYE = 1.2
CAMERA_Z = 2.3


def request() -> dict[str, Any]:
    """The demo kit and Long Room with one sitter and one set-up."""
    whole: dict[str, Any] = json.loads((BRIEFS / "tarrant.json").read_text())
    whole["brief"]["setups"] = whole["brief"]["setups"][:1]
    whole["brief"]["setups"][0] |= {"name": "portrait", "intent": "natural"}
    return whole


def document() -> dict[str, Any]:
    """A plan for `request()` that keeps every law."""
    key = _light("A", "key", "h400-1", "octa150-1", None, "stand300-1", (1.6, 40.0, 30.0), 0.44)
    fill = _light("B", "fill", "h400-2", "umb180", "shaft-s-1", "stand300-2", (3.3, 0.0, 20.0), 0.62)
    _dial([key, fill], aperture=8.0, fill_below=1.2)
    return {
        "engine": "by hand",
        "fingerprint": "0" * 64,
        "assumptions": [
            "Not computed: colour_shift_k, hands_below_face_stops, sway_stops, minutes_build, cloths, retouch."
        ],
        "cautions": ["Sandbag every stand."],
        "consequences": [],
        "candidates_scored": 1,
        "planning_seconds": 0.1,
        "setups": [_setup(key, fill)],
        "problems": [],
        "shots": [
            {"n": 1, "setup": "portrait", "who": ["Juno"], "framing": "head_and_shoulders", "cue": "Sit tall.",
             "seat": "chair46-1", "frames": 6, "must": True, "minutes": 5, "words": "", "last": [],
             "proposed": False, "key": "0" * 12, "starts_min": 0, "falls_off": False,
             "orientation": "upright", "orientation_why": "by hand",
             "pose": {"card": "seated", "name": "seated", "base": "Sit tall.", "weight": "", "turn": "", "hands": "",
                      "chin": "", "eyes": "", "seat": "", "caution": "Ask first."}}
        ],
        "shots_proposed": [],
        "minutes_changes": 0,
        "packing": [
            {"item": item, "label": item, "for": ["A"], "count": 1}
            for item in ("h400-1", "octa150-1", "stand300-1", "h400-2", "umb180", "shaft-s-1", "stand300-2", "grey270",
                         "camera-1", "lens85", "chair46-1")
        ],
        "retouch": None,
        "minutes_build": None,
    }  # fmt: skip


def _light(
    letter: str, role: str, head: str, modifier: str, adapter: str | None, stand: str,
    placing: tuple[float, float, float], behind: float,
) -> dict[str, Any]:  # fmt: skip
    distance, bearing, height = placing
    b, h = math.radians(bearing), math.radians(height)
    at = [round(distance * math.cos(h) * math.sin(b), 2), round(EYE + distance * math.sin(h), 2),
          round(distance * math.cos(h) * math.cos(b), 2)]  # fmt: skip
    foot = [round(at[0] + behind * math.sin(b), 2), round(at[2] + behind * math.cos(b), 2)]
    half = {"octa150-1": 0.75, "umb180": 0.9}[modifier]
    return {
        "letter": letter, "role": role, "head": head, "modifier": modifier, "adapter": adapter, "stand": stand,
        "panel": None, "position_m": at, "aim_m": [0.0, EYE, 0.0], "aim_words": "the bridge of the nose",
        "distance_m": distance, "bearing_deg": bearing, "height_angle_deg": height, "centre_height_m": at[1],
        "top_height_m": round(at[1] + half * math.cos(h), 2), "bearing_from_nose_deg": {"Juno": bearing - 10.0},
        "side": "short", "feather_deg": 0.0, "tilt_deg": -height, "roll_deg": 0.0, "foot_m": foot, "arm_m": None,
        "counterweight_kg": None, "sandbag_kg": 4.6, "tipping_margin_nm": 6.0,
        "cloths": None, "grid": None, "power_below_full_stops": 0.0, "dial": "1/1",
        "colour_shift_k": None,
    }  # fmt: skip


def _alone(light: dict[str, Any]) -> float:
    """Stops over f/1 that a light alone reads at the face, dome at the camera, ISO 100."""
    whole = request()["kit"]
    modifier = next(m for m in whole["modifiers"] if m["id"] == light["modifier"])
    toward = ruler.between_deg(ruler.minus(ruler.vec(light["position_m"]), (0, EYE, 0)), (0.0, 0.0, 1.0))
    full = 2 * math.log2(64) + math.log2(ruler.light_at(light, whole, modifier, (0.0, EYE, 0.0)))
    dome = math.log2((1 + math.cos(math.radians(toward))) / 2)
    return full + dome - modifier["loss_stops"] - light["power_below_full_stops"]


def _dial(lights: list[dict[str, Any]], aperture: float, fill_below: float) -> None:
    whole = ruler.stops_of(aperture)
    key = whole - math.log2(1 + 2**-fill_below)
    for light, wanted in zip(lights, (key, key - fill_below), strict=True):
        power = round(_alone(light) - wanted, 1)
        light["power_below_full_stops"] = power
        part = math.floor(power)
        light["dial"] = f"1/{2**part}" if power == part else f"1/{2 ** (part + 1)} +{part + 1 - power:.1f}"
        if power != part:
            light["dial"] = f"1/{2**part} -{power - part:.1f}"


def _target(stops: float) -> dict[str, Any]:
    tenths = round(stops * 10)
    return {
        "f_number": round(2 ** (stops / 2), 3),
        "shown": f"f/{ruler.FULL_STOPS[tenths // 10 + 2]} +{tenths % 10 / 10:.1f}",
    }


SURE: dict[str, Any] = {
    "uncertainty_stops": 0.3, "uncertainty_parts": {"output": 0.3, "placement": 0.0, "bounce": 0.0, "dial": 0.0},
}  # fmt: skip


def _step(number: int, on: list[str], stops: float, sets: bool) -> dict[str, Any]:
    return {"step": number, "place": "lit cheek", "dome": "out", "toward": "camera", "on": on, "panels": "out",
            "target": _target(stops), "tolerance_stops": 0.2, "sets_camera": sets} | SURE  # fmt: skip


def _setup(key: dict[str, Any], fill: dict[str, Any]) -> dict[str, Any]:
    alone = [_alone(key), _alone(fill)]
    whole = math.log2(sum(2**a for a in alone))
    steps = [_step(1, ["A"], alone[0], False), _step(2, ["B"], alone[1], False), _step(3, ["A", "B"], whole, True)]
    face = [0.0, EYE, 0.0]
    return {
        "name": "portrait",
        "intent": "natural",
        "sitters": [
            {"label": "Juno", "face_m": face, "seat": "chair46-1", "body_turn_deg": 15.0, "nose_bearing_deg": 10.0,
             "chin_deg": 0.0, "side_of_picture": "middle", "row": 1, "step": None}
        ],
        "lights": [key, fill],
        "blocks": [],
        "camera": {
            "body": "camera-1", "lens": "lens85", "focal_mm": 85, "distance_m": CAMERA_Z, "height_m": EYE,
            "pitch_deg": 0.0, "aperture": 8.0, "shown": "f/8 +0.0", "nearest_third": "f/8", "trim_stops": 0.0,
            "shutter_s": 0.005, "iso": 100, "white_balance_k": 5600, "orientation": "upright",
        },
        "background": {"id": "grey270", "distance_m": 2.0, "reading_below_setting_stops": 1.5,
                       "lightness": 35.3, "covers": True},
        "room": {"axis": "width", "ground_from_wall_m": 0.6, "mark_from_ground_m": 2.0, "mark_from_side_wall_m": 3.0,
                 "camera_from_mark_m": CAMERA_Z},
        "meter_round": steps,
        "teaches_most": {"step": 1, "because": "Read light A alone first."},
        "expected": _expected(key, whole),
        "changes_per_person": [],
        "reasons": [
            {"about": "lights[0].distance_m", "because": "At 1.6 m the octabox looks 50 degrees wide.",
             "from": ["brief.setups[0].intent"], "source": "common practice, no source"}
        ],
        "alternatives": [],
    }  # fmt: skip


def _expected(key: dict[str, Any], whole: float) -> dict[str, Any]:
    seen = [
        {"light": "A", "image_side": side, "clock": _clock(key), "size_mm": 3.2, "seen": True, "why_not": None,
         "radial_mm": 2.9, "tangential_mm": 3.2, "offset_mm": {"right": 1.9, "up": 1.8}}
        for side in ("left", "right")
    ]  # fmt: skip
    shadow = {"light": "A", "length_mm": 32.0, "slant_deg": -36.0, "touches_lip": False, "joins_cheek": False}
    return {
        **{f"setting_{name}": value for name, value in SURE.items()},
        "setting_reading": _target(whole), "fill_below_key_stops": 1.2, "bounce_below_key_stops": 4.0,
        "shadow_below_lit_stops": 1.7, "evenness_stops": 0.0, "worst_pair": [], "hands_below_face_stops": None,
        "sway_stops": None, "shadow_edge_mm": 17.0, "apparent_size_deg": 50.0, "pattern": "loop",
        "field_width_m": 0.63, "sharp_from_m": -0.16, "sharp_to_m": 0.19,
        "load": [{"circuit": "circuit 1", "watts": 660, "peak_amps": 10, "limit_watts": 2944,
                  "staggered_amps": 5.5, "letters": ["A", "B"]}],
        "group": None,
        "ground": {"evenness_stops": 0.4, "lowest_below_setting_stops": 1.7, "back_below_face_stops": 3.7,
                   "wrap_below_key_stops": 7.3, "black_lift_stops": 0.1},
        "per_sitter": [
            {"label": "Juno", "relief_stops": 0.6, "relief_shadow_stops": 0.3, "relief_highlight_stops": 0.3,
             "worst_place": "forehead",
             "lines": [{"place": "forehead", "direction": "across", "shadow_stops": 0.3, "highlight_stops": 0.3}],
             "catchlights": seen, "glasses": [], "nose_shadow": shadow}
        ],
    }  # fmt: skip


def _clock(light: dict[str, Any]) -> float:
    """Of a light over a level lens: the direction across the line of sight, in hours."""
    x, y, _ = light["position_m"]
    return round(math.degrees(math.atan2(x, y - EYE)) / 30 % 12, 2)
