"""The plan as printed: recommend-io.md "Out", key by key, from solved set-ups. No decisions here, only numbers.

Lengths to a centimetre, angles to a degree, light to a tenth of a stop; each from the same rounded placement.
Sentences are in the language that is spoken while it is planned, and stay so: a plan that is kept is a record.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from shotplans.light import exposure
from shotplans.light.heads import dial_text
from shotplans.light.units import round_to
from shotplans.planner import ballast, circuits, colours, flags, glow, groups, pattern, sitter_view, uncertainty
from shotplans.planner.check import top_m
from shotplans.planner.expect import Meter, bearing_from_nose, main_sitter, surroundings
from shotplans.planner.plan import Light, Solved
from shotplans.planner.steps import setting
from studio.tongue import gettext as _

MIDDLE_SHARE = 0.12  # of the field's width either side of the middle line


def metre(value: float) -> float:
    return round(float(value), 2) + 0.0


def degree(value: float) -> float:
    return round(float(value), 0) + 0.0


def point(values: tuple[float, ...]) -> list[float]:
    return [metre(v) for v in values]


def expected(solved: Solved, meter: Meter, sure: dict[str, Any] | None = None) -> dict[str, Any]:
    """The `expected` block with its per-sitter part. `sure` is how sure the setting reading is, where it is known."""
    load = circuits.loads(solved.lights, solved.notes["circuits"])  # type: ignore[arg-type]
    block = surroundings(solved, meter, load)
    if sure is None:
        sure = uncertainty.printed(uncertainty.spread(solved, [setting(solved, meter)]))[0]
    block |= {f"setting_{name}": value for name, value in sure.items()}
    block["group"] = groups.measures(solved)
    block["ground"] = glow.printed(meter)
    block["per_sitter"] = sitter_view.views(solved, meter, in_brief_order(solved))
    return block


def in_brief_order(solved: Solved) -> list[Any]:
    """The seated in the order of the brief."""
    return sorted(solved.pose.seated, key=lambda s: s.person.index)


def sitters(solved: Solved) -> list[dict[str, Any]]:
    """Where everybody is, in the order of the brief."""
    edge = MIDDLE_SHARE * solved.camera.field_width_m
    return [
        {
            "label": s.person.label,
            "face_m": [round(v, 3) + 0.0 for v in s.face_m],
            "seat": s.person.seat,
            "body_turn_deg": degree(s.body_deg),
            "nose_bearing_deg": degree(s.nose_deg),
            "chin_deg": degree(s.chin_deg),
            "side_of_picture": "left" if s.face_m[0] < -edge else "right" if s.face_m[0] > edge else "middle",
            "row": s.row,
            "step": s.step,
        }
        for s in in_brief_order(solved)
    ]


def light(solved: Solved, one: Light) -> dict[str, Any]:
    """One light or panel."""
    emitter, held, main = one.emitter, one.mounting, main_sitter(solved)
    off = bearing_from_nose(one, main)
    to_place = np.array(one.distance_to or one.aim) - one.at
    cos_feather = float(np.clip(to_place @ one.axis / np.linalg.norm(to_place), -1.0, 1.0))
    return {
        "letter": one.letter,
        "role": one.role,
        "head": emitter.head.id if emitter else None,
        "modifier": emitter.modifier.id if emitter else None,
        "adapter": emitter.adapter if emitter else None,
        "stand": held.stand if held else None,
        "panel": one.panel.id if one.panel else None,
        "position_m": point(one.position),
        "aim_m": point(one.aim),
        "aim_words": one.aim_words,
        "distance_m": metre(one.distance_m),
        "bearing_deg": degree(one.bearing_deg),
        "height_angle_deg": degree(one.height_deg),
        "centre_height_m": metre(one.position[1]),
        "top_height_m": metre(top_m(one)),
        "bearing_from_nose_deg": {s.person.label: degree(bearing_from_nose(one, s)) for s in in_brief_order(solved)},
        "side": pattern.side(main.nose_deg, off),
        "feather_deg": degree(np.degrees(np.arccos(cos_feather))) if one.role == "key" or not emitter else 0.0,
        "tilt_deg": degree(-np.degrees(np.arcsin(np.clip(one.axis[1], -1, 1)))),
        "roll_deg": emitter.roll_deg if emitter else 0.0,
        "foot_m": [metre(v) for v in held.foot_m] if held else None,
        "arm_m": held.arm_m if held else None,
        "counterweight_kg": held.counterweight_kg if held else None,
        **ballast.printed(solved, one),
        "cloths": None,
        "grid": emitter.modifier.grid_deg if emitter else None,
        "power_below_full_stops": round(one.power_stops, 2) + 0.0 if emitter else None,
        "dial": _dial(one),
        "colour_shift_k": colours.shift_k(one, solved.lights[0]),
    }


def _dial(one: Light) -> str | None:
    if one.emitter is None:
        return None
    head = one.emitter.head
    return str(
        dial_text(
            str(head.dial.scale), float(head.dial.step or 0.1), float(head.range_stops), head.energy_ws, one.power_stops
        )
    )


def camera(solved: Solved) -> dict[str, Any]:
    """The camera and its settings."""
    c = solved.camera
    third, trim = exposure.nearest_third(c.aperture)
    head = solved.lights[0].emitter
    return {
        "body": c.body.id,
        "lens": c.lens.id,
        "focal_mm": round(c.focal_mm, 1),
        "distance_m": metre(c.distance_m),
        "height_m": metre(c.height_m),
        "pitch_deg": degree(c.pitch_deg),
        "aperture": round(c.aperture, 2),
        "shown": exposure.shown(c.aperture),
        "nearest_third": third,
        "trim_stops": float(round_to(trim, 0.1)),
        "shutter_s": round(c.shutter_s, 6),
        "iso": c.iso,
        "white_balance_k": head.head.kelvin if head else None,
        "orientation": c.orientation,
    }


def setup(solved: Solved) -> dict[str, Any]:
    """Where everything stands in one set-up; what follows from that is in outcome.py."""
    g, box = solved.ground, solved.box
    assert g is not None
    in_turn = solved.pose.in_turn
    return {
        "name": solved.setup.name,
        "intent": solved.setup.intent,
        "sitters": sitters(solved),
        "lights": [light(solved, x) for x in solved.lights],
        "blocks": blocks(solved),
        "camera": camera(solved),
        "background": {
            "id": g.item.id,
            "distance_m": metre(g.distance_m),
            "reading_below_setting_stops": float(round_to(-g.reading_above_setting, 0.1)),
            "lightness": round(g.lightness, 0) + 0.0,
            "covers": g.covers,
        },
        "room": {
            "axis": box.axis,
            "ground_from_wall_m": metre(box.ground_from_wall_m),
            "mark_from_ground_m": metre(g.distance_m),
            "mark_from_side_wall_m": metre(box.mark_from_side_wall_m),
            "camera_from_mark_m": metre(solved.camera.distance_m),
        },
        "changes_per_person": [sitter_view.changes(solved, s) for s in in_brief_order(solved)] if in_turn else [],
    }


def blocks(solved: Solved) -> list[dict[str, Any]]:
    """Black panels and flags: what takes light off."""
    taken = [
        {
            "id": b.panel.id,
            "at_m": point(b.at_m),
            "why": _("black side in: takes the room's bounce off the shadows"),
            "stand": b.stand,
            "distance_m": metre(b.distance_m),
            "bearing_deg": degree(b.bearing_deg),
            "shades": None,
            "keeps": "bounce",
            "size_m": [b.panel.width_m, b.panel.height_m],
            "aim_m": point((0.0, b.at_m[1], 0.0)),
        }
        for b in solved.blocks
    ]
    return taken + flags.printed(solved)


def unsolved(name: str, intent: str) -> dict[str, Any]:
    """A set-up without a usable light."""
    return {
        "name": name,
        "intent": intent,
        "sitters": [],
        "lights": [],
        "blocks": [],
        "camera": None,
        "background": None,
        "room": None,
        "meter_round": [],
        "teaches_most": None,
        "expected": None,
        "changes_per_person": [],
        "reasons": [],
        "alternatives": [],
    }
