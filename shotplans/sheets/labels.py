"""Finding a place for each label: near its anchor, inside the frame, over no other label, over as few lines as can be.

Rings of candidates round the anchor are tried from the inside out; a label far from its anchor gets a thin leader.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from math import hypot

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
EDGE = 1.6  # of a direction's part, from which on the whole edge of the box faces the anchor
BENT = 1.2 * (1 - np.cos(2 * np.pi * np.arange(DIRECTIONS) / DIRECTIONS))  # the cost of leaving the side wanted


class Placer:
    """The labels of one drawing, set one after the other; the first come gets the better place."""

    def __init__(self, frame: Box, marks: Iterable[Mark] = ()) -> None:
        self.frame = frame
        self.taken: F = np.zeros((0, 4))
        self.segments: F = np.zeros((0, 4))
        self.avoid(marks)

    def avoid(self, marks: Iterable[Mark]) -> None:
        """Lines that labels had better not lie on."""
        found = [segment for mark in marks for segment in _segments(mark)]
        if found:
            self.segments = np.concatenate([self.segments, np.array(found)])

    def occupy(self, box: Box) -> None:
        """Room that no label may use."""
        self.taken = np.concatenate([self.taken, [[box.left, box.top, box.right, box.bottom]]])

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
        base = Text((0.0, 0.0), text, size, bold, part)
        best, at = np.inf, (0.0, 0.0)
        distance = clear
        while distance <= reach and distance < best:
            cost, middle = self._ring(base.box, anchor, distance, toward_deg)
            if cost < best:
                best, at = cost, middle
            distance += RING
        if best == np.inf:
            return ()
        return self._settle(replace(base, at=at), anchor, clear)

    def _settle(self, label: Text, anchor: Point, clear: float) -> tuple[Mark, ...]:
        box = label.box
        self.occupy(box)
        end = box.nearest(anchor)
        if hypot(end[0] - anchor[0], end[1] - anchor[1]) <= clear + LEADER_FROM:
            return (label,)
        leader = Line(anchor, end, LEADER_WEIGHT, part="leader")
        self.avoid([leader])
        return leader, label

    def _ring(self, base: Box, anchor: Point, distance: float, toward_deg: float) -> tuple[float, Point]:
        """The best free place at one distance and its cost: lines it lies on, and leaving the side wanted."""
        ways = _ways(toward_deg)
        half = np.array([(base.right - base.left) / 2, (base.bottom - base.top) / 2])
        down = (base.top + base.bottom) / 2
        middle = np.asarray(anchor) + distance * ways + half * np.clip(EDGE * ways, -1.0, 1.0)
        boxes = np.concatenate([middle - half, middle + half], axis=1)
        frame = self.frame
        free = (boxes[:, :2] >= (frame.left, frame.top)).all(axis=1)
        free &= (boxes[:, 2:] <= (frame.right, frame.bottom)).all(axis=1)
        if len(self.taken):
            apart = (boxes[:, None, :2] >= self.taken[:, 2:] + GAP) | (boxes[:, None, 2:] + GAP <= self.taken[:, :2])
            free &= apart.any(axis=2).all(axis=1)
        if not free.any():
            return np.inf, anchor
        costs = distance + CROSSING_COST * self._crossings(boxes[free]) + BENT[free]
        best = int(np.argmin(costs))
        x, y = middle[free][best]
        return float(costs[best]), (float(x), float(y - down))

    def _crossings(self, boxes: F) -> F:
        """How many of the lines run through each box: clipping in one step, Liang and Barsky's way."""
        low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
        one, two = self.segments[:, :2], self.segments[:, 2:]
        near = self.segments[((np.maximum(one, two) > low) & (np.minimum(one, two) < high)).all(axis=1)]
        if not len(near):
            return np.zeros(len(boxes))
        b = boxes[:, None, :]
        start, way = near[None, :, :2], near[None, :, 2:] - near[None, :, :2]
        way = np.where(np.abs(way) < 1e-9, 1e-9, way)
        one, two = (b[..., :2] - start) / way, (b[..., 2:] - start) / way
        enter = np.maximum(np.minimum(one, two).max(axis=-1), 0.0)
        leave = np.minimum(np.maximum(one, two).min(axis=-1), 1.0)
        return np.asarray((enter < leave).sum(axis=-1), dtype=np.float64)


@cache
def _ways(toward_deg: float) -> F:
    """The directions of a ring, the wanted one first."""
    angles = np.radians(toward_deg + 360.0 * np.arange(DIRECTIONS) / DIRECTIONS)
    return np.stack([np.cos(angles), np.sin(angles)], axis=1)


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
