"""Why the lights are as they are: key, fill, glasses, accent. Called by reasons.py in the order of its list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from shotplans.light import shadows
from shotplans.light.units import direction, round_to
from shotplans.planner import words
from shotplans.planner.expect import (
    MOST_BELOW_STOPS,
    NOSE_GAP_M,
    Meter,
    apparent,
    bearing_from_nose,
    levels_at_faces,
    main_sitter,
)
from shotplans.planner.plan import Light, Solved
from shotplans.planner.reason import OPTICS, TRADE, Reason, light_path
from shotplans.planner.scene import Filled
from shotplans.planner.words import sides
from studio.tongue import gettext as _
from studio.tongue import noop


def key(solved: Solved, meter: Meter, expected: dict[str, Any], at: str, side_why: str) -> Iterator[Reason]:
    """The key: bearing, side, height, distance, modifier."""
    light, row = solved.lights[0], solved.targets.row
    assert light.emitter is not None
    intent = (f"{at}.intent",)
    side = "right" if light.bearing_deg >= 0 else "left"
    yield _bearing(solved, expected, intent, side)
    ordered = side_why == "ordered"
    side_values = {"side": sides.said(side), "why": _(words.SIDE_WHY[side_why])}
    yield Reason(
        "lights[0].bearing_deg",
        "side",
        ("brief.key_side",) if ordered else (),
        noop("the brief") if ordered else TRADE,
        side_values,
    )
    height = {
        "height": f"{light.height_deg:.0f}",
        "sentence": _(row.sentence),
        "low": f"{row.height.low:.0f}",
        "high": f"{row.height.high:.0f}",
    }
    inside = row.height.low - 0.5 <= light.height_deg <= row.height.high + 0.5
    yield Reason("lights[0].height_angle_deg", "height" if inside else "height_traded", intent, TRADE, height)
    yield Reason("lights[0].distance_m", "distance", intent, OPTICS, _closer(solved, meter, expected, light))
    standard = solved.notes["brief"].standard_of(solved.setup)  # type: ignore[attr-defined]
    modifier = light.emitter.modifier
    named = standard is not None and standard.key_modifier in (modifier.id, modifier.label)
    kinds = int(solved.notes["kinds"])  # type: ignore[call-overload]
    yield Reason(
        "lights[0].modifier",
        "modifier_standard" if named else "modifier" if kinds > 1 else "modifier_only",
        ("kit.modifiers",),
        TRADE,
        {
            "modifier": light.emitter.modifier.label or light.emitter.modifier.id,
            "head": light.emitter.head.label or light.emitter.head.id,
            "kinds": kinds,
        },
    )


def _bearing(solved: Solved, expected: dict[str, Any], intent: tuple[str, ...], side: str) -> Reason:
    light, row, sitter = solved.lights[0], solved.targets.row, main_sitter(solved)
    values = {"bearing": f"{abs(light.bearing_deg):.0f}", "side": sides.said(side)}
    if len(solved.pose.together) > 1:
        more = {"even": expected["evenness_stops"], "limit": row.faces_stops}
        return Reason("lights[0].bearing_deg", "bearing_many", intent, OPTICS, {**values, **more})
    rel = bearing_from_nose(light, sitter)
    inside = row.nose.low - 0.5 <= abs(rel) <= row.nose.high + 0.5
    more = {
        "rel": f"{abs(rel):.0f}",
        "label": sitter.person.label,
        "sentence": _(row.sentence),
        "low": f"{row.nose.low:.0f}",
        "high": f"{row.nose.high:.0f}",
        "pattern": expected["pattern"],
    }
    code = "bearing" if inside else "bearing_traded"
    return Reason("lights[0].bearing_deg", code, intent, TRADE, {**values, **more})


def _closer(solved: Solved, meter: Meter, expected: dict[str, Any], key: Light) -> dict[str, Any]:
    """What moving the key nearer by 30 cm (20 cm under a metre and a half) would do, reckoned anew."""
    step = 0.3 if key.distance_m >= 1.5 else 0.2 if key.distance_m >= 0.8 else 0.1
    near = key.distance_m - step
    spot = solved.mark_eyes + near * direction(key.bearing_deg, key.height_deg)
    moved = replace(key, position=(float(spot[0]), float(spot[1]), float(spot[2])), distance_m=near)
    gain = float(np.log2(meter.direct(moved) / meter.direct(key)))
    edge = float(shadows.edge_disc_mm(key.disc_size_m, near, NOSE_GAP_M))
    now = float(shadows.edge_disc_mm(key.disc_size_m, key.distance_m, NOSE_GAP_M))
    uneven = ""
    if len(solved.pose.together) > 1:
        nearer = replace(meter, solved=replace(solved, lights=(moved, *solved.lights[1:])))
        after = levels_at_faces(nearer)
        more = float(round_to(max(after) - min(after) - expected["evenness_stops"], 0.1))
        said = _(", faces {stops} stop less even") if more > 0 else _(", faces as even as before")
        uneven = said.format(stops=f"{more:.1f}")
    return {
        "distance": f"{key.distance_m:.2f}",
        "size": f"{apparent(key):.0f}",
        "edge": f"{expected['shadow_edge_mm']:.0f}",
        "step": f"{step * 100:.0f}",
        "gain": float(round_to(gain, 0.1)),
        "softer": f"{(edge / now - 1) * 100:.0f}",
        "uneven": uneven,
    }


def fill(solved: Solved, expected: dict[str, Any], at: str) -> Iterator[Reason]:
    filled = solved.notes["fill"]
    assert isinstance(filled, Filled)
    light = solved.light("fill")
    about = light_path(light) if light else "expected.fill_below_key_stops"
    beside = filled.how == "panel" and expected["fill_below_key_stops"] > filled.wanted.high + 0.05
    over = filled.how == "bounce" and expected["fill_below_key_stops"] < filled.wanted.low - 0.05
    yield Reason(
        about,
        "fill_panel_beside" if beside else "fill_bounce_over" if over else f"fill_{filled.how}",
        (f"{at}.intent",),
        OPTICS,
        {
            "level": expected["fill_below_key_stops"],
            "low": f"{filled.wanted.low:.1f}",
            "high": f"{filled.wanted.high:.1f}",
            "bounce": f"{min(MOST_BELOW_STOPS, filled.bounce_stops):.1f}",
            "panels": len(solved.blocks),
            "distance": f"{light.distance_m:.2f}" if light else "",
            "cheek": expected["shadow_below_lit_stops"],
        },
    )


def glasses(solved: Solved, sitters: list[dict[str, Any]]) -> Iterator[Reason]:
    index = {s.person.label: s.person.index for s in solved.pose.seated}
    for n, entry in enumerate(sitters):
        for g in entry["glasses"]:
            code = "glasses_shows" if g["cure"] else "glasses_clear"
            yield Reason(
                f"expected.per_sitter[{n}].glasses",
                code,
                (f"sitters[{index[entry['label']]}].glasses",),
                noop("our own study, checked by traced rays [LIGHT-6]"),
                {"label": entry["label"], "letter": g["light"], "margin": g["margin_deg"], "cure": g["cure"]},
            )
