"""What stands on the set, as marks: sources with their beams and stands, people, the camera and its field."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from math import hypot, radians, sin, tan

from shotplans.sheets import bodies
from shotplans.sheets.room_marks import dimension
from shotplans.sheets.ruler import Ruler
from shotplans.sheets.scene import Camera, Holder, Person, Place, Scene, Source
from studio.paper.primitives import DASH_DOT, DASHED, Circle, Line, Mark, Point, Polyline

FRONT_WEIGHT, BODY_WEIGHT, STAND_WEIGHT, FINE = 0.5, 0.2, 0.16, 0.13
PERSON_WEIGHT, FIELD_WEIGHT = 0.3, 0.16
CAMERA_WIDE_M, CAMERA_DEEP_M, LENS_LONG_M, LENS_WIDE_M = 0.16, 0.09, 0.14, 0.08
LONGEST_BEAM_M, BEAM_SHARE = 1.2, 0.55
WEIGHT_SIDE_MM = 1.6
KEPT = 256  # things kept as marks, the latest asked for: while one is dragged, the rest stand as they stood
LEGS = ((0.0, 1.0), (sin(2.0943951), -0.5), (-sin(2.0943951), -0.5))


@lru_cache(maxsize=KEPT)
def source_above(source: Source, ruler: Ruler) -> tuple[Mark, ...]:
    """A light from above: front, cone and head, stand's legs, boom's arm, aim line and beam edges."""
    part = part_of(source)
    rim = bodies.front(source)
    found: list[Mark] = [_closed(map(ruler.above, rim), FRONT_WEIGHT, part)]
    if source.depth_m:
        found += _cone(rim, source, ruler.above, part)
        found.append(_closed(map(ruler.above, bodies.head_box(source, level=True)), BODY_WEIGHT, part))
    if source.holder:
        found += _legs(source, source.holder, ruler, part)
    if source.letter:
        length = min(LONGEST_BEAM_M, BEAM_SHARE * hypot(*(b - a for a, b in zip(source.at, source.aim, strict=True))))
        found += dimension(ruler.above(source.at), ruler.above(source.aim), part=f"{part} aim")
        for start, end in bodies.beam_edges(source, length):
            a, b = cut(ruler.above(start), ruler.above(end), ruler)
            found.append(Line(a, b, FINE, DASHED, part=f"{part} beam"))
    return tuple(found)


@lru_cache(maxsize=KEPT)
def source_before(source: Source, ruler: Ruler) -> tuple[Mark, ...]:
    """The same light as the camera sees it, with its stand or boom."""
    part = part_of(source)
    rim = bodies.front(source)
    found: list[Mark] = [_closed(map(ruler.before, rim), FRONT_WEIGHT, part)]
    if source.depth_m:
        found += _cone(rim, source, ruler.before, part)
        found.append(_closed(map(ruler.before, bodies.head_box(source, level=False)), BODY_WEIGHT, part))
    if source.letter:
        a, b = ruler.before(source.at), ruler.before(source.aim)
        found.append(Line(a, b, FINE, part=f"{part} aim"))
        found.append(Circle(a, 0.5, FINE, part=part))
    if source.holder:
        found += _column(source, source.holder, ruler, part)
    return tuple(found)


def part_of(source: Source) -> str:
    return f"light-{source.letter}" if source.letter else "black"


def _closed(points: Iterable[Point], weight: float, part: str) -> Polyline:
    return Polyline(tuple(points), weight, closed=True, part=part)


def _cone(rim: list[Place], source: Source, lay: Callable[[Place], Point], part: str) -> list[Mark]:
    """The two sides of a modifier from its rim to its head, taken where the outline is widest from the head."""
    near, _ = bodies.back(source)
    tip, middle = lay(near), lay(source.at)
    way = (middle[0] - tip[0], middle[1] - tip[1])
    if hypot(*way) < 0.3:
        return []

    def aside(point: Point) -> float:
        return float((point[0] - tip[0]) * way[1] - (point[1] - tip[1]) * way[0])

    flat = [lay(p) for p in rim]
    return [Line(tip, end, BODY_WEIGHT, part=part) for end in (min(flat, key=aside), max(flat, key=aside))]


def _legs(source: Source, holder: Holder, ruler: Ruler, part: str) -> list[Mark]:
    """Three legs with one under the load, and the boom's arm with its counterweight."""
    x, z = holder.foot
    way = (source.at[0] - x, source.at[2] - z)
    far = hypot(*way)
    ahead = (way[0] / far, way[1] / far) if far > 1e-6 else (0.0, -1.0)
    centre, half = ruler.plan(x, z), holder.footprint_m / 2
    found: list[Mark] = []
    for side, along in LEGS:
        leg = (along * ahead[0] + side * ahead[1], along * ahead[1] - side * ahead[0])
        end = ruler.plan(x + half * leg[0], z + half * leg[1])
        found.append(Line(*cut(centre, end, ruler), STAND_WEIGHT, part=f"{part} stand"))
    found.append(Circle(centre, 0.6, STAND_WEIGHT, part=f"{part} stand"))
    if holder.boom:
        load, _, weight = bodies.counterweight(source, holder)
        a, b = cut(ruler.above(load), ruler.above(weight), ruler)
        found += [Line(a, b, BODY_WEIGHT, part=f"{part} boom"), _square(b, f"{part} counterweight")]
    return found


