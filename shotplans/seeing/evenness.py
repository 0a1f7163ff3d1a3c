"""Evenness over a group: lines of equal reading seen from above at face height, every face with its own value.

Belongs here: the drawing and its words. Not here: the light (`levels`) and the tracing (`contours`).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.planner.expect import Meter
from shotplans.planner.people import Seated
from shotplans.seeing import contours, levels
from shotplans.sheets import wording
from shotplans.sheets.labels import Placer
from shotplans.sheets.measures import METRIC, Measures
from studio.paper.primitives import DASH_DOT, Box, Circle, Drawing, Line, Mark, Polyline, Text
from studio.tongue import gettext as _
from studio.tongue import ngettext

F = NDArray[np.float64]
WIDE_MM, MOST_TALL_MM, EDGE_MM = 190.0, 120.0, 4.0
MARGIN_M = 0.55  # shown around the outermost faces
CELL_M = 0.05
STEPS = (0.1, 0.25, 0.5, 1.0)
MOST_LINES = 14
HEAD_M = 0.10
LINE_MM, HEAD_MM, NUMBER_MM, NAME_MM = 0.25, 0.4, 3.6, 3.8
GAP_MM = 0.6
MOST_NAMED = 6  # more faces go by number, counted in the words below


@dataclass(frozen=True)
class Face:
    """One face with its reading against the one that sets the camera, stops."""

    label: str
    stops: float


@dataclass(frozen=True)
class Evenness:
    """The drawing, its faces in the order of the picture from the left, what they differ by, and the step of lines."""

    drawing: Drawing
    faces: tuple[Face, ...]
    spread_stops: float
    step_stops: float
    numbered: bool


def see(meter: Meter, measures: Measures = METRIC) -> Evenness | None:
    """The evenness over everybody in the picture; None where one face is alone."""
    together = sorted(meter.solved.pose.together, key=lambda s: (s.face_m[0], s.face_m[2]))
    if len(together) < 2:
        return None
    base = meter.setting()
    own = _stops(levels.setting(meter, np.array([s.face_m for s in together])), base)
    faces = tuple(Face(s.person.label, float(v)) for s, v in zip(together, own, strict=True))
    x, z, field = _field(meter, together, base)
    step = _step(float(np.ptp(field)))
    sheet = _Sheet(x, z)
    drawn = sheet.draw(field, step, together, faces, measures)
    return Evenness(drawn, faces, float(np.ptp(own)), step, len(faces) > MOST_NAMED)


def _field(meter: Meter, together: list[Seated], base: float) -> tuple[F, F, F]:
    """Axes across and along, and the reading in stops at the mean height of the faces."""
    at = np.array([s.face_m for s in together])
    x, z = (np.arange(at[:, n].min() - MARGIN_M, at[:, n].max() + MARGIN_M + CELL_M / 2, CELL_M) for n in (0, 2))
    across, along = np.meshgrid(x, z)
    points = np.stack([across.ravel(), np.full(across.size, at[:, 1].mean()), along.ravel()], axis=-1)
    return x, z, _stops(levels.setting(meter, points), base).reshape(across.shape)


def _stops(values: F, base: float) -> F:
    found: F = np.log2(np.maximum(values, 1e-9 * base) / base)
    return found


def _step(across: float) -> float:
    """The finest step that draws no more lines than can be told apart."""
    return next((s for s in STEPS if across / s <= MOST_LINES), STEPS[-1])


def signed(stops: float, step: float = 0.1) -> str:
    """A level as it stands beside its line: "+0.3", "0", "-0.25"."""
    digits = 2 if step == 0.25 and round(stops * 10, 6) % 1 else 1
    shown = round(stops, digits) + 0.0
    return f"{shown:+.{digits}f}" if shown else "0"


class _Sheet:
    """Metres from above onto millimetres; the camera's side is below."""

    def __init__(self, x: F, z: F) -> None:
        self.x, self.z = x, z
        wide, deep = float(np.ptp(x)), float(np.ptp(z))
        self.mm = min((WIDE_MM - 2 * EDGE_MM) / wide, (MOST_TALL_MM - 14) / deep)
        self.left, self.height = (WIDE_MM - wide * self.mm) / 2, deep * self.mm + 14
        self.box = Box(self.left, 2.0, self.left + wide * self.mm, 2.0 + deep * self.mm)

    def at(self, x: float, z: float) -> tuple[float, float]:
        return self.left + (x - float(self.x[0])) * self.mm, 2.0 + (z - float(self.z[0])) * self.mm

    def draw(self, field: F, step: float, together: list[Seated], faces: tuple[Face, ...], say: Measures) -> Drawing:
        heads = [mark for n, s in enumerate(together) for mark in self._head(n, s)]
        placer = Placer(Box(1.0, 1.0, WIDE_MM - 1.0, self.height - 8), heads)
        words: list[Mark] = []
        for n, (s, face) in enumerate(zip(together, faces, strict=True), start=1):
            name = f"{n}" if len(faces) > MOST_NAMED else _short(face.label)
            words += placer.place(
                f"{name} {signed(face.stops)}", NAME_MM, self.at(s.face_m[0], s.face_m[2]), bold=True,
                clear=HEAD_M * self.mm + 0.6, reach=60.0, toward_deg=-90.0, part="face",
            )  # fmt: skip
        round_heads = [_about(m) for m in heads if isinstance(m, Circle)]
        lines, numbers = self._lines(field, step, [t.box for t in words if isinstance(t, Text)], round_heads)
        scale = Line((self.box.left, self.height - 5), (self.box.left + self.mm / 2, self.height - 5), HEAD_MM)
        foot = Text((self.box.left + self.mm / 4, self.height - 1.2), say.number(0.5), NUMBER_MM)
        lens = Text((WIDE_MM / 2, self.height - 1.2), _("camera below"), NUMBER_MM)
        marks = (*lines, *heads, *numbers, *words, scale, foot, lens, self._frame())
        title = _("Evenness at face height, seen from above")
        return Drawing(WIDE_MM, self.height, round(1000 / self.mm), title, _describe(faces, step), marks)

    def _frame(self) -> Polyline:
        b = self.box
        corners = ((b.left, b.top), (b.right, b.top), (b.right, b.bottom), (b.left, b.bottom))
        return Polyline(corners, 0.13, closed=True, dash=DASH_DOT, part="frame")

    def _head(self, n: int, s: Seated) -> list[Mark]:
        middle = self.at(s.face_m[0], s.face_m[2])
        turn, size = np.radians(s.nose_deg), HEAD_M * self.mm
        tip = (middle[0] + 1.35 * size * np.sin(turn), middle[1] + 1.35 * size * np.cos(turn))
        start = (middle[0] + size * np.sin(turn), middle[1] + size * np.cos(turn))
        part = f"sitter-{n + 1}"
        nose = Line(start, (float(tip[0]), float(tip[1])), HEAD_MM, part=part)
        return [Circle(middle, size, HEAD_MM, part=part), nose]

    def _lines(
        self, field: F, step: float, taken: list[Box], heads: list[Box]
    ) -> tuple[list[Mark], list[Mark]]:
        """Every line of the field, broken where its number stands; numbers keep off names, heads and one another."""
        lines: list[Mark] = []
        numbers: list[Mark] = []
        for n in range(int(np.ceil(field.min() / step)), int(np.floor(field.max() / step)) + 1):
            for m, line in enumerate(contours.trace(self.x, self.z, field, n * step)):
                path = [self.at(*p) for p in line]
                number = _numbered(path, signed(n * step, step), [*taken, *heads], self.box) if m == 0 else None
                if number is not None:
                    numbers.append(number)
                    taken.append(number.box)
                weight = 2 * LINE_MM if n == 0 else LINE_MM
                lines += [Polyline(tuple(piece), weight, part="level") for piece in _outside(path, taken)]
        return lines, numbers


