"""The head picture: our fixed head under a plan's own lights, as the camera of the plan sees it, in greys.

Belongs here: the picture as an array, and its exposure. Not here: the shape (`head`), a file of it, or words for it.

Every front is sampled by points, each seen or not past the head's own horizons; the sum over them is brought to what
the engine says the whole front gives there, so that the plate agrees with the plan's readings. Matt reflection, gloss
(`light.gloss.gloss`) and the room's even light. The meter's reading is what a matt grey facing it shows: linear light
of reflectance times pi over the reading, written in sRGB. Flags stand before their lights (`shades`). No hair, no eyes,
no scattering inside the skin.

Against a renderer (tests/proof/test_head_plate.py), matt, one front of 80 or 7 cm at 1.2 m: off by 0.2 to 0.4 % of the
brightest place in the mean, by less than 1.2 % in 95 of 100 pixels, the edge of a hard nose shadow by 1.1 mm at most
and as sharp. Finer horizons (216 across for 144) take a twentieth off the mean, no more.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shotplans.light import background, sources
from shotplans.light.gloss import fresnel, gloss
from shotplans.light.vectors import dot, scaled_to_one
from shotplans.planner import anatomy
from shotplans.planner.expect import Meter
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light
from shotplans.planner.readings import bounce_plane, direct, panel_radiance, panel_vector
from shotplans.seeing import head as shapes
from shotplans.seeing import shades

F = NDArray[np.float32]
PIXELS = 256
TALL_MM, MIDDLE_UP_MM = 330.0, -12.0  # of the picture at the head, and how its middle lies over the head's own
NEUTRAL, NEUTRAL_ROUGHNESS = 0.18, 0.30  # grey card's reflectance; the whole face's gloss (values.md K19)
MARCH, HALVINGS = 26, 7
LARGE, SMALL = 5, 3  # points across a front: key, all others


@dataclass(frozen=True)
class Seen:
    """What the camera sees of the head: pixels hit with their cover, and per pixel place, normal, radius direction."""

    pixels: NDArray[np.int64]
    cover: F
    place: F
    normal: F
    out: F
    to_camera: F
    horizon: F


def render(meter: Meter, sitter: Seated, *, reflectance: float = NEUTRAL, roughness: float = NEUTRAL_ROUGHNESS) -> F:
    """The picture (PIXELS, PIXELS) in linear light, 1 a matt white that faces the meter; the ground behind."""
    solved = meter.solved
    turn = anatomy.head_matrix(sitter.nose_deg, sitter.chin_deg)
    bridge = np.array([0.0, shapes.EYES_UP_MM, shapes.BRIDGE_MM])

    def inside(point: NDArray[np.float64]) -> F:
        """A place of the set in the head's frame, millimetres from its middle."""
        found: F = ((point - np.array(sitter.face_m)) @ turn * 1000 + bridge).astype(np.float32)
        return found

    camera = inside(solved.camera.at)
    seen = look(tuple(round(float(v)) for v in camera), sitter.nose_deg, sitter.chin_deg)
    base = meter.setting()
    ground = solved.ground
    lightness = ground.lightness if ground is not None else 50.0
    behind = min(float(background.relative_luminance(lightness)), 1.0)
    image = np.full(PIXELS * PIXELS, behind, dtype=np.float32)
    even = bounce_plane(meter.lights, solved.box, solved.blocks)
    towards_room = np.float32(even) * open_share(seen.horizon)
    radiance = of_the_room(towards_room, reflectance)
    places = np.array(sitter.face_m) + (seen.place - bridge) @ turn.T / 1000
    for light in solved.lights:
        if light.role == "background":
            continue
        whole = _vector(meter, light, places, even)
        screens = tuple(shades.before(light, solved.flags, inside))
        strength = np.linalg.norm(whole, axis=-1)
        radiance = radiance + _lit(seen, light, inside, turn, strength, screens, reflectance, roughness)
    value = radiance * np.pi / base
    image[seen.pixels] = seen.cover * value + (1 - seen.cover) * image[seen.pixels]
    return image.reshape(PIXELS, PIXELS)


def of_the_room(received: F, reflectance: float) -> F:
    """Radiance (n,) that even surroundings leave on skin which receives that much of them, in its unit per steradian.

    Matt, and mirrored as Fresnel's equations say of a surface that faces the camera; toward the edge of a head more is
    mirrored, which is left out. `reflectance` 0 to 1. Sources: [LAMBERT], [SKIN-GLOSS].
    """
    found: F = received / np.float32(np.pi) * np.float32(reflectance + float(fresnel(1.0)))
    return found


