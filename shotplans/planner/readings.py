"""What a meter reads, and what a face gets, anywhere in a solved set: direct light, panels and the room's bounce.

Exposures in lx s (flash) or lx (steady light). Pure reckoning on placed lights; where the meter is held and what is
on belongs to the meter round.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from shotplans.light import bounce, exposure, metering, screens, sources
from shotplans.light.units import unit
from shotplans.light.vectors import dot
from shotplans.planner.frame import Camera
from shotplans.planner.plan import Block, Flag, Light
from shotplans.planner.space import Box

F = NDArray[np.float64]
PANEL_GRID = ((-0.3, -0.3), (0.3, -0.3), (0.0, 0.0), (-0.3, 0.3), (0.3, 0.3))


def direct(light: Light, points: F) -> F:
    """Vector exposure (..., 3) of a headed light at its power."""
    assert light.emitter is not None
    power = 2.0**-light.power_stops
    return np.asarray(light.emitter.vector(points, light.at, light.axis) * power, dtype=np.float64)


def panel_radiance(panel: Light, sources_on: Sequence[Light], ambient: float) -> float:
    """Radiance of a white panel lit by the lights that are on and the room: rho E / pi, the mean of five places."""
    assert panel.panel is not None
    # With the lights themselves, so that no other can come to bear their numbers.
    key = (*map(id, sources_on), ambient)
    return panel.once(key, lambda: (_panel_radiance(panel, sources_on, ambient), tuple(sources_on)))[0]


def _panel_radiance(panel: Light, sources_on: Sequence[Light], ambient: float) -> float:
    assert panel.panel is not None
    across, up = sources.panel_axes(panel.axis)
    spots = np.array([panel.at + across * u * panel.width_m + up * v * panel.height_m for u, v in PANEL_GRID])
    got = np.full(len(spots), ambient)
    for light in sources_on:
        got = got + np.clip(direct(light, spots) @ panel.axis, 0.0, None)
    rho = float(panel.panel.white_reflectance or 0.0)
    return rho * float(got.mean()) / np.pi


def panel_vector(panel: Light, radiance: float, points: F) -> F:
    """Vector exposure (..., 3) of a panel of this radiance."""
    seen = panel.once(
        (points.shape, points.tobytes()),
        lambda: sources.rect_vector(points, panel.at, panel.axis, panel.width_m, panel.height_m),
    )
    return np.asarray(radiance * seen, dtype=np.float64)


def bounce_plane(lights_on: Sequence[Light], box: Box, blocks: Sequence[Block]) -> float:
    """Irradiance of the room's bounce on a plane at the face; black panels take their share away."""
    flux = sum(float(x.emitter.flux) * 2.0**-x.power_stops for x in lights_on if x.emitter)
    even = float(bounce.bounce_irradiance(flux, box.area_m2, box.reflectance))
    return even * (1 - blocked(blocks))


def blocked(blocks: Sequence[Block]) -> float:
    """Share of the bounce that the black panels take, each by its configuration factor; at most nine tenths."""
    open_share = 1.0
    for b in blocks:
        taken = float(bounce.blocked_share(b.panel.width_m, b.panel.height_m, b.distance_m))
        open_share *= 1 - taken * (1 - float(b.panel.black_reflectance or 0.0))
    return min(0.9, 1 - open_share)


def dome(vector: F, alpha: float, axis: F, recessed: bool) -> float:
    """Reading of a dome (or a recessed receptor) along `axis` for one light's vector exposure."""
    strength = float(np.linalg.norm(vector))
    if strength <= 0:
        return 0.0
    cos_t = float(np.clip(vector @ axis / strength, -1.0, 1.0))
    read = metering.recessed_reading if recessed else metering.dome_reading
    return float(read(cos_t, strength, alpha))


def straight(light: Light, point: F, axis: F, recessed: bool) -> float:
    """Reading at a point of what comes straight from one headed light, the dome along `axis`; no bounce."""
    return light.once(
        ("straight", point.tobytes(), axis.tobytes(), recessed),
        lambda: dome(direct(light, point), light.alpha(point), axis, recessed),
    )


