"""The drawing as data: plain marks in millimetres, which any renderer can put on paper or screen.

Origin at the upper left, x to the right, y down. Weights are line widths in millimetres, `ink` the share of full black
(grey-safe: nothing depends on it). `part` names what a mark belongs to ("light-A", "sitter-2", "grid").
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from studio.paper import fonts

Point = tuple[float, float]
Dash = tuple[float, ...]
SOLID: Dash = ()
DASHED: Dash = (1.6, 1.0)
DASH_DOT: Dash = (3.0, 0.9, 0.4, 0.9)
TEXT_SLACK = 1.06  # a screen's own font runs wider than the paper's


@dataclass(frozen=True)
class Box:
    """An upright rectangle: left, top, right, bottom."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box, gap: float = 0.0) -> bool:
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def holds(self, other: Box) -> bool:
        return (
            self.left <= other.left
            and self.top <= other.top
            and other.right <= self.right
            and other.bottom <= self.bottom
        )

    def nearest(self, point: Point) -> Point:
        return min(max(point[0], self.left), self.right), min(max(point[1], self.top), self.bottom)


@dataclass(frozen=True)
class Line:
    start: Point
    end: Point
    weight: float
    dash: Dash = SOLID
    ink: float = 1.0
    part: str = ""


@dataclass(frozen=True)
class Polyline:
    points: tuple[Point, ...]
    weight: float
    closed: bool = False
    dash: Dash = SOLID
    ink: float = 1.0
    part: str = ""


@dataclass(frozen=True)
class Circle:
    centre: Point
    radius: float
    weight: float
    dash: Dash = SOLID
    ink: float = 1.0
    part: str = ""


@dataclass(frozen=True)
class Text:
    """A line of text set with its middle at `at[0]` on the base line `at[1]`; never turned."""

    at: Point
    text: str
    size: float
    bold: bool = False
    part: str = ""

    @property
    def box(self) -> Box:
        half = fonts.width_mm(self.text, self.size, self.bold) * TEXT_SLACK / 2
        x, y = self.at
        return Box(x - half, y - fonts.ASCENT * self.size, x + half, y + fonts.DESCENT * self.size)


@dataclass(frozen=True)
class Hatch:
    """A polygon ruled with parallel lines; its outline is drawn by whoever wants one."""

    points: tuple[Point, ...]
    spacing: float
    angle_deg: float
    weight: float
    ink: float = 1.0
    part: str = ""

    def lines(self) -> Iterator[tuple[Point, Point]]:
        """The ruled lines, cut at the polygon's edges (even-odd)."""
        c, s = cos(radians(self.angle_deg)), sin(radians(self.angle_deg))
        turned = [(x * c + y * s, -x * s + y * c) for x, y in self.points]
        edges = list(zip(turned, [*turned[1:], turned[0]], strict=True))
        lowest, highest = min(y for _, y in turned), max(y for _, y in turned)
        at = lowest + self.spacing / 2
        while at < highest:
            cuts = sorted(
                x0 + (at - y0) * (x1 - x0) / (y1 - y0) for (x0, y0), (x1, y1) in edges if (y0 <= at) != (y1 <= at)
            )
            for left, right in zip(cuts[::2], cuts[1::2], strict=False):
                yield (left * c - at * s, left * s + at * c), (right * c - at * s, right * s + at * c)
            at += self.spacing


Mark = Line | Polyline | Circle | Text | Hatch


def span_across(marks: Iterable[Mark]) -> tuple[float, float]:
    """How far marks reach to the left and to the right; raises ValueError where there are none."""
    ends = [end for mark in marks for end in _ends_across(mark)]
    return min(ends), max(ends)


def _ends_across(mark: Mark) -> tuple[float, ...]:
    if isinstance(mark, Line):
        return mark.start[0], mark.end[0]
    if isinstance(mark, Circle):
        return mark.centre[0] - mark.radius, mark.centre[0] + mark.radius
    if isinstance(mark, Text):
        return mark.box.left, mark.box.right
    return tuple(x for x, _ in mark.points)


@dataclass(frozen=True)
class Drawing:
    """A sheet of marks with its size, its scale (1 : `scale`) and the words for who cannot see it."""

    width: float
    height: float
    scale: int
    title: str
    description: str
    marks: tuple[Mark, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        return tuple(m for m in self.marks if isinstance(m, Text))
