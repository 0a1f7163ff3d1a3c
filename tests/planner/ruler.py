"""Plain-Python geometry and photometry for the contract: no code of the planner, no NumPy.

What belongs here: vectors, the picture's edges, the front of a source, light by brute summing over that front, and
how a reading is spelled. The set's frame is that of recommend-io.md (origin on the floor, +x camera right, +y up,
+z to the camera); metres, degrees, stops.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

Vector = tuple[float, float, float]
FULL_STOPS = ("0.5", "0.7", "1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45", "64", "90", "128")
THIRDS = (
    "0.5", "0.56", "0.63", "0.7", "0.8", "0.9", "1", "1.1", "1.2", "1.4", "1.6", "1.8", "2", "2.2", "2.5", "2.8", "3.2",
    "3.5", "4", "4.5", "5", "5.6", "6.3", "7.1", "8", "9", "10", "11", "13", "14", "16", "18", "20", "22", "25", "29",
    "32", "36", "40", "45", "51", "57", "64", "72", "80", "90",
)  # fmt: skip


def vec(values: Any) -> Vector:
    x, y, z = values
    return (float(x), float(y), float(z))


def minus(a: Vector, b: Vector) -> Vector:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def plus(a: Vector, b: Vector, scale: float = 1.0) -> Vector:
    return (a[0] + scale * b[0], a[1] + scale * b[1], a[2] + scale * b[2])


def dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vector) -> float:
    return math.sqrt(dot(a, a))


def unit(a: Vector) -> Vector:
    size = length(a)
    return (a[0] / size, a[1] / size, a[2] / size) if size else (0.0, 0.0, 1.0)


def between_deg(a: Vector, b: Vector) -> float:
    """Angle between two directions, degrees."""
    return math.degrees(math.acos(max(-1.0, min(1.0, dot(unit(a), unit(b))))))


def turn_deg(a: float, b: float) -> float:
    """Smallest angle from b to a, -180..180."""
    return (a - b + 180.0) % 360.0 - 180.0


def off_step(value: float, step: float) -> float:
    """How far a value lies from the nearest multiple of a step."""
    return abs(value - round(value / step) * step)


def shape_of(light: dict[str, Any], kit: dict[str, Any]) -> tuple[str, float, float]:
    """(disc, diameter, diameter) or (rect, width, height) of a light's front; a bare head counts as 10 cm."""
    for panel in kit.get("panels") or []:
        if panel["id"] == light["panel"]:
            return ("rect", panel["width_m"], panel["height_m"])
    for modifier in kit.get("modifiers") or []:
        if modifier["id"] == light["modifier"]:
            if modifier["shape"] == "disc":
                return ("disc", modifier["diameter_m"], modifier["diameter_m"])
            return ("rect", modifier["width_m"], modifier["height_m"])
    return ("disc", 0.1, 0.1)


def front_axes(light: dict[str, Any]) -> tuple[Vector, Vector, Vector]:
    """Axis, width axis and height axis of a front, as in the conventions of light_cases.json (roll turns both)."""
    axis = unit(minus(vec(light["aim_m"]), vec(light["position_m"])))
    across = unit(cross((0.0, 1.0, 0.0), axis)) if abs(axis[1]) < 0.999 else (1.0, 0.0, 0.0)
    up = cross(axis, across)
    roll = math.radians(light["roll_deg"] or 0.0)
    wide = plus(
        (across[0] * math.cos(roll), across[1] * math.cos(roll), across[2] * math.cos(roll)), up, math.sin(roll)
    )
    high = plus((up[0] * math.cos(roll), up[1] * math.cos(roll), up[2] * math.cos(roll)), across, -math.sin(roll))
    return axis, wide, high


def front_points(light: dict[str, Any], kit: dict[str, Any], rings: int = 4) -> Iterator[tuple[Vector, float, float]]:
    """Points spread over a front: (point, weight, share of the half size from the middle)."""
    kind, width, height = shape_of(light, kit)
    centre = vec(light["position_m"])
    _, wide, high = front_axes(light)
    if kind == "disc":
        for i in range(rings):
            share = (i + 0.5) / rings
            for j in range(16):
                turn = 2 * math.pi * (j + 0.5) / 16
                edge = plus(centre, wide, share * width / 2 * math.cos(turn))
                yield plus(edge, high, share * height / 2 * math.sin(turn)), share, share
        return
    for i in range(2 * rings):
        for j in range(4 * rings):
            u, v = (i + 0.5) / rings - 1, (j + 0.5) / (2 * rings) - 1
            yield plus(plus(centre, wide, u * width / 2), high, v * height / 2), 1.0, math.hypot(u, v) / math.sqrt(2)


def rim_points(light: dict[str, Any], kit: dict[str, Any]) -> Iterator[Vector]:
    """The front's rim: 24 points of a circle or the corners and side middles of a rectangle, and its middle."""
    kind, width, height = shape_of(light, kit)
    centre = vec(light["position_m"])
    _, wide, high = front_axes(light)
    yield centre
    for j in range(24):
        turn = 2 * math.pi * j / 24
        u, v = math.cos(turn), math.sin(turn)
        if kind == "rect":
            largest = max(abs(u), abs(v))
            u, v = u / largest, v / largest
        yield plus(plus(centre, wide, u * width / 2), high, v * height / 2)


