"""Answers cases in the format of fixtures/light_cases.json, so that anyone can audit the light.

Reading and checking of a case's inputs and which formula answers which topic; no formula lives here. The
frame and the conventions are the file's own (origin at the face).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import eyes, glasses, metering, shadows, sources
from shotplans.light.relief import relief
from shotplans.light.units import direction
from shotplans.light.vectors import scaled_to_one

F = NDArray[np.float64]
Answer = dict[str, float | bool]

_FAR = 1e6  # no length in a studio, in metres or millimetres, is greater; keeps all arithmetic finite
_NEAR = 1e-4
_OCCLUSION_LIGHT_MM, _OCCLUSION_CAMERA_MM = 1500.0, 2000.0  # fixed by the conventions of the file
_AHEAD = np.array([0.0, 0.0, 1.0])


class Unfit(ValueError):
    """A case that cannot be answered; the message is a sentence fit to show."""


class Inputs:
    """The inputs of one case, read with checks: every fault raises `Unfit` and names the input."""

    def __init__(self, found: object) -> None:
        if not isinstance(found, Mapping):
            raise Unfit("inputs: expected an object with the inputs of the case")
        self.found = found

    def given(self, name: str) -> bool:
        return self.found.get(name) is not None

    def number(self, name: str, low: float, high: float, default: float | None = None) -> float:
        if default is not None and not self.given(name):
            return default
        if name not in self.found:
            raise Unfit(f"{name}: is missing, expected a number from {low:g} to {high:g}")
        return _number(name, self.found[name], low, high)

    def numbers(self, name: str, count: int, low: float = -_FAR, high: float = _FAR) -> F:
        values = self.found.get(name)
        if not isinstance(values, list) or len(values) != count:
            raise Unfit(f"{name}: expected a list of {count} number{'s' if count > 1 else ''}")
        return np.array([_number(f"{name}[{at}]", value, low, high) for at, value in enumerate(values)])

    def choice(self, name: str, allowed: tuple[str, ...]) -> str:
        value = self.found.get(name)
        if not isinstance(value, str) or value not in allowed:
            raise Unfit(f"{name}: expected one of {', '.join(allowed)}")
        return value

    def direction(self, name: str) -> F:
        vector = self.numbers(name, 3)
        if not np.any(np.abs(vector) > 1e-9):
            raise Unfit(f"{name}: expected a direction, this one has no length")
        return scaled_to_one(vector / np.abs(vector).max())

    def size(self, name: str) -> tuple[float, ...]:
        count = 1 if self.choice("shape", ("disc", "rect")) == "disc" else 2
        return tuple(float(v) for v in self.numbers(name, count, _NEAR, _FAR))

    def light(self, prefix: str, distance: str) -> F:
        """Centre of a light given by azimuth, elevation and distance from the origin."""
        azimuth = self.number(f"{prefix}az_deg", -360, 360)
        elevation = self.number(f"{prefix}el_deg", -90, 90)
        return direction(azimuth, elevation) * self.number(distance, _NEAR, _FAR)


def _number(name: str, value: object, low: float, high: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise Unfit(f"{name}: expected a number from {low:g} to {high:g}")
    if not low <= value <= high:
        raise Unfit(f"{name}: lies outside {low:g} to {high:g}")
    return float(value)


def irradiance(inputs: Inputs) -> Answer:
    size, centre = inputs.size("size_m"), inputs.light("", "distance_m")
    point, normal = inputs.numbers("point_m", 3), inputs.direction("normal")
    towards = inputs.numbers("aim_m", 3) - centre
    if float(np.linalg.norm(towards)) < 1e-9:
        raise Unfit("aim_m: the light cannot be aimed at its own centre")
    axis = scaled_to_one(towards)
    if len(size) == 1:
        found = sources.disc_irradiance(point, normal, centre, axis, size[0])
    else:
        roll = inputs.number("roll_deg", -360, 360, 0.0)
        found = sources.rect_irradiance(point, normal, centre, axis, size[0], size[1], roll)
    return {"E_over_L_sr": float(found)}


def penumbra(inputs: Inputs) -> Answer:
    size, roll = inputs.size("size_m"), inputs.number("roll_deg", -360, 360, 0.0)
    source_m, gap_m = inputs.number("a_m", _NEAR, _FAR), inputs.number("b_m", _NEAR, _FAR)
    tilt = inputs.number("surface_tilt_deg", -89, 89, 0.0)
    try:
        answer: Answer = {"width_10_90_mm": shadows.edge_width_mm(size, source_m, gap_m, roll, tilt)}
    except ValueError as fault:
        raise Unfit(str(fault)) from fault
    if tilt == 0:
        answer["full_width_mm"] = 1000 * shadows.extent_m(size, roll) * gap_m / source_m  # similar triangles
    return answer


def groove(inputs: Inputs) -> Answer:
    theta, view = (np.radians(inputs.number(name, -90, 90)) for name in ("theta_deg", "view_deg"))
    alpha = np.radians(inputs.number("alpha_deg", 0.01, 89.9))
    to_key, to_camera = (np.array([np.sin(t), 0.0, np.cos(t)]) for t in (theta, view))
    # The key is one at normal incidence; what of it falls on the flat skin sets the fill.
    key = float(sources.cone_irradiance(np.cos(theta), alpha)) / (np.pi * np.sin(alpha) ** 2)
    lights, radii, strengths, dome = [to_key], [alpha], [1.0], 0.0
    if inputs.given("fill_kind") or inputs.given("fill_stops"):
        fill = key * 2.0 ** -inputs.number("fill_stops", -20, 60)
        if inputs.choice("fill_kind", ("dome", "front")) == "dome":
            dome = fill
        else:
            radius = np.radians(inputs.number("fill_alpha_deg", 0.01, 89.9))
            share = float(sources.cone_irradiance(np.cos(view), radius)) / (np.pi * np.sin(radius) ** 2)
            lights, radii = [to_key, to_camera], [alpha, radius]
            strengths = [1.0, fill / max(share, 1e-9)]
    found = relief(
        _AHEAD, to_camera, np.array(lights), np.array(radii), np.array(strengths),
        dome=dome, reflectance=inputs.number("rho", 0, 1), roughness=inputs.number("roughness", 0.02, 2),
        aspect=inputs.number("aspect", 1e-4, 5), line=(0.0, 1.0, 0.0), index=inputs.number("index", 1.001, 4, 1.4),
    )  # fmt: skip
    return {name: float(value) for name, value in found._asdict().items()}


def groove_change(inputs: Inputs) -> Answer:
    totals = []
    for name in ("before", "after"):
        try:
            found = groove(Inputs(inputs.found.get(name)))
        except Unfit as fault:
            raise Unfit(f"{name}.{fault}") from fault
        totals.append(found["shadow_stops"] + found["highlight_stops"])
    before, after = totals
    return {"R_before_stops": before, "R_after_stops": after, "change_stops": after - before}


def meter(inputs: Inputs) -> Answer:
    lights = inputs.found.get("lights")
    if not isinstance(lights, list) or not lights:
        raise Unfit("lights: expected a list with at least one light")
    dome = flat = 0.0
    for at, light in enumerate(lights):
        try:
            one = Inputs(light)
            cos_t = float(np.cos(np.radians(one.number("t_deg", -360, 360))))
            alpha = float(np.radians(one.number("alpha_deg", 0, 90)))
            strength = one.number("E_perp", 0, 1e12)
        except Unfit as fault:
            raise Unfit(f"lights[{at}].{fault}") from fault
        dome += float(metering.dome_reading(cos_t, strength, alpha))
        flat += float(metering.recessed_reading(cos_t, strength, alpha))
    return {"dome_reading": dome, "flat_reading": flat}


def catchlight(inputs: Inputs) -> Answer:
    size, centre = inputs.size("size_mm"), inputs.light("", "distance_mm")
    camera = inputs.number("camera_mm", 50, _FAR)
    if float(np.linalg.norm(centre)) < 50:
        raise Unfit("distance_mm: a light lies at least 50 mm before the eye")
    gaze = inputs.number("gaze_az_deg", -80, 80, 0.0), inputs.number("gaze_el_deg", -80, 80, 0.0)
    roll = inputs.number("roll_deg", -360, 360, 0.0)
    seen = eyes.catchlight(centre, camera, *gaze)
    outline = eyes.catchlight_outline(centre, -scaled_to_one(centre), size, camera, roll, *gaze)
    return {
        "dx_mm": float(seen.dx_mm),
        "dy_mm": float(seen.dy_mm),
        "clock_hours": float(seen.clock_hours),
        "radial_mm": float(outline.radial_mm),
        "tangential_mm": float(outline.tangential_mm),
        "on_cornea": bool(eyes.on_cornea(seen.normal_angle_deg)),
    }


def eye_occlusion(inputs: Inputs) -> Answer:
    side = 1.0 if inputs.choice("eye", ("image right", "image left")) == "image right" else -1.0
    azimuth, elevation = inputs.number("az_deg", -360, 360), inputs.number("el_deg", -90, 90)
    brow_z, bridge_z = inputs.number("brow_z_mm", -100, 100), inputs.number("bridge_z_mm", -100, 100)
    light = direction(azimuth, elevation) * _OCCLUSION_LIGHT_MM
    point = eyes.corneal_point(light, _OCCLUSION_CAMERA_MM)
    ray = scaled_to_one(light - point)
    lid = bool(eyes.lid_open(point))
    brow = bool(eyes.brow_clear(point, ray, side, brow_z))
    nose = bool(eyes.nose_clear(point, ray, side, bridge_z))
    return {"lid": lid, "brow": brow, "nose": nose, "all": lid and brow and nose}


def spectacles(inputs: Inputs) -> Answer:
    side = inputs.number("side", -1, 1)
    if abs(side) != 1:
        raise Unfit("side: expected 1 (lens on image right) or -1")
    cover = glasses.covered_share(
        inputs.light("light_", "light_distance_mm"),
        inputs.number("light_diameter_mm", _NEAR, _FAR),
        inputs.numbers("camera_mm", 3),
        side=side,
        yaw_deg=inputs.number("head_yaw_deg", -180, 180, 0.0),
        pitch_deg=inputs.number("head_pitch_deg", -90, 90, 0.0),
        base_dioptre=inputs.number("base_dioptre", 0, 20),
        panto_deg=inputs.number("panto_deg", -45, 45, 8.0),
        wrap_deg=inputs.number("wrap_deg", -45, 45, 5.0),
    )
    answer: Answer = {"hit": cover.share > 0, "fraction": cover.share}
    if cover.share > 0:
        answer |= {"spot_centre_x_mm": cover.x_mm, "spot_centre_y_mm": cover.y_mm}
    return answer


TOPICS: dict[str, Callable[[Inputs], Answer]] = {
    "irradiance": irradiance,
    "penumbra": penumbra,
    "relief": groove,
    "relief_change": groove_change,
    "meter": meter,
    "catchlight": catchlight,
    "eye_occlusion": eye_occlusion,
    "glasses": spectacles,
}


def answer(case: Mapping[str, Any]) -> Answer:
    """Quantities of one case by name, as in its `expected`; raises `Unfit` with a sentence if there are none."""
    topic = case.get("topic")
    if not isinstance(topic, str) or topic not in TOPICS:
        raise Unfit(f"topic: expected one of {', '.join(TOPICS)}")
    found = TOPICS[topic](Inputs(case.get("inputs")))
    if not np.all(np.isfinite([float(value) for value in found.values()])):
        raise Unfit("inputs: so extreme that no finite answer exists")
    return found


def answer_all(cases: list[Any]) -> tuple[dict[str, Answer | dict[str, str]], bool]:
    """Answers, or an error sentence, by the id of each case; whether every case was answered."""
    answers: dict[str, Answer | dict[str, str]] = {}
    sound = True
    for at, case in enumerate(cases):
        if not isinstance(case, Mapping) or not isinstance(case.get("id"), str):
            answers[f"cases[{at}]"], sound = {"error": "expected an object with an id, a topic and inputs"}, False
        elif case["id"] in answers:
            answers[f"cases[{at}]"], sound = {"error": f"the id {case['id']!r} is taken by an earlier case"}, False
        else:
            try:
                answers[case["id"]] = answer(case)
            except Unfit as fault:
                answers[case["id"]], sound = {"error": str(fault)}, False
    return answers, sound