def _numbered(path: list[tuple[float, float]], text: str, taken: list[Box], frame: Box) -> Text | None:
    """The number on its line, as near to the line's middle as it has room; None where there is none."""
    middle = len(path) // 2
    for n in sorted(range(len(path)), key=lambda n: abs(n - middle)):
        label = Text((path[n][0], path[n][1] + NUMBER_MM * 0.35), text, NUMBER_MM, part="number")
        if frame.holds(label.box) and not any(label.box.overlaps(box, GAP_MM) for box in taken):
            return label
    return None


def _outside(path: list[tuple[float, float]], boxes: list[Box]) -> list[list[tuple[float, float]]]:
    """The pieces of a line that lie in no box."""
    pieces: list[list[tuple[float, float]]] = [[]]
    for x, y in path:
        if any(b.left - GAP_MM < x < b.right + GAP_MM and b.top < y < b.bottom for b in boxes):
            pieces.append([])
        else:
            pieces[-1].append((x, y))
    return [piece for piece in pieces if len(piece) > 1]


def _about(head: Circle) -> Box:
    (x, y), r = head.centre, head.radius
    return Box(x - r, y - r, x + r, y + r)


def _short(label: str) -> str:
    return label if len(label) <= 14 else label[:13].rstrip() + "."


def _describe(faces: tuple[Face, ...], step: float) -> str:
    said = ", ".join(f"{f.label} {signed(f.stops)}" for f in faces)
    every = wording.stops(step) if step != 0.25 else ngettext("{stops} stop", "{stops} stops", 1).format(stops="0.25")
    return _("Lines every {step} against the setting reading. {faces}.").format(step=every, faces=said)
