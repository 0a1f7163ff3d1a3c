"""True shapes seen from above and from the camera: fronts turned to their aim, cones behind them, sitters with noses.

Pure geometry in metres: points in the set's frame, to be laid on the sheet by a ruler.
"""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin

from shotplans.sheets.scene import Holder, Person, Place, Source

AROUND = 36  # corners of a drawn circle
HEAD_HALF_WIDTH_M, HEAD_HALF_DEPTH_M, HEAD_HALF_HEIGHT_M = 0.08, 0.10, 0.12
SHOULDER_HALF_M, CHEST_HALF_M = 0.21, 0.11
NOSE_M = 0.20
HEAD_SIDE_M = 0.13  # a head's body, across


def frame_of(axis: Place) -> tuple[Place, Place]:
    """Across (level) and up of a front whose axis is given."""
    flat = hypot(axis[0], axis[2])
    across = (axis[2] / flat, 0.0, -axis[0] / flat) if flat > 1e-9 else (1.0, 0.0, 0.0)
    up = (
        axis[1] * across[2] - axis[2] * across[1],
        axis[2] * across[0] - axis[0] * across[2],
        axis[0] * across[1] - axis[1] * across[0],
    )
    return across, up


def _at(origin: Place, *steps: tuple[Place, float]) -> Place:
    x, y, z = origin
    for way, far in steps:
        x, y, z = x + way[0] * far, y + way[1] * far, z + way[2] * far
    return x, y, z


def front(source: Source) -> list[Place]:
    """The rim of the source's front: a circle or a rectangle square to its axis."""
    across, up = frame_of(source.axis)
    half_w, half_h = source.width_m / 2, source.height_m / 2
    if not source.disc:
        return [_at(source.at, (across, i * half_w), (up, j * half_h)) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    turns = [2 * pi * n / AROUND for n in range(AROUND)]
    return [_at(source.at, (across, half_w * cos(t)), (up, half_h * sin(t))) for t in turns]


def back(source: Source) -> tuple[Place, Place]:
    """Where the head joins the modifier, and the head's own end."""
    length = 0.3 if source.depth_m > 0.3 else source.depth_m
    return _at(source.at, (source.axis, -(source.depth_m - length))), _at(source.at, (source.axis, -source.depth_m))


def head_box(source: Source, level: bool) -> list[Place]:
    """The head behind its modifier: seen from above (`level`) or from the camera."""
    across, up = frame_of(source.axis)
    near, far = back(source)
    side = across if level else (up if abs(source.axis[2]) < 0.9 else across)
    half = HEAD_SIDE_M / 2
    return [_at(near, (side, -half)), _at(far, (side, -half)), _at(far, (side, half)), _at(near, (side, half))]


def beam_edges(source: Source, length_m: float) -> list[tuple[Place, Place]]:
    """The level edges of the beam from both ends of the front, `length_m` long."""
    if source.beam_deg is None:
        return []
    across, _ = frame_of(source.axis)
    x, z = source.axis[0], source.axis[2]
    flat = max(1e-9, hypot(x, z))
    spread = radians(min(source.beam_deg, 160.0) / 2)
    found = []
    for side in (-1.0, 1.0):
        start = _at(source.at, (across, side * source.width_m / 2))
        ahead, out = cos(spread) * length_m, side * sin(spread) * length_m
        way = (x / flat * ahead + across[0] * out, 0.0, z / flat * ahead + across[2] * out)
        found.append((start, (start[0] + way[0], start[1], start[2] + way[2])))
    return found


def facing(degrees: float) -> tuple[float, float]:
    """The level direction (x, z) of a bearing: 0 to the camera, positive to camera right."""
    return sin(radians(degrees)), cos(radians(degrees))


def shoulders(person: Person) -> list[Place]:
    """The shoulders from above, an oval turned with the body, a little behind the face."""
    ahead = facing(person.body_deg)
    x, y, z = person.face[0] - 0.12 * ahead[0], person.face[1], person.face[2] - 0.12 * ahead[1]
    return _oval((x, y, z), ahead, SHOULDER_HALF_M, CHEST_HALF_M)


def crown(person: Person) -> list[Place]:
    """The head from above, with its face forward of its middle."""
    return _oval(_skull(person), facing(person.nose_deg), HEAD_HALF_WIDTH_M, HEAD_HALF_DEPTH_M)


def _oval(centre: Place, ahead: tuple[float, float], half_across: float, half_ahead: float) -> list[Place]:
    """An oval seen from above; half axes in metres, one of them along `ahead`."""
    x, y, z = centre
    across = (ahead[1], -ahead[0])
    turns = [2 * pi * n / AROUND for n in range(AROUND)]
    return [
        (
            x + half_across * cos(t) * across[0] + half_ahead * sin(t) * ahead[0],
            y,
            z + half_across * cos(t) * across[1] + half_ahead * sin(t) * ahead[1],
        )
        for t in turns
    ]


def nose(person: Person) -> list[Place]:
    """The nose from above: a wedge that shows where it points."""
    ahead = facing(person.nose_deg)
    across = (ahead[1], -ahead[0])
    x, y, z = _skull(person)
    wings = [
        (x + 0.085 * ahead[0] + s * 0.04 * across[0], y, z + 0.085 * ahead[1] + s * 0.04 * across[1]) for s in (-1, 1)
    ]
    return [wings[0], (x + NOSE_M * ahead[0], y, z + NOSE_M * ahead[1]), wings[1]]


def _skull(person: Person) -> Place:
    ahead = facing(person.nose_deg)
    return person.face[0] - 0.10 * ahead[0], person.face[1], person.face[2] - 0.10 * ahead[1]


def face(person: Person) -> list[Place]:
    """The head as the camera sees it."""
    x, y, z = person.face
    turns = [2 * pi * n / AROUND for n in range(AROUND)]
    return [(x + HEAD_HALF_WIDTH_M * cos(t), y - 0.01 + HEAD_HALF_HEIGHT_M * sin(t), z) for t in turns]


def bust(person: Person) -> list[Place]:
    """Neck and shoulders as the camera sees them, open below."""
    x, y, z = person.face
    half = (SHOULDER_HALF_M * abs(cos(radians(person.body_deg)))) + CHEST_HALF_M * abs(sin(radians(person.body_deg)))
    right = [(0.045, -0.11), (0.045, -0.19), (half * 0.8, -0.25), (half, -0.33), (half, -0.60)]
    left = [(-a, b) for a, b in reversed(right)]
    return [(x + a, y + b, z) for a, b in (*left, *right)]


def counterweight(source: Source, holder: Holder) -> tuple[Place, Place, Place]:
    """A boom as a line: the light's end, the pivot on its column, and the end with the weight."""
    _, end = back(source)
    foot_x, foot_z = holder.foot
    pivot_y = min(holder.tallest_m, max(source.at[1] - 0.1, 0.9))
    pivot = (foot_x, pivot_y, foot_z)
    far = max(hypot(*(e - p for p, e in zip(pivot, end, strict=True))), 1e-9)
    weight = tuple(p - holder.counter_arm_m * (e - p) / far for p, e in zip(pivot, end, strict=True))
    return end, pivot, (weight[0], weight[1], weight[2])
