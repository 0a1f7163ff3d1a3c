"""The room on the sheet: grid, walls, ceiling and floor with their hatching, the background, and dimension chains."""

from __future__ import annotations

from math import ceil, floor

from shotplans.sheets.ruler import WALL_M, Ruler
from shotplans.sheets.scene import Scene
from studio.paper.primitives import Hatch, Line, Mark, Point, Polyline

GRID_WEIGHT, GRID_INK = 0.09, 0.35
WALL_WEIGHT, HATCH_WEIGHT, DIMENSION_WEIGHT, GROUND_WEIGHT = 0.5, 0.1, 0.13, 0.35
WALL_SPACING, GROUND_SPACING = 1.1, 1.3
GROUND_THICK_M = 0.1
TICK_MM = 0.9
BREAK_MM = 1.2


def grid(ruler: Ruler, step_m: float) -> list[Mark]:
    """The grid through the mark and the floor, in both views."""
    part, found = ruler.part, []
    for n in range(ceil(part.left / step_m), floor(part.right / step_m) + 1):
        x = n * step_m
        found.append((ruler.plan(x, part.back), ruler.plan(x, part.front)))
        found.append((ruler.elevation(x, 0.0), ruler.elevation(x, part.top)))
    for n in range(ceil(part.back / step_m), floor(part.front / step_m) + 1):
        found.append((ruler.plan(part.left, n * step_m), ruler.plan(part.right, n * step_m)))
    for n in range(1, floor(part.top / step_m) + 1):
        found.append((ruler.elevation(part.left, n * step_m), ruler.elevation(part.right, n * step_m)))
    return [Line(a, b, GRID_WEIGHT, ink=GRID_INK, part="grid") for a, b in found]


def walls(ruler: Ruler) -> list[Mark]:
    """Walls cut through in the plan; floor, ceiling and side walls in the elevation."""
    p, thick = ruler.part, WALL_M
    left, right = p.left - (thick if p.wall_left else 0), p.right + (thick if p.wall_right else 0)
    found = _slab([ruler.plan(p.left, p.back), ruler.plan(p.right, p.back)], _up(thick * ruler.mm))
    found += _slab([ruler.elevation(left, 0.0), ruler.elevation(right, 0.0)], _up(-thick * ruler.mm))
    if p.wall_front:
        found += _slab([ruler.plan(p.left, p.front), ruler.plan(p.right, p.front)], _up(-thick * ruler.mm))
    if p.ceiling:
        found += _slab([ruler.elevation(left, p.top), ruler.elevation(right, p.top)], _up(thick * ruler.mm))
    for x, out, there in ((p.left, -1.0, p.wall_left), (p.right, 1.0, p.wall_right)):
        if there:
            aside = (out * thick * ruler.mm, 0.0)
            found += _slab([ruler.plan(x, p.back), ruler.plan(x, p.front)], aside)
            found += _slab([ruler.elevation(x, 0.0), ruler.elevation(x, p.top)], aside)
    return found + _breaks(ruler)


def _up(mm: float) -> Point:
    return 0.0, -mm


def _slab(face: list[Point], out: Point) -> list[Mark]:
    """A wall whose inner face is a heavy line and whose body is hatched."""
    (x0, y0), (x1, y1) = face
    dx, dy = out
    body = ((x0, y0), (x1, y1), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy))
    return [
        Hatch(body, WALL_SPACING, 45.0, HATCH_WEIGHT, part="wall"),
        Line((x0, y0), (x1, y1), WALL_WEIGHT, part="wall"),
    ]


def _breaks(ruler: Ruler) -> list[Mark]:
    """A broken line where the room goes on beyond the sheet."""
    p, edges = ruler.part, []
    if not p.wall_front:
        edges.append((ruler.plan(p.left, p.front), ruler.plan(p.right, p.front)))
    if not p.ceiling:
        edges.append((ruler.elevation(p.left, p.top), ruler.elevation(p.right, p.top)))
    for x, there in ((p.left, p.wall_left), (p.right, p.wall_right)):
        if not there:
            edges.append((ruler.plan(x, p.back), ruler.plan(x, p.front)))
            edges.append((ruler.elevation(x, 0.0), ruler.elevation(x, p.top)))
    return [Polyline(_zigzag(a, b), DIMENSION_WEIGHT, part="break") for a, b in edges]


def _zigzag(a: Point, b: Point) -> tuple[Point, ...]:
    """A straight line with one lightning stroke in its middle."""
    mx, my = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    if abs(b[0] - a[0]) > abs(b[1] - a[1]):
        knee = ((mx - 1.5, my), (mx - 0.5, my - BREAK_MM), (mx + 0.5, my + BREAK_MM), (mx + 1.5, my))
    else:
        knee = ((mx, my - 1.5), (mx - BREAK_MM, my - 0.5), (mx + BREAK_MM, my + 0.5), (mx, my + 1.5))
    return (a, *knee, b)


def background(scene: Scene, ruler: Ruler) -> list[Mark]:
    """The background: a hatched strip from above, an outline with hatched edges from the camera."""
    half, ground, p = scene.ground.width_m / 2, scene.ground, ruler.part
    left, right = max(-half, p.left), min(half, p.right)
    z = -ground.distance_m
    strip = _corners(ruler.plan(left, z - GROUND_THICK_M), ruler.plan(right, z))
    found: list[Mark] = [
        Hatch(strip, GROUND_SPACING, -45.0, HATCH_WEIGHT, part="ground"),
        Polyline(strip, GROUND_WEIGHT, closed=True, part="ground"),
    ]
    outer = _corners(ruler.elevation(left, ground.height_m), ruler.elevation(right, 0.0))
    found.append(Polyline(outer, GROUND_WEIGHT / 2, closed=True, part="ground"))
    for x, inward in ((left, 1), (right, -1)):
        edge = _corners(ruler.elevation(x, ground.height_m), ruler.elevation(x + inward * GROUND_THICK_M, 0.0))
        found.append(Hatch(edge, GROUND_SPACING, -45.0, HATCH_WEIGHT, part="ground"))
    return found


def _corners(a: Point, b: Point) -> tuple[Point, ...]:
    return (a, (b[0], a[1]), b, (a[0], b[1]))


def dimension(a: Point, b: Point, part: str = "dimension") -> list[Mark]:
    """A dimension line with the slanted ticks of a draughtsman."""
    found: list[Mark] = [Line(a, b, DIMENSION_WEIGHT, part=part)]
    return found + [tick(end, part) for end in (a, b)]


def tick(at: Point, part: str) -> Line:
    x, y = at
    return Line((x - TICK_MM, y + TICK_MM), (x + TICK_MM, y - TICK_MM), 2 * DIMENSION_WEIGHT, part=part)