def _column(source: Source, holder: Holder, ruler: Ruler, part: str) -> list[Mark]:
    x, _ = holder.foot
    half = holder.footprint_m / 2
    load, pivot, weight = bodies.counterweight(source, holder)
    top = ruler.before(pivot) if holder.boom else ruler.elevation(x, min(source.at[1], holder.tallest_m))
    foot = ruler.elevation(x, 0.0)
    collar = ruler.elevation(x, min(0.35, holder.tallest_m / 3))
    found: list[Mark] = [Line(foot, top, STAND_WEIGHT * 1.5, part=f"{part} stand")]
    for side in (-half * 0.8, half * 0.8):
        found.append(Line(*cut_up(collar, ruler.elevation(x + side, 0.0), ruler), STAND_WEIGHT, part=f"{part} stand"))
    if holder.boom:
        a, b = ruler.before(load), ruler.before(weight)
        found += [Line(a, b, BODY_WEIGHT, part=f"{part} boom"), _square(b, f"{part} counterweight")]
    else:
        found.append(Line(top, ruler.before(bodies.back(source)[0]), STAND_WEIGHT, part=f"{part} stand"))
    return found


def _square(at: Point, part: str) -> Polyline:
    x, y, h = *at, WEIGHT_SIDE_MM / 2
    return Polyline(((x - h, y - h), (x + h, y - h), (x + h, y + h), (x - h, y + h)), 0.3, closed=True, part=part)


def people(scene: Scene, ruler: Ruler) -> list[Mark]:
    """Everybody from above with noses, and from the camera with the front row drawn last."""
    return [mark for n, person in enumerate(scene.people, start=1) for mark in _person(person, f"sitter-{n}", ruler)]


@lru_cache(maxsize=KEPT)
def _person(person: Person, part: str, ruler: Ruler) -> tuple[Mark, ...]:
    return (
        _closed(map(ruler.above, bodies.shoulders(person)), PERSON_WEIGHT / 2, part),
        _closed(map(ruler.above, bodies.crown(person)), PERSON_WEIGHT, part),
        Polyline(tuple(map(ruler.above, bodies.nose(person))), PERSON_WEIGHT, part=part),
        _closed(map(ruler.before, bodies.face(person)), PERSON_WEIGHT, part),
        Polyline(tuple(map(ruler.before, bodies.bust(person))), PERSON_WEIGHT / 2, part=part),
    )


def camera(seen: Camera, scene: Scene, ruler: Ruler) -> list[Mark]:
    """The camera on its axis, its field to the background, and the picture's frame at the mark."""
    z, half = seen.distance_m, seen.field_width_m / 2
    w, d, lw, ll = CAMERA_WIDE_M / 2, CAMERA_DEEP_M, LENS_WIDE_M / 2, LENS_LONG_M
    body = [(-w, z + ll), (w, z + ll), (w, z + ll + d), (-w, z + ll + d)]
    lens = [(-lw, z), (lw, z), (lw, z + ll), (-lw, z + ll)]
    found: list[Mark] = [
        _closed((ruler.plan(*p) for p in body), PERSON_WEIGHT, "camera"),
        _closed((ruler.plan(*p) for p in lens), PERSON_WEIGHT, "camera"),
        Line(ruler.plan(0.0, z), ruler.plan(0.0, -scene.ground.distance_m), FINE, DASH_DOT, part="axis"),
    ]
    share = half * (z + scene.ground.distance_m) / z
    for side in (-share, share):
        a, b = cut(ruler.plan(0.0, z), ruler.plan(side, -scene.ground.distance_m), ruler)
        found.append(Line(a, b, FIELD_WEIGHT, part="field"))
    x, y = ruler.elevation(0.0, seen.height_m)
    found += [Circle((x, y), LENS_WIDE_M / 2 * ruler.mm, PERSON_WEIGHT, part="camera")]
    w, h = CAMERA_WIDE_M / 2 * ruler.mm, CAMERA_DEEP_M / 2 * ruler.mm
    found.append(_closed(((x - w, y - h), (x + w, y - h), (x + w, y + h), (x - w, y + h)), FINE, "camera"))
    return [*found, _picture(seen, ruler)]


def _picture(seen: Camera, ruler: Ruler) -> Polyline:
    """The picture's edges in the plane of the mark, no lower than the floor."""
    middle = seen.height_m + seen.distance_m * _tangent(seen.pitch_deg)
    low, high = max(0.0, middle - seen.field_height_m / 2), min(ruler.part.top, middle + seen.field_height_m / 2)
    half = min(seen.field_width_m / 2, ruler.part.right, -ruler.part.left)
    corners = ((-half, low), (half, low), (half, high), (-half, high))
    return Polyline(tuple(ruler.elevation(*c) for c in corners), FIELD_WEIGHT, closed=True, dash=DASH_DOT, part="field")


def _tangent(degrees: float) -> float:
    return tan(radians(degrees))


def cut(a: Point, b: Point, ruler: Ruler) -> tuple[Point, Point]:
    """The part of a line that lies inside the room as the plan shows it; `a` is inside."""
    box = ruler.plan_box
    return a, _inside(a, b, box.left, box.top, box.right, box.bottom)


def cut_up(a: Point, b: Point, ruler: Ruler) -> tuple[Point, Point]:
    """The same for the elevation."""
    box = ruler.elevation_box
    return a, _inside(a, b, box.left, box.top, box.right, box.bottom)


def _inside(a: Point, b: Point, left: float, top: float, right: float, bottom: float) -> Point:
    share = 1.0
    for start, end, low, high in ((a[0], b[0], left, right), (a[1], b[1], top, bottom)):
        if end < low and start > low:
            share = min(share, (start - low) / (start - end))
        elif end > high and start < high:
            share = min(share, (high - start) / (end - start))
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
