"""Step 6: the finished plan looked at afresh. Every limit that is broken becomes a problem; the rest are kept.

Looks at the placement as rounded and printed, not at what the search believed. A problem is a code with values;
words.py says it and names the smallest change that would mend it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import exposure, lenses
from shotplans.light.sources import panel_axes
from shotplans.planner import check_grounds, check_people, check_rigs
from shotplans.planner.expect import Meter
from shotplans.planner.frame import CLOSED_MOST
from shotplans.planner.plan import Light, Solved
from shotplans.planner.problem import Problem, up

F = NDArray[np.float64]
AMBIENT_CLEAR_STOPS = 5.0


def problems(solved: Solved, meter: Meter, sitters: list[dict[str, Any]], expected: dict[str, Any]) -> list[Problem]:
    """Every broken limit of a solved set-up, in the order a studio would mend them."""
    name = solved.setup.name
    found = [
        *_space(solved),
        *check_rigs.stands(solved),
        *_power(solved, meter, expected),
        *_lens(solved),
        *_sharpness(solved),
        *check_people.eyes_and_glasses(solved, sitters),
        *check_people.evenness(solved, expected),
        *check_grounds.bounce(solved, meter, expected),
        *check_grounds.ground(solved),
        *check_rigs.circuits(expected),
        *check_people.people(solved),
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
            yield Problem(None, "ceiling", up(through), "m", "ceiling", {"letter": light.letter})
        low, high = box.low, box.high
        beyond = float(np.maximum(low - points, points - high)[:, [0, 2]].max())
        if beyond > 1e-6:
            yield Problem(None, "room", up(beyond), "m", "light_in_wall", {"letter": light.letter})
        if float(camera.clearance(points)) < 1.0:
            yield Problem(None, "picture", 0.05, "m", "in_picture", {"letter": light.letter})
    behind = box.camera_reach_m - camera.distance_m
    if behind < -1e-6:
        yield Problem(None, "room", up(-behind), "m", "no_room_for_camera", {})
    widest = max(abs(s.face_m[0]) for s in solved.pose.together) + 0.3
    beside = widest - (box.across_m / 2 - box.keep_out_m + 0.1)
    if beside > 1e-6:
        yield Problem(None, "room", up(2 * beside), "m", "no_room_for_people", {})
    ground = solved.ground
    if ground is not None and ground.item.kind != "wall" and ground.item.width_m > box.across_m + 1e-6:
        over = ground.item.width_m - box.across_m
        yield Problem(None, "room", up(over), "m", "ground_too_wide", {"item": ground.item.id})
    tallest = max(s.face_m[1] for s in solved.pose.seated) + 0.12
    if tallest > box.ceiling_m:
        yield Problem(None, "ceiling", up(tallest - box.ceiling_m), "m", "people_under_ceiling", {})


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
            None, "lens", up(camera.floor_m - camera.distance_m), "m", "too_close", {"floor": camera.floor_m}
        )
    nearest = float(camera.lens.min_focus_m or 0.0)
    if camera.distance_m < nearest - 1e-6:
        yield Problem(None, "lens", up(nearest - camera.distance_m), "m", "min_focus", {"nearest": nearest})
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


