"""Step 6: the finished plan looked at afresh. Every limit that is broken becomes a problem; the rest are kept.

Looks at the placement as rounded and printed, not at what the search believed. A problem is a code with values;
`words` says it and names the smallest change that would mend it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import exposure
from shotplans.light.sources import panel_axes
from shotplans.planner import check_behind, check_grounds, check_people, check_rigs, uncertainty, wanted
from shotplans.planner.anatomy import CROWN_AND_HAIR_M
from shotplans.planner.brief import Brief
from shotplans.planner.candidates import HEAD_HALF_M
from shotplans.planner.expect import Meter
from shotplans.planner.frame import Camera
from shotplans.planner.plan import Light, Solved
from shotplans.planner.problem import Problem, up

F = NDArray[np.float64]
AMBIENT_CLEAR_STOPS = 5.0  # room light this far under a flash does not colour the picture: common practice
SET_WITHIN_STOPS = 0.12  # a tenth, and what printing to a tenth can add


def problems(solved: Solved, meter: Meter, sitters: list[dict[str, Any]], expected: dict[str, Any]) -> list[Problem]:
    """Every broken limit of a solved set-up, in the order a studio would mend them."""
    name = solved.setup.name
    found = [
        *_space(solved),
        *check_people.room(solved),
        *check_rigs.stands(solved),
        *check_rigs.dials(solved),
        *check_rigs.moving(solved),
        *_power(solved, expected),
        *_framing(solved),
        *_lens(solved),
        *check_people.sharpness(solved),
        *check_people.eyes_and_glasses(solved, sitters),
        *check_people.evenness(solved, meter, expected),
        *check_grounds.bounce(solved, meter, expected),
        *check_grounds.ground(solved),
        *check_behind.problems(solved, meter),
        *check_rigs.circuits(solved, expected),
        *check_people.people(solved, meter),
    ]
    return [Problem(name, p.limit, p.short_by, p.unit, p.code, p.values) for p in found]


def rim(light: Light) -> F:
    """Points (9, 3) on the rim of a front, and its middle."""
    return light.once("rim", lambda: _rim(light))


def _rim(light: Light) -> F:
    across, up = panel_axes(light.axis)
    turn = np.arange(8) * np.pi / 4
    c, s = np.cos(turn), np.sin(turn)
    if light.emitter is None or not light.emitter.disc:
        scale = 1.0 / np.maximum(np.abs(c), np.abs(s))
        c, s = c * scale, s * scale
    edge = light.at + c[:, None] * across * light.width_m / 2 + s[:, None] * up * light.height_m / 2
    return np.asarray(np.concatenate([edge, light.at[None]]), dtype=np.float64)


def top_m(light: Light) -> float:
    """Height of the highest part of a light: its rim, or the head behind its front."""
    return max(float(rim(light)[:, 1].max()), back_top_m(light))


def back_top_m(light: Light) -> float:
    """Height of the top of the head behind a front; of a panel, its middle."""
    if light.emitter is None:
        return light.position[1]
    return float((light.at - light.axis * light.emitter.depth_m)[1]) + HEAD_HALF_M


def _stand_seen_m(light: Light, camera: Camera) -> float:
    """How far (m) sideways a light's column must go to leave the picture, by its tenths that are in it; 0 where none
    is."""
    if light.mounting is None:
        return 0.0
    x, z = light.mounting.foot_m
    column = np.array([[[x, light.position[1] * n / 10, z]] for n in range(10)])
    seen = column[camera.clearance(column) < 1.0]
    return camera.out_of_picture_m(seen[:, 0], sideways=True) if len(seen) else 0.0


def _space(solved: Solved) -> Iterator[Problem]:
    box, camera = solved.box, solved.camera
    for light in solved.lights:
        points = rim(light)
        through = top_m(light) - box.ceiling_m
        if through > 1e-6:
            yield Problem(None, "ceiling", up(through), "m", "ceiling", {"letter": light.letter})
        low, high = box.low, box.high
        beyond = float(np.maximum(low - points, points - high)[:, [0, 2]].max())
        if beyond > 1e-6:
            yield Problem(None, "room", up(beyond), "m", "light_in_wall", {"letter": light.letter})
        inside = camera.out_of_picture_m(points)
        stand = _stand_seen_m(light, camera) if inside == 0.0 else 0.0
        if inside > 0.0:
            yield Problem(None, "picture", max(0.05, up(inside)), "m", "in_picture", {"letter": light.letter})
        elif stand > 0.0:
            yield Problem(None, "picture", max(0.05, up(stand)), "m", "stand_in_picture", {"letter": light.letter})
    behind = box.camera_reach_m - camera.distance_m
    if behind < -1e-6:
        yield Problem(None, "room", up(-behind), "m", "no_room_for_camera", {})
    ground = solved.ground
    if ground is not None and ground.item.kind != "wall" and ground.item.width_m > box.across_m + 1e-6:
        over = ground.item.width_m - box.across_m
        yield Problem(None, "room", up(over), "m", "ground_too_wide", {"item": ground.item.id})
    tallest = max(s.face_m[1] for s in solved.pose.seated) + CROWN_AND_HAIR_M
    if tallest > box.ceiling_m:
        yield Problem(None, "ceiling", up(tallest - box.ceiling_m), "m", "people_under_ceiling", {})


def _power(solved: Solved, expected: dict[str, Any]) -> Iterator[Problem]:
    yield from _off_aperture(solved, expected)
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
            {"sync_label": exposure.shutter_label(camera.body.sync_s), "lit": check_rigs.lit_percent(camera)},
        )
    if not solved.steady:
        ambient = float(solved.notes["ambient_below_stops"])  # type: ignore[arg-type]
        if ambient < AMBIENT_CLEAR_STOPS:
            short = round(AMBIENT_CLEAR_STOPS - ambient, 1)
            yield Problem(None, "sync", max(0.1, short), "stops", "ambient", {"below": round(ambient, 1)})


def _off_aperture(solved: Solved, expected: dict[str, Any]) -> Iterator[Problem]:
    """The setting reading beside the aperture: out of the lights' reach, between the dial's steps, or not dialled."""
    error = float(exposure.stops_between(solved.camera.aperture, expected["setting_reading"]["f_number"]))
    if abs(error) <= SET_WITHIN_STOPS:
        return
    under = error < 0
    values: dict[str, Any] = {"aperture": solved.camera.aperture}
    if float(solved.notes["short"]) > 0.05:  # type: ignore[arg-type]
        code = "power_short" if under else "power_over"
    elif abs(error) <= 0.5 * max(uncertainty.dial_step_stops(x) for x in solved.by_role("key", "fill")) + 0.1:
        code = "dial_coarse"
    else:
        code = "dial_off"
        shown = expected["setting_reading"]["shown"]
        values = {"way": "under" if under else "over", "turn": "up" if under else "down", "shown": shown}
    yield Problem(None, "power", max(0.1, round(abs(error), 1)), "stops", code, values)


def _framing(solved: Solved) -> Iterator[Problem]:
    """A camera nearer than its framing wants, to the step it is set to: the picture is tighter than asked."""
    camera, pose = solved.camera, solved.pose
    brief = solved.notes["brief"]
    assert isinstance(brief, Brief)
    need = wanted.camera_m(brief, solved.setup, pose, camera)
    short = need - camera.distance_m
    if short > 0.05:
        shorter = wanted.focal_mm(brief, solved.setup, pose, camera, camera.distance_m)
        values = {
            "have": f"{camera.distance_m:.2f}", "need": f"{need:.2f}", "focal": f"{camera.focal_mm:g}",
            "shorter": f"{np.floor(shorter):.0f}",
        }  # fmt: skip
        yield Problem(None, "room", up(short), "m", "room_too_small", values)


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