def top_of_front_m(light: dict[str, Any], kit: dict[str, Any]) -> float:
    return max(point[1] for point in rim_points(light, kit))


def beam_power(beam_deg: float | None) -> float:
    """n of cos^n with this full width at half maximum; 120 degrees (a matt front) where unknown."""
    return math.log(0.5) / math.log(math.cos(math.radians((beam_deg or 120.0) / 2)))


def light_at(light: dict[str, Any], kit: dict[str, Any], modifier: dict[str, Any], point: Vector) -> float:
    """Light on a plane at `point` that faces the front's middle, relative to 1 m in front of it on the axis.

    Brute sum over the front: cos^n at the source, the receiver's cosine, inverse square, a hot middle by core_stops.
    """
    axis, _, _ = front_axes(light)
    centre = vec(light["position_m"])

    def total(place: Vector) -> float:
        toward = unit(minus(centre, place))
        power = beam_power(modifier.get("beam_deg"))
        result = 0.0
        for spot, weight, share in front_points(light, kit):
            ray = minus(place, spot)
            leaving = max(0.0, dot(unit(ray), axis))
            hot = 2 ** (-(modifier.get("core_stops") or 0.0) * share**2)
            result += weight * hot * leaving**power * max(0.0, -dot(unit(ray), toward)) / dot(ray, ray)
        return result

    here, reference = total(point), total(plus(centre, axis))
    grid = modifier.get("grid_deg")
    if grid:
        here *= max(0.0, 1.0 - between_deg(minus(point, centre), axis) / (grid / 2))
    return here / reference if reference else 0.0


def camera_at(setup: dict[str, Any]) -> Vector:
    return (0.0, setup["camera"]["height_m"], setup["room"]["camera_from_mark_m"])


def picture_tangents(camera: dict[str, Any], body: dict[str, Any]) -> tuple[float, float]:
    """Tangents of half the angle of view across and up, focused at the camera's distance (thin lens)."""
    focal = camera["focal_mm"]
    image_mm = focal / max(1e-6, 1 - focal / (1000 * camera["distance_m"]))
    wide, high = body["sensor_width_mm"], body["sensor_height_mm"]
    if (camera["orientation"] == "upright") == (wide > high):
        wide, high = high, wide
    return wide / 2 / image_mm, high / 2 / image_mm


def in_picture(point: Vector, setup: dict[str, Any], tangents: tuple[float, float], margin: float = 0.0) -> bool:
    """Whether a point in front of the lens falls inside the picture (by more than a share `margin`)."""
    pitch = math.radians(setup["camera"]["pitch_deg"])
    ray = minus(point, camera_at(setup))
    depth = -ray[2] * math.cos(pitch) + ray[1] * math.sin(pitch)
    if depth <= 0.05:
        return False
    up = ray[1] * math.cos(pitch) + ray[2] * math.sin(pitch)
    keep = 1.0 - margin
    return abs(ray[0]) / depth < tangents[0] * keep and abs(up) / depth < tangents[1] * keep


def stops_of(f_number: float) -> float:
    """Stops over f/1."""
    return 2 * math.log2(f_number) if f_number > 0 else -99.0


def exact(f_number: float) -> float:
    """The exact third stop a camera's label stands for; any other number is itself."""
    for i, label in enumerate(THIRDS):
        if abs(float(label) - f_number) < 0.005:
            return 2.0 ** ((i - 6) / 6)
    return f_number


def stops_of_shown(text: str) -> float | None:
    """Stops over f/1 of a reading spelled "f/5.6 +0.6"; None when it is not spelled so."""
    parts = text.replace(" ", " ").split(" ")
    if len(parts) != 2 or not parts[0].startswith("f/"):
        return None
    if parts[0][2:] in FULL_STOPS:
        full = FULL_STOPS.index(parts[0][2:]) - 2
    else:  # hardly any light: no stop is engraved there, the two figures of a power of the root of two stand for it
        full = round(2 * math.log2(float(parts[0][2:])))
        if full >= -2 or parts[0][2:] != f"{2 ** (full / 2):.2g}":
            return None
    tail = parts[1]
    if len(tail) != 4 or tail[0] != "+" or tail[1:3] != "0." or not tail[3].isdigit():
        return None
    return full + float(tail[1:])


def stops_of_dial(head: dict[str, Any], text: str) -> float | None:
    """Stops below full power that a dial text says on its own scale; None when it cannot be read."""
    plain = text.replace("\N{MINUS SIGN}", "-").strip()
    scale = head["dial"]["scale"] if head.get("dial") else "stops"
    try:
        if scale == "fraction":
            first, _, rest = plain.partition(" ")
            return math.log2(float(first.partition("/")[2])) - float(rest or 0.0)
        if scale == "ten":
            return 10.0 - float(plain)
        if scale == "watt_seconds":
            return math.log2(head["energy_ws"] / float(plain.split()[0]))
        return 0.0 - float(plain.split()[0])
    except (ValueError, IndexError, ZeroDivisionError):
        return None
