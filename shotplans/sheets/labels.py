"""Finding a place for each label: near its anchor, inside the frame, over no other label, over as few lines as can be.

Rings of candidates round the anchor are tried from the inside out; a label far from its anchor gets a thin leader.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, hypot, radians, sin

import numpy as np
from numpy.typing import NDArray

from studio.paper.primitives import Box, Circle, Hatch, Line, Mark, Point, Polyline, Text

GAP = 0.5  # between two labels, mm
RING = 1.5
DIRECTIONS = 24
CROSSING_COST = 4.0  # mm of distance a label goes to avoid one line through it
LEADER_FROM = 2.6
LEADER_WEIGHT = 0.13
F = NDArray[np.float64]


class Placer:
    """The labels of one drawing, set one after the other; the first come gets the better place."""

    def __init__(self, frame: Box, marks: Iterable[Mark] = ()) -> None:
        self.frame = frame
        self.taken: list[Box] = []
        self.segments: F = np.zeros((0, 4))
        self.avoid(marks)

    def avoid(self, marks: Iterable[Mark]) -> None:
        """Lines that labels had better not lie on."""
        found = [segment for mark in marks for segment in _segments(mark)]
        if found:
            self.segments = np.concatenate([self.segments, np.array(found)])

    def occupy(self, box: Box) -> None:
        """Room that no label may use."""
        self.taken.append(box)

    def place(
        self,
        text: str,
        size: float,
        anchor: Point,
        *,
        toward_deg: float = -90.0,
        bold: bool = False,
        clear: float = 0.8,
        reach: float = 14.0,
        part: str = "",
    ) -> tuple[Mark, ...]:
        """The label with its leader, or nothing where there is no room within `reach` of the anchor.

        `toward_deg` is the side tried first (0 right, 90 down); `clear` the least distance from the anchor.
        """
        best: tuple[float, Text] | None = None
        distance = clear
        while distance <= reach and (best is None or distance < best[0]):
            for label, crossed, bent in self._ring(text, size, bold, anchor, distance, toward_deg, part):
                cost = distance + CROSSING_COST * crossed + bent
                if best is None or cost < best[0]:
                    best = cost, label
            distance += RING
        if best is None:
            return ()
        return self._settle(best[1], anchor, clear)

    def _settle(self, label: Text, anchor: Point, clear: float) -> tuple[Mark, ...]:
        box = label.box
        self.taken.append(box)
        end = box.nearest(anchor)
        if hypot(end[0] - anchor[0], end[1] - anchor[1]) <= clear + LEADER_FROM:
            return (label,)
        leader = Line(anchor, end, LEADER_WEIGHT, part="leader")
        self.avoid([leader])
        return leader, label

    def _ring(
        self, text: str, size: float, bold: bool, anchor: Point, distance: float, toward_deg: float, part: str
    ) -> Iterable[tuple[Text, int, float]]:
        """The free candidates at one distance: label, lines it lies on, and the cost of leaving the side wanted."""
        base = Text((0.0, 0.0), text, size, bold, part).box
        half_w, half_h = (base.right - base.left) / 2, (base.bottom - base.top) / 2
        down = (base.top + base.bottom) / 2
        free: list[tuple[Text, Box, float]] = []
        for step in range(DIRECTIONS):
            angle = radians(toward_deg + 360.0 * step / DIRECTIONS)
            dx, dy = cos(angle), sin(angle)
            x = anchor[0] + distance * dx + half_w * _snap(dx)
            y = anchor[1] + distance * dy + half_h * _snap(dy)
            label = Text((x, y - down), text, size, bold, part)
            box = label.box
            if self.frame.holds(box) and not any(box.overlaps(other, GAP) for other in self.taken):
                free.append((label, box, 1.2 * (1 - cos(radians(360.0 * step / DIRECTIONS)))))
        if not free:
            return []
        crossed = self._crossings([box for _, box, _ in free])
        return [(label, int(n), bent) for (label, _, bent), n in zip(free, crossed, strict=True)]

    def _crossings(self, boxes: list[Box]) -> NDArray[np.int64]:
        """How many of the lines run through each box: clipping in one step, Liang and Barsky's way."""
        if not len(self.segments):
            return np.zeros(len(boxes), dtype=np.int64)
        b = np.array([[x.left, x.top, x.right, x.bottom] for x in boxes])
        low, high = b[:, :2].min(axis=0), b[:, 2:].max(axis=0)
        one, two = self.segments[:, :2], self.segments[:, 2:]
        near = self.segments[((np.maximum(one, two) > low) & (np.minimum(one, two) < high)).all(axis=1)]
        if not len(near):
            return np.zeros(len(boxes), dtype=np.int64)
        b = b[:, None, :]
        start, way = near[None, :, :2], near[None, :, 2:] - near[None, :, :2]
        way = np.where(np.abs(way) < 1e-9, 1e-9, way)
        one, two = (b[..., :2] - start) / way, (b[..., 2:] - start) / way
        enter = np.maximum(np.minimum(one, two).max(axis=-1), 0.0)
        leave = np.minimum(np.maximum(one, two).min(axis=-1), 1.0)
        return np.asarray((enter < leave).sum(axis=-1))


def _snap(part: float) -> float:
    """Which edge of the box faces the anchor: all of it once the direction is clear."""
    return max(-1.0, min(1.0, 1.6 * part))


def _segments(mark: Mark) -> list[tuple[float, float, float, float]]:
    if isinstance(mark, Line):
        return [(*mark.start, *mark.end)]
    if isinstance(mark, Hatch):
        return [(*a, *b) for a, b in zip(mark.points, (*mark.points[1:], mark.points[0]), strict=True)]
    if isinstance(mark, Polyline):
        ends = [*mark.points[1:], mark.points[0]] if mark.closed else mark.points[1:]
        return [(*a, *b) for a, b in zip(mark.points, ends, strict=False)]
    if isinstance(mark, Circle):
        (x, y), r = mark.centre, mark.radius
        return [(x - r, y, x + r, y), (x, y - r, x, y + r)]
    return []
