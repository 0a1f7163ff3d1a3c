"""The smallest brief that can be read, and one that says everything once. Belongs here: inputs for the
codec's tests, made anew at each call so that a test may spoil its own."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from typing import Any

import pytest

from shotplans.planner import codec

Tree = dict[str, Any]


def smallest() -> Tree:
    """Only what is marked as required in recommend-io.md, once."""
    return {
        "brief": {
            "setups": [
                {"name": "portrait", "intent": "soft", "framing": "half", "background_tone": "mid"},
            ]
        },
        "sitters": [{"label": "Ottoline"}],
        "room": {"width_m": 6, "depth_m": 5, "ceiling_m": 3},
        "kit": {
            "heads": [
                {
                    "id": "h400-1",
                    "light": "flash",
                    "range_stops": 8,
                    "f_number_1m_iso100": 64,
                    "mount": "bayonet S",
                    "mass_kg": 2.6,
                }
            ],
            "modifiers": [
                {
                    "id": "octa150-1",
                    "kind": "octabox",
                    "shape": "disc",
                    "diameter_m": 1.5,
                    "loss_stops": 2.6,
                    "mount": "bayonet S",
                    "mass_kg": 2.2,
                }
            ],
            "stands": [
                {"id": "stand-1", "kind": "stand", "max_height_m": 3, "min_height_m": 1, "max_load_kg": 9}
            ],
            "backgrounds": [{"id": "grey270", "width_m": 2.7, "reflectance": 0.25}],
            "cameras": [
                {
                    "id": "camera-1",
                    "sensor_width_mm": 36,
                    "sensor_height_mm": 24,
                    "base_iso": 100,
                    "max_iso": 6400,
                    "sync_s": 0.005,
                }
            ],
            "lenses": [{"id": "lens85", "min_focal_mm": 85, "max_focal_mm": 85, "max_aperture": 1.8}],
        },
    }


LOOK = {
    "lens_mm": 85, "camera_m": 1.8, "camera_above_eyes_m": 0, "head_share": 0.48, "key_modifier": "octa150-1",
    "key_m": 1.4, "key_bearing_deg": -30, "key_height_deg": 35, "fill_below_key_stops": 1, "background_lightness": 50,
    "kelvin": 5600, "locked": ["lens_mm"], "tolerance_stops": 0.15,
}  # fmt: skip


def everything() -> Tree:
    """Every key of the format once, so that nothing is assumed."""
    tree = smallest()
    tree["brief"] |= {
        "key_side": "either",
        "orientation": "upright",
        "purpose": "A print for the hall.",
        "print_width_cm": 75,
        "viewing_m": 2,
        "crops": ["4:5", 1.5],
        "copy_space": "left",
        "retouch": "light", "shots_in_order": False,
        "standard": copy.deepcopy(LOOK),
        "meter": {"setting_reading": "at_camera", "dome": "out"},
        "must": ["Hands."],
        "wished": ["A profile."],
        "props": [{"label": "viola", "size_m": 0.7, "shiny": True, "held_by": "Ottoline"}],
        "minutes": 75,
        "furniture_width_cm": 120,
        "event_in_days": 60,
        "decider_present": True,
        "haze": False,
    }
    tree["brief"]["setups"][0] |= {
        "view": "either", "face_side": "short", "people": ["Ottoline"], "standard": copy.deepcopy(LOOK),
    }  # fmt: skip
    tree["sitters"][0] |= {
        "age_years": 66,
        "height_cm": 163,
        "eye_height_m": 1.2,
        "posture": "seated",
        "skin": "light",
        "surface": "usual",
        "texture": "deep lines",
        "wishes": [{"note": "lines", "side": "both", "wish": "softer"}],
        "eyes": "usual",
        "glasses": {"lens": "usual", "may_remove": True},
        "beard": "none",
        "hair": "grey",
        "head": "usual",
        "face_width": "usual",
        "better_side": "own_left",
        "turn_limit_deg": 40,
        "chin_limit_deg": 10,
        "clothes": {"tone": "mid", "bare_arms": False, "shiny": False, "pattern": False},
        "household": "Askew",
        "relation": "wife",
        "central": True,
        "keep_with": "Bertram",
        "stand_minutes": 10,
        **dict.fromkeys(("hip_or_back", "no_flash", "hearing", "low_vision", "tremor", "sensory", "shy", "broad_seat",
                        "big_hair"), False),
    }
    tree["sitters"].append(copy.deepcopy(tree["sitters"][0]) | {"label": "Bertram", "keep_with": "Ottoline"})
    tree["room"] |= {
        "keep_out_m": 0.4,
        "set_axis": "width",
        "ambient_lux": 15,
        "black_out": True,
        "surfaces": {"walls": "grey", "ceiling": 0.7, "floor": "dark"},
        "windows": [{"wall": "north", "width_m": 1.2, "height_m": 1.5, "sill_m": 0.9}],
        "circuits": [{"label": "circuit 1", "volts": 230, "breaker_amps": 16}],
    }
    _fill_kit(tree["kit"])
    tree["corrections"] = [
        {
            "head": "h400-1",
            "modifier": "octa150-1",
            "offset_stops": -0.2,
            "standard_error_stops": 0.1,
            "readings": 6,
        }
    ]
    tree["beams"] = [{"head": "h400-1", "modifier": "octa150-1", "shares": [1, 0.9, 0.6, 0.2]}]
    tree["preferences"] = {"aperture": 8, "iso": 100, "shutter_s": 0.005, "units": "metric"}
    return tree


def _fill_kit(kit: Tree) -> None:
    kit["heads"][0] |= {
        "label": "400 Ws head",
        "energy_ws": 400,
        "rated_with": "standard_reflector",
        "dial": {"scale": "fraction", "step": 0.1},
        "watts": 330,
        "peak_amps": 5,
        "kelvin": 5600,
        "duration_s": 0.0006,
        "duration_kind": "t0.5",
        "recycle_s": 1.2,
        "modelling_watts": 60,
        "battery_ws": 90_000,
        "battery_full_power_shots": 160,
    }
    steady = {"id": "steady-1", "light": "steady", "lux_1m": 16000, "flicker_free": True}
    kept = ("range_stops", "mount", "mass_kg", "label", "rated_with", "dial", "watts", "peak_amps", "kelvin")
    kit["heads"].append(
        steady | {key: copy.deepcopy(kit["heads"][0][key]) for key in kept} | {"modelling_watts": 0}
    )
    kit["modifiers"][0] |= {
        "label": "150 cm octabox",
        "beam_deg": 110,
        "core_stops": 0.3,
        "lip_m": 0.05,
        "depth_m": 0.6,
        "inner_cloth": True,
        "outer_cloth": True,
        "grid_deg": 60,
        "min_distance_m": 0.5,
        "max_modelling_watts": 250,
    }
    kit["stands"][0] |= {"reach_m": 0, "footprint_m": 1.1, "counterweight_kg": 0, "mass_kg": 3.5, "arm_kg": 0}
    kit["backgrounds"][0] |= {"kind": "paper", "height_m": 2.5}
    kit["lenses"][0] |= {"min_aperture": 16, "min_focus_m": 0.8}
    seat = {"height_m": 0.46, "arms": True, "back": True, "rating_kg": 130}
    kit |= {
        "adapters": [{"id": "ring-1", "from": "bayonet P", "to": "bayonet S"}],
        "panels": [
            {
                "id": "panel-1",
                "width_m": 1,
                "height_m": 2,
                "white_reflectance": 0.85,
                "black_reflectance": 0.04,
            }
        ],
        "weights": [{"id": "sandbag-1", "kg": 7}],
        "flags": [{"id": "flag-1", "width_m": 0.6, "height_m": 0.9}],
        "triggers": [{"id": "trigger-1"}],
        "seats": [seat | {"id": "chair-1"}],
        "risers": [seat | {"id": "riser-1"}],
    }


def raw(tree: Any) -> bytes:
    return json.dumps(tree).encode()


def spoilt(spoil: Callable[[Tree], object]) -> bytes:
    """Everything, with one thing done to it."""
    tree = everything()
    spoil(tree)
    return raw(tree)


def put(path: str, value: object) -> Callable[[Tree], None]:
    """Sets the value at a path like `kit.heads[0].mass_kg`."""
    steps: list[str | int] = []
    for part in path.replace("]", "").replace("[", ".").split("."):
        steps.append(int(part) if part.isdigit() else part)

    def spoil(tree: Any) -> None:
        for step in steps[:-1]:
            tree = tree[step]
        tree[steps[-1]] = value

    return spoil


def faults(data: bytes) -> list[str]:
    """What is said of an input that cannot be used."""
    with pytest.raises(codec.Unreadable) as refused:
        codec.read_request(data)
    return refused.value.faults
