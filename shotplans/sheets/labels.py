"""Finding a place for each label: near its anchor, inside the frame, over no other label, over as few lines as can be.

Rings of candidates round the anchor are tried from the inside out; a label far from its anchor gets a thin leader.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from math import hypot

import numpy as np
from numpy.typing import NDArray

from studio.paper.primitives import Box, Circle, Hatch, Line, Mark, Point, Polyline, Text

GAP = 0.5  # between two labels, mm
RING = 1.5
DIRECTIONS = 24
AT_ONCE = 3  # rings looked at together: NumPy is asked a third as often
CROSSING_COST = 4.0  # mm of distance a label goes to avoid one line through it
LEADER_FROM = 2.6
LEADER_WEIGHT = 0.13
F = NDArray[np.float64]
LEVEL = 1e-9  # mm: what a level or an upright line counts as going the other way
EDGE = 1.6  # of a direction's part, from which on the whole edge of the box faces the anchor
BENT = 1.2 * (1 - np.cos(2 * np.pi * np.arange(DIRECTIONS) / DIRECTIONS))  # the cost of leaving the side wanted


class Placer:
    """The labels of one drawing, set one after the other; the first come gets the better place."""

    def __init__(self, frame: Box, marks: Iterable[Mark] = ()) -> None:
        self.frame = frame
        self.boxes: list[Box] = []
        self.taken: F = np.zeros((4, 0, 1))  # left, top, right, bottom of each, ready to be held against a ring
        self.segments: F = np.zeros((8, 0))  # start x and y, way x and y, then the box about it
        self.avoid(marks)

    def avoid(self, marks: Iterable[Mark]) -> None:
        """Lines that labels had better not lie on."""
        found = [segment for mark in marks for segment in _segments(mark)]
        if not found:
            return
        x, y, to_x, to_y = np.array(found).T
        way_x, way_y = (np.where(np.abs(way) < LEVEL, LEVEL, way) for way in (to_x - x, to_y - y))
        about = [np.minimum(x, to_x), np.minimum(y, to_y), np.maximum(x, to_x), np.maximum(y, to_y)]
        self.segments = np.concatenate([self.segments, np.stack([x, y, way_x, way_y, *about])], axis=1)

    def occupy(self, box: Box) -> None:
        """Room that no label may use."""
        self.boxes.append(box)
        one = np.array(_sides(box)).reshape(4, 1, 1)
        self.taken = np.concatenate([self.taken, one], axis=1)

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
        nearest = self._nearest(base, anchor, clear, toward_deg) if clear <= reach else None
        if nearest is not None:
            return self._settle(nearest, anchor, clear)
        best, at = np.inf, (0.0, 0.0)
        distance = clear
        while distance <= reach and distance < best:
            rings = [distance + RING * n for n in range(AT_ONCE)]
            cost, middle = self._rings(base.box, anchor, np.array([r for r in rings if r <= reach]), toward_deg)
            if cost < best:
                best, at = cost, middle
            distance += RING * AT_ONCE
        if best == np.inf:
            return ()
        return self._settle(replace(base, at=at), anchor, clear)

    def _nearest(self, base: Text, anchor: Point, clear: float, toward_deg: float) -> Text | None:
        """The label at its first place, where that is free and over no line: nothing can be better, and most are."""
        box, (way_x, way_y, lean_x, lean_y) = base.box, _first_way(toward_deg)
        half_x, half_y = (box.right - box.left) / 2, (box.bottom - box.top) / 2
        x, y = anchor[0] + clear * way_x + half_x * lean_x, anchor[1] + clear * way_y + half_y * lean_y
        there = Box(x - half_x, y - half_y, x + half_x, y + half_y)
        if not self.frame.holds(there) or any(there.overlaps(one, GAP) for one in self.boxes):
            return None
        if self.segments.size and self._crossings(np.array(_sides(there)).reshape(4, 1))[0]:
            return None
        return replace(base, at=(x, y - (box.top + box.bottom) / 2))

    def _settle(self, label: Text, anchor: Point, clear: float) -> tuple[Mark, ...]:
        box = label.box
        self.occupy(box)
        end = box.nearest(anchor)
        if hypot(end[0] - anchor[0], end[1] - anchor[1]) <= clear + LEADER_FROM:
            return (label,)
        leader = Line(anchor, end, LEADER_WEIGHT, part="leader")
        self.avoid([leader])
        return leader, label

    def _rings(self, base: Box, anchor: Point, distances: F, toward_deg: float) -> tuple[float, Point]:
        """The best free place at some distances and its cost: lines it lies on, and leaving the side wanted. Of equal
        places the nearer; a farther ring cannot cost less than its distance, so rings asked too many change nothing.

        Across and down are reckoned apart: asking NumPy for the greater of two columns costs more than the columns.
        """
        way_x, way_y, lean_x, lean_y = _ways(toward_deg)
        half_x, half_y = (base.right - base.left) / 2, (base.bottom - base.top) / 2
        far = distances[:, None]
        x = (anchor[0] + far * way_x + half_x * lean_x).ravel()
        y = (anchor[1] + far * way_y + half_y * lean_y).ravel()
        left, top, right, bottom = x - half_x, y - half_y, x + half_x, y + half_y
        frame, taken = self.frame, self.taken
        free = (left >= frame.left) & (top >= frame.top) & (right <= frame.right) & (bottom <= frame.bottom)
        free &= (
            (left >= taken[2] + GAP) | (right + GAP <= taken[0]) | (top >= taken[3] + GAP) | (bottom + GAP <= taken[1])
        ).all(axis=0)
        if not free.any():
            return np.inf, anchor
        boxes = np.stack([left, top, right, bottom])[:, free]
        costs = np.repeat(distances, DIRECTIONS)[free] + CROSSING_COST * self._crossings(boxes)
        costs += np.tile(BENT, len(distances))[free]
        best = int(np.argmin(costs))
        return float(costs[best]), (float(x[free][best]), float(y[free][best] - (base.top + base.bottom) / 2))

    def _crossings(self, boxes: F) -> F:
        """How many of the lines run through each box: clipping in one step, Liang and Barsky's way."""
        left, top, right, bottom = boxes
        _x, _y, _way_x, _way_y, least_x, least_y, most_x, most_y = self.segments
        near = (most_x > left.min()) & (least_x < right.max()) & (most_y > top.min()) & (least_y < bottom.max())
        x, y, way_x, way_y = self.segments[:4, near]
        one, two = (left[:, None] - x) / way_x, (right[:, None] - x) / way_x
        enter, leave = np.minimum(one, two), np.maximum(one, two)
        one, two = (top[:, None] - y) / way_y, (bottom[:, None] - y) / way_y
        enter = np.maximum(np.maximum(enter, np.minimum(one, two)), 0.0)
        leave = np.minimum(np.minimum(leave, np.maximum(one, two)), 1.0)
        return np.asarray((enter < leave).sum(axis=1), dtype=np.float64)


@lru_cache(maxsize=1024)  # a hand gives a side to every degree there is
def _ways(toward_deg: float) -> tuple[F, F, F, F]:
    """The directions of a ring, the wanted first, across and down; and which edge of a box then faces the anchor."""
    angles = np.radians(toward_deg + 360.0 * np.arange(DIRECTIONS) / DIRECTIONS)
    x, y = np.cos(angles), np.sin(angles)
    return x, y, np.clip(EDGE * x, -1.0, 1.0), np.clip(EDGE * y, -1.0, 1.0)


@lru_cache(maxsize=1024)
def _first_way(toward_deg: float) -> tuple[float, ...]:
    return tuple(float(part[0]) for part in _ways(toward_deg))


def _sides(box: Box) -> tuple[float, float, float, float]:
    return box.left, box.top, box.right, box.bottom


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
