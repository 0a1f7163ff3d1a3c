"""Step 6: the finished plan looked at afresh. Every limit that is broken becomes a problem; the rest are kept.

Looks at the placement as rounded and printed, not at what the search believed. A problem is a code with values;
words.py says it and names the smallest change that would mend it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import exposure, lenses
from shotplans.light.sources import panel_axes
from shotplans.light.units import round_to
from shotplans.planner.candidates import ABOVE_SPIGOT_M
from shotplans.planner.expect import Meter, cheeks_with_front_fill
from shotplans.planner.frame import CLOSED_MOST
from shotplans.planner.ground import GOOD_ENOUGH_L
from shotplans.planner.mounting import PANEL_KG
from shotplans.planner.plan import Light, Solved
from shotplans.planner.scene import Filled

F = NDArray[np.float64]
SMALL_M = 0.011  # what rounding to a centimetre can do
FILL_SLACK_STOPS = 0.25
AMBIENT_CLEAR_STOPS = 5.0


@dataclass(frozen=True)
class Problem:
    """A broken limit: by how much, in which unit, and the values its words need."""

    setup: str | None
    limit: str
    short_by: float
    unit: str
    code: str
    values: dict[str, Any] = field(default_factory=dict)


def problems(solved: Solved, meter: Meter, sitters: list[dict[str, Any]], expected: dict[str, Any]) -> list[Problem]:
    """Every broken limit of a solved set-up, in the order a studio would mend them."""
    name = solved.setup.name
    found = [
        *_space(solved),
        *_stands(solved),
        *_power(solved, meter, expected),
        *_lens(solved),
        *_sharpness(solved),
        *_eyes_and_glasses(solved, sitters),
        *_evenness(solved, expected),
        *_bounce(solved, meter, expected),
        *_ground(solved),
        *_circuits(expected),
        *_people(solved),
    ]
    return [Problem(name, p.limit, p.short_by, p.unit, p.code, p.values) for p in found]


def rim(light: Light) -> F:
    """Points (9, 3) on the rim of a front, and its middle."""
    across, up = panel_axes(light.axis)
    turn = np.arange(8) * np.pi / 4
    c, s = np.cos(turn), np.sin(turn)
    if light.emitter is None or not light.emitter.disc:
        scale = 1.0 / np.maximum(np.abs(c), np.abs(s))
        c, s = c * scale, s * scale
    edge = light.at + c[:, None] * across * light.width_m / 2 + s[:, None] * up * light.height_m / 2
    return np.concatenate([edge, light.at[None]])


def _space(solved: Solved) -> Iterator[Problem]:
    box, camera = solved.box, solved.camera
    for light in solved.lights:
        points = rim(light)
        through = float((points[:, 1] - box.ceiling_m).max())
        if through > 1e-6:
            yield Problem(None, "ceiling", _up(through), "m", "ceiling", {"letter": light.letter})
        low, high = box.low, box.high
        beyond = float(np.maximum(low - points, points - high)[:, [0, 2]].max())
        if beyond > 1e-6:
            yield Problem(None, "room", _up(beyond), "m", "light_in_wall", {"letter": light.letter})
        if float(camera.clearance(points)) < 1.0:
            yield Problem(None, "picture", 0.05, "m", "in_picture", {"letter": light.letter})
    behind = box.camera_reach_m - camera.distance_m
    if behind < -1e-6:
        yield Problem(None, "room", _up(-behind), "m", "no_room_for_camera", {})
    widest = max(abs(s.face_m[0]) for s in solved.pose.together) + 0.3
    beside = widest - (box.across_m / 2 - box.keep_out_m + 0.1)
    if beside > 1e-6:
        yield Problem(None, "room", _up(2 * beside), "m", "no_room_for_people", {})
    ground = solved.ground
    if ground is not None and ground.item.kind != "wall" and ground.item.width_m > box.across_m + 1e-6:
        over = ground.item.width_m - box.across_m
        yield Problem(None, "room", _up(over), "m", "ground_too_wide", {"item": ground.item.id})
    tallest = max(s.face_m[1] for s in solved.pose.seated) + 0.12
    if tallest > box.ceiling_m:
        yield Problem(None, "ceiling", _up(tallest - box.ceiling_m), "m", "people_under_ceiling", {})


def _stands(solved: Solved) -> Iterator[Problem]:
    stands = {s.id: s for s in solved.notes["stands"]}  # type: ignore[attr-defined]
    for light in solved.lights:
        held = light.mounting
        stand = stands.get(held.stand) if held else None
        if held is None or stand is None:
            yield Problem(None, "reach", 1.0, "stand", "no_stand_for", {"letter": light.letter})
            continue
        mass = light.emitter.mass_kg if light.emitter else PANEL_KG
        if mass > stand.max_load_kg:
            yield Problem(None, "load", round(mass - stand.max_load_kg, 1), "kg", "too_heavy", {"letter": light.letter})
        high = light.position[1] - stand.max_height_m - ABOVE_SPIGOT_M
        if high > SMALL_M:
            yield Problem(None, "reach", _up(high), "m", "too_high", {"letter": light.letter})
        if held.boom and held.arm_m > float(stand.reach_m or 0.0) + 0.01:
            short = held.arm_m - float(stand.reach_m or 0.0)
            yield Problem(None, "reach", _up(short), "m", "arm_short", {"letter": light.letter})
        weights = float(solved.notes["weights_kg"]) + float(stand.counterweight_kg or 0.0)  # type: ignore[arg-type]
        if held.boom and held.counterweight_kg > weights + 1e-6:
            short = held.counterweight_kg - weights
            yield Problem(None, "load", round(short, 1), "kg", "counterweight", {"letter": light.letter})


def _power(solved: Solved, meter: Meter, expected: dict[str, Any]) -> Iterator[Problem]:
    short = float(solved.notes["short"])  # type: ignore[arg-type]
    error = float(exposure.stops_between(solved.camera.aperture, expected["setting_reading"]["f_number"]))
    if abs(error) > 0.1 + 0.02:
        code = "power_short" if error < 0 else "power_over"
        if short <= 0.05:
            code = "dial_coarse"
        yield Problem(
            None, "power", max(0.1, round(abs(error), 1)), "stops", code, {"aperture": solved.camera.aperture}
        )
    for light in solved.lights:
        if light.emitter and light.power_stops > light.emitter.head.range_stops + 1e-6:
            over = light.power_stops - light.emitter.head.range_stops
            yield Problem(None, "power", round(over, 1), "stops", "power_low", {"letter": light.letter})
    camera = solved.camera
    if not solved.steady and camera.shutter_s < camera.body.sync_s * 0.999:
        stops = float(np.log2(camera.body.sync_s / camera.shutter_s))
        yield Problem(
            None,
            "sync",
            round(max(stops, 0.1), 1),
            "stops",
            "sync",
            {"sync_label": exposure.shutter_label(camera.body.sync_s)},
        )
    if not solved.steady:
        ambient = float(solved.notes["ambient_below_stops"])  # type: ignore[arg-type]
        if ambient < AMBIENT_CLEAR_STOPS:
            short = round(AMBIENT_CLEAR_STOPS - ambient, 1)
            yield Problem(None, "sync", max(0.1, short), "stops", "ambient", {"below": round(ambient, 1)})


def _lens(solved: Solved) -> Iterator[Problem]:
    camera = solved.camera
    if camera.distance_m < camera.floor_m - 0.051:
        yield Problem(
            None, "lens", _up(camera.floor_m - camera.distance_m), "m", "too_close", {"floor": camera.floor_m}
        )
    nearest = float(camera.lens.min_focus_m or 0.0)
    if camera.distance_m < nearest - 1e-6:
        yield Problem(None, "lens", _up(nearest - camera.distance_m), "m", "min_focus", {"nearest": nearest})
    widest = exposure.exact_f_number(camera.lens.max_aperture)
    if camera.aperture < widest * 0.99:
        stops = float(exposure.stops_between(camera.aperture, widest))
        yield Problem(None, "lens", round(stops, 1), "stops", "aperture_wide", {"widest": camera.lens.max_aperture})
    smallest = exposure.exact_f_number(camera.lens.min_aperture or 64.0)
    if camera.aperture > smallest * 1.01:
        stops = float(exposure.stops_between(smallest, camera.aperture))
        yield Problem(None, "lens", round(stops, 1), "stops", "aperture_small", {"smallest": camera.lens.min_aperture})
    if camera.iso > camera.body.max_iso or camera.iso < camera.body.base_iso:
        low, high = camera.body.base_iso, camera.body.max_iso
        stops = abs(float(np.log2(camera.iso / (high if camera.iso > high else low))))
        yield Problem(None, "power", round(max(stops, 0.1), 1), "stops", "iso_range", {"low": low, "high": high})


def _sharpness(solved: Solved) -> Iterator[Problem]:
    c = solved.camera
    near, far = lenses.depth_of_field_m(c.focal_mm, c.aperture, c.distance_m, c.blur_mm)
    short = max(c.distance_m - c.front_m, 0.05)
    missing = max(float(near) - short, c.distance_m + c.behind_m - float(far))
    if missing > 0.005:
        need = float(
            lenses.aperture_for_depth(
                c.focal_mm, c.distance_m, min(c.front_m, c.distance_m * 0.9), c.behind_m, c.blur_mm
            )
        )
        yield Problem(
            None,
            "sharpness",
            round(max(missing, 0.01), 2),
            "m",
            "sharpness",
            {"need": round(need, 1), "most": CLOSED_MOST},
        )


def _eyes_and_glasses(solved: Solved, sitters: list[dict[str, Any]]) -> Iterator[Problem]:
    key = solved.lights[0].letter
    wanted = 2 if solved.targets.row.both_eyes and solved.setup.view not in ("profile", "three_quarter") else 1
    for entry in sitters:
        lit = sum(1 for c in entry["catchlights"] if c["light"] == key and c["seen"])
        if lit < wanted:
            yield Problem(
                None,
                "catchlight",
                float(wanted - lit),
                "eyes",
                "catchlight",
                {"label": entry["label"], "seen": lit, "wanted": wanted},
            )
        for g in entry["glasses"]:
            if g["cure"]:
                yield Problem(
                    None,
                    "glare",
                    max(1.0, 1.0 - g["margin_deg"]),
                    "deg",
                    "glare",
                    {"label": entry["label"], "letter": g["light"], "cure": g["cure"]},
                )


def _evenness(solved: Solved, expected: dict[str, Any]) -> Iterator[Problem]:
    limit, spread = solved.targets.row.faces_stops, expected["evenness_stops"]
    if spread > float(round_to(limit, 0.1)) + 1e-9:
        bright, dim = expected["worst_pair"]
        yield Problem(
            None,
            "evenness",
            max(0.1, round(spread - limit, 1)),
            "stops",
            "evenness",
            {"spread": spread, "limit": limit, "bright": bright, "dim": dim},
        )


def _bounce(solved: Solved, meter: Meter, expected: dict[str, Any]) -> Iterator[Problem]:
    filled = solved.notes["fill"]
    assert isinstance(filled, Filled)
    level = float(expected["fill_below_key_stops"])
    if level < filled.wanted.low - FILL_SLACK_STOPS and filled.how in ("bounce", "blocked", "none"):
        short = round(filled.wanted.low - level, 1)
        yield Problem(
            None,
            "bounce",
            max(0.1, short),
            "stops",
            "bounce_over",
            {"level": level, "wanted": round(filled.wanted.low, 1)},
        )
    if level > filled.wanted.high + FILL_SLACK_STOPS and not _cheek_filled(solved, meter, expected, filled):
        short = round(level - filled.wanted.high, 1)
        yield Problem(
            None,
            "kit",
            max(0.1, short),
            "stops",
            "fill_short",
            {"level": level, "wanted": round(filled.wanted.high, 1)},
        )


def _cheek_filled(solved: Solved, meter: Meter, expected: dict[str, Any], filled: Filled) -> bool:
    """Whether a panel beside the face fills the shadow cheek as well as the wanted fill over the lens would.

    The dome at the camera reads little of a panel that stands beside the face, the cheek that faces it gets all of it.
    """
    if filled.how != "panel":
        return False
    return float(expected["shadow_below_lit_stops"]) <= cheeks_with_front_fill(solved, meter, filled.wanted.high) + 0.1


def _ground(solved: Solved) -> Iterator[Problem]:
    ground = solved.ground
    assert ground is not None
    if not ground.covers:
        yield Problem(None, "background", _up(ground.covers_short_m), "m", "ground_narrow", {"item": ground.item.id})
    low, high = ground.wanted
    if low >= 95:
        if ground.reading_above_setting < 0.25:
            yield Problem(
                None,
                "background",
                round(0.3 - ground.reading_above_setting, 1),
                "stops",
                "ground_not_white",
                {"item": ground.item.id},
            )
        elif ground.spread_stops > 0.35:
            yield Problem(
                None,
                "background",
                round(ground.spread_stops - 0.3, 1),
                "stops",
                "ground_uneven",
                {"item": ground.item.id},
            )
    elif ground.lightness < low - GOOD_ENOUGH_L or ground.lightness > high + GOOD_ENOUGH_L:
        code = "ground_dark" if ground.lightness < low else "ground_light"
        short = low - ground.lightness if ground.lightness < low else ground.lightness - high
        yield Problem(
            None,
            "background",
            max(0.1, round(short, 1)),
            "L*",
            code,
            {"item": ground.item.id, "lightness": round(ground.lightness), "low": round(low), "high": round(high)},
        )


def _circuits(expected: dict[str, Any]) -> Iterator[Problem]:
    for row in expected["load"]:
        over = row["watts"] - row["limit_watts"]
        if over > 0:
            yield Problem(None, "circuit", round(over), "W", "circuit", {"circuit": row["circuit"]})


def _people(solved: Solved) -> Iterator[Problem]:
    rows = {s.row for s in solved.pose.together}
    if len(rows) > 4:
        yield Problem(None, "people", float(len(rows) - 4), "rows", "too_many_rows", {"rows": len(rows)})
    if solved.targets.intent_offered:
        yield Problem(None, "people", float(len(solved.pose.together) - 3), "people", "character_for_many", {})


def _up(value: float) -> float:
    """A shortage in metres, rounded up to 5 cm: a plan may ask for a little more, never for less than it needs."""
    return float(round_to(np.ceil(value / 0.05 - 1e-9) * 0.05, 0.05))