def reading(
    point: F,
    axis: F,
    on: Sequence[Light],
    box: Box,
    *,
    panels: Sequence[Light] = (),
    blocks: Sequence[Block] = (),
    recessed: bool = False,
    with_bounce: bool = True,
) -> float:
    """What a meter at `point`, its dome along `axis`, reads with these lights on and these panels in."""
    even = bounce_plane(on, box, blocks) if with_bounce else 0.0
    total = even if recessed else float(metering.dome_uniform(even))
    for light in on:
        total += straight(light, point, axis, recessed)
    for panel in panels:
        total += dome(panel_vector(panel, panel_radiance(panel, on, even), point), panel.alpha(point), axis, recessed)
    return total


def readings(
    points: F, axes: F, on: Sequence[Light], box: Box, *, panels: Sequence[Light] = (), blocks: Sequence[Block] = (),
    recessed: bool = False,
) -> F:  # fmt: skip
    """What `reading` gives at points (n, 3), a dome along each of axes (n, 3), reckoned together."""
    even = bounce_plane(on, box, blocks)
    total = np.full(len(points), even if recessed else float(metering.dome_uniform(even)))
    read = metering.recessed_reading if recessed else metering.dome_reading
    seen = [(x, direct(x, points)) for x in on]
    seen += [(p, panel_vector(p, panel_radiance(p, on, even), points)) for p in panels]
    for light, vectors in seen:
        strength = np.sqrt(dot(vectors, vectors))
        cos_t = np.clip(dot(vectors, axes) / np.maximum(strength, 1e-300), -1.0, 1.0)
        away = points - light.at
        alpha = np.arctan(light.disc_size_m / (2 * np.maximum(np.sqrt(dot(away, away)), 1e-6)))
        total = total + np.where(strength > 0, read(cos_t, strength, alpha), 0.0)
    return np.asarray(total, dtype=np.float64)


def plane(
    points: F, normal: F, on: Sequence[Light], box: Box, *, blocks: Sequence[Block] = (), flags: Sequence[Flag] = ()
) -> F:
    """Exposure of a surface with one normal at points (n, 3): direct light, less what flags hide, and bounce."""
    total = np.full(len(points), bounce_plane(on, box, blocks))
    for light in on:
        total = total + np.clip(direct(light, points) @ normal, 0.0, None) * flagged(light, points, flags)
    return np.asarray(total, dtype=np.float64)


def flagged(light: Light, points: F, flags: Sequence[Flag]) -> F:
    """Share (n,) of a light's front that its flags leave in sight of points (n, 3); two flags are taken as apart."""
    left = np.ones(len(points))
    for flag in flags:
        if light.emitter is not None and flag.head == light.emitter.head.id:
            axis = np.array(flag.axis)
            hidden = screens.hidden_share(
                points, front(light), np.array(flag.at_m), sources.panel_axes(axis), flag.width_m, flag.height_m
            )
            left = left * (1 - hidden)
    return left


def front(light: Light, count: int = 7) -> F:
    """Points (n, 3) spread evenly over a light's front, `count` across and up; those off a disc are left out."""
    across, up = sources.panel_axes(light.axis)
    steps = (np.arange(count) + 0.5) / count - 0.5
    u, v = (a.ravel() for a in np.meshgrid(steps, steps))
    if light.emitter is not None and light.emitter.disc:
        inside = np.hypot(u, v) <= 0.5
        u, v = u[inside], v[inside]
    return np.asarray(light.at + across * (u * light.width_m)[:, None] + up * (v * light.height_m)[:, None])


def wanted_exposure(camera: Camera, steady: bool) -> float:
    """The exposure that the camera's settings ask for: lx s for flash, lx for steady light at the shutter."""
    if steady:
        return float(exposure.illuminance_lx(camera.aperture, camera.shutter_s, camera.iso))
    return float(exposure.luminous_exposure_lxs(camera.aperture, camera.iso))


def f_number(value: float, camera: Camera, steady: bool) -> float:
    """The f-number a meter set to the camera's ISO and shutter shows for an exposure."""
    amount = value * camera.shutter_s if steady else value
    return float(exposure.f_number_for(amount, camera.iso))


def toward(point: F, other: F) -> F:
    """Unit vector from one point to another."""
    return np.asarray(unit(other - point), dtype=np.float64)