def greys(linear: F) -> NDArray[np.uint8]:
    """Linear light 0 to 1 as sRGB greys (IEC 61966-2-1); what is over white stays white."""
    value = np.clip(linear, 0.0, 1.0)
    coded = np.where(value <= 0.0031308, 12.92 * value, 1.055 * np.power(value, 1 / 2.4) - 0.055)
    return np.asarray(np.round(255 * coded), dtype=np.uint8)


def _vector(meter: Meter, light: Light, places: NDArray[np.float64], even: float) -> NDArray[np.float64]:
    if light.emitter is not None:
        return direct(light, places)
    return panel_vector(light, panel_radiance(light, meter.lights, even), places)


@lru_cache(maxsize=4)
def look(camera_mm: tuple[int, ...], nose_deg: float, chin_deg: float) -> Seen:
    """What a camera at a place of the head's frame sees of it, upright in the set: the same for all ways."""
    head, turn = shapes.the_head(), anatomy.head_matrix(nose_deg, chin_deg)
    camera = np.array(camera_mm, dtype=np.float32)
    ahead = (np.array([0.0, 0.0, 1.0]) @ turn).astype(np.float32)  # the set's z in the head's frame
    up = (np.array([0.0, 1.0, 0.0]) @ turn).astype(np.float32)
    right = np.cross(up, ahead).astype(np.float32)
    size = TALL_MM / PIXELS
    step = ((np.arange(PIXELS) + 0.5) * size - TALL_MM / 2).astype(np.float32)
    across, down = (a.ravel() for a in np.meshgrid(step, step))
    target = across[:, None] * right + (MIDDLE_UP_MM - down)[:, None] * up
    ray = scaled_to_one(target - camera)
    near = (np.hypot(across, down - MIDDLE_UP_MM) < 130) | ((np.abs(across) < 85) & (down > 40))
    pixels = np.flatnonzero(near)
    ray, target = ray[pixels], target[pixels]
    t, least, at_least = _meet(head.radius, target, ray)
    hit = t > -900
    cover = np.where(hit, 1.0, np.clip(0.5 - least / size + 0.5, 0.0, 1.0)).astype(np.float32)
    kept = cover > 0
    place = (target + np.where(hit, t, at_least)[:, None] * ray)[kept]
    out = scaled_to_one(place).astype(np.float32)
    u, v = shapes.to_plane(out)
    place = out * shapes.between(head.radius, u, v)[:, None]
    normal = scaled_to_one(shapes.between(head.normals, u, v))
    return Seen(
        pixels[kept], cover[kept], place, normal, out, scaled_to_one(camera - place),
        shapes.between(head.horizons, u, v),
    )  # fmt: skip


def _meet(radius: F, target: F, ray: F) -> tuple[F, F, F]:
    """Where each ray first meets the head (-1000: nowhere), and how near it comes at the nearest, and where."""
    count = len(target)
    steps = np.linspace(-150.0, 130.0, MARCH, dtype=np.float32)
    met = np.full(count, -1000.0, dtype=np.float32)
    least, at_least = np.full(count, 1e6, dtype=np.float32), np.zeros(count, dtype=np.float32)
    live = np.arange(count)
    for t in steps:
        off = _off(radius, target[live] + t * ray[live])
        closer = off < least[live]
        least[live[closer]], at_least[live[closer]] = off[closer], t
        met[live[off < 0]] = t
        live = live[off >= 0]
    hit = np.flatnonzero(met > -900)
    high = met[hit]
    low = high - (steps[1] - steps[0])
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        within = _off(radius, target[hit] + middle[:, None] * ray[hit]) < 0
        low, high = np.where(within, low, middle), np.where(within, middle, high)
    met[hit] = (low + high) / 2
    edge = np.flatnonzero((met < -900) & (least < 12))
    spread = (steps[1] - steps[0]) / 2
    for _ in range(6):  # the nearest approach, by halving
        for shift in (-spread, spread):
            there = at_least[edge] + shift
            off = _off(radius, target[edge] + there[:, None] * ray[edge])
            closer = off < least[edge]
            least[edge[closer]], at_least[edge[closer]] = off[closer], there[closer]
        spread /= 2
    return met, least, at_least


def _off(radius: F, place: F) -> F:
    far = np.sqrt(dot(place, place))
    u, v = shapes.to_plane(place / far[:, None])
    found: F = far - shapes.between(radius, u, v)
    return found


def open_share(horizon: F) -> F:
    """Share (...) of even surroundings that a place sees past its horizons (..., azimuths), weighed as they light it.

    Mean over the azimuths of cos^2 of the height angle, horizons below the plane counting as 0. Geometry.
    """
    found: F = np.square(np.cos(np.maximum(horizon, 0.0))).mean(axis=-1)
    return found


def visible(horizon: F, azimuth: F, height: F, ramp: float) -> F:
    """Share (n,) of a piece of a source seen past horizons (n, azimuths) at an azimuth and height angle, radians.

    The piece is `ramp` high, so that it comes up over the horizon gradually; horizons are linear between azimuths.
    """
    count = horizon.shape[1]
    turn = azimuth * (count / (2 * np.pi)) % count
    n = turn.astype(np.int32) % count
    share = turn - np.floor(turn)
    row = np.arange(len(n)) * count
    flat = horizon.ravel()
    edge = flat[row + n] * (1 - share) + flat[row + (n + 1) % count] * share
    found: F = np.clip((height - edge) / ramp + 0.5, 0.0, 1.0)
    return found


def _lit(
    seen: Seen, light: Light, inside: Callable[[NDArray[np.float64]], F], turn: NDArray[np.float64],
    strength: NDArray[np.float64], screens: Sequence[shades.Screen], reflectance: float, roughness: float,
) -> F:  # fmt: skip
    """Radiance (n,) a light leaves on the head, towards the camera; `strength` is what the whole front gives there."""
    points = [inside(p) for p in samples(light, LARGE if light.role == "key" else SMALL)]
    axis = (light.axis @ turn).astype(np.float32)
    received = irradiance(seen.place, seen.normal, seen.out, seen.horizon, points, axis, screens)
    got = strength.astype(np.float32) * received
    middle = np.mean(points, axis=0)
    toward = scaled_to_one(middle - seen.place)
    alpha = light.disc_size_m * 500 / float(np.linalg.norm(middle))
    lobe = float(np.sqrt(roughness**2 + np.arctan(alpha) ** 2 / 8))
    ci = np.maximum(dot(seen.normal, toward), np.sin(np.arctan(alpha)) / 2 + 0.02)
    co = np.maximum(dot(seen.normal, seen.to_camera), 0.05)
    sheen = gloss(np.minimum(ci, 1.0), np.minimum(co, 1.0), np.clip(dot(toward, seen.to_camera), -1, 1), lobe)
    found: F = (got * (reflectance / np.pi + np.minimum(sheen, 2.0))).astype(np.float32)
    return found


def irradiance(
    place: F, normal: F, out: F, horizon: F, points: Sequence[F], axis: F, screens: Sequence[shades.Screen] = ()
) -> F:
    """Irradiance (n,) of a front at places past their horizons and screens, over what it gives unhidden and square.

    `points` share the front evenly and shine along `axis` as Lambert's law says; each comes and goes over the horizon
    by half the angle between neighbours. All in one frame and length.
    """
    right, up = shapes.frame(out)
    total = np.zeros(len(place), dtype=np.float32)
    whole = np.zeros((len(place), 3), dtype=np.float32)
    pitch = 0.0
    if len(points) > 1:
        spread = np.ptp(np.array(points), axis=0)
        pitch = float(np.linalg.norm(spread)) / np.sqrt(2 * len(points))
    for point in points:
        way = point - place
        square = dot(way, way)
        far = np.sqrt(square)
        way = way / far[:, None]
        sent = np.maximum(-dot(way, axis), 0.0) / square
        whole += sent[:, None] * way
        height = np.arcsin(np.clip(dot(way, out), -1, 1))
        azimuth = np.arctan2(dot(way, up), dot(way, right))
        ramp = max(0.02, pitch / float(np.median(far)))
        reached = visible(horizon, azimuth, height, ramp)
        if screens:
            reached = reached * shades.past(screens, place, point, pitch)
        total += sent * np.maximum(dot(way, normal), 0.0) * reached
    found: F = total / np.maximum(np.sqrt(dot(whole, whole)), 1e-30)
    return found


def samples(light: Light, count: int) -> NDArray[np.float64]:
    """Points (n, 3) that share a light's even front, metres of the set."""
    across, up = sources.panel_axes(light.axis)
    if light.emitter is not None:
        wide, tall = light.emitter.even_sides
        disc = light.emitter.disc
    else:
        wide, tall, disc = light.width_m, light.height_m, False
    steps = (np.arange(count) + 0.5) / count - 0.5
    u, v = (a.ravel() for a in np.meshgrid(steps, steps))
    if disc:
        n = np.arange(count * count * 4 // 5)  # an even spiral: equal areas
        r, phi = 0.5 * np.sqrt((n + 0.5) / len(n)), n * np.pi * (3 - np.sqrt(5))
        u, v = r * np.cos(phi), r * np.sin(phi)
    return np.asarray(light.at + across * (u * wide)[:, None] + up * (v * tall)[:, None], dtype=np.float64)
