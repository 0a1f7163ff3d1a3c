"""Light by distance: what the key gives along its own line to the face, and what swaying costs.

Belongs here: the curve from the engine, the small-light law beside it, the drawing. Not here: why people sway.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shotplans.light import falloff
from shotplans.planner.expect import Meter
from shotplans.seeing import levels
from shotplans.seeing.evenness import signed
from shotplans.sheets.measures import METRIC, Measures
from studio.paper.primitives import DASHED, Box, Circle, Drawing, Line, Mark, Polyline, Text
from studio.tongue import gettext as _

F = NDArray[np.float64]
SWAY_M = 0.10  # to and fro on a stool or on one's feet: common practice, no source
MOVING_M = 0.20  # who cannot keep still; common practice, no source
WIDE_MM, TALL_MM = 150.0, 84.0
PLOT = Box(16.0, 5.0, 146.0, 70.0)
NEAREST, FARTHEST, COUNT = 0.4, 1.8, 57  # of the key's distance
LEAST_NEAR_M = 0.25
TOLD_APART_STOPS = 0.1
CURVE_MM, FINE_MM, TEXT_MM = 0.5, 0.15, 3.4


@dataclass(frozen=True)
class Sway:
    """The curve as a drawing, the key's distance, the sway, what it costs nearer and farther (stops), how far a small
    light would have to be moved for a tenth, and how far the small light's law is off within what is shown.
    """

    drawing: Drawing
    distance_m: float
    sway_m: float
    nearer_stops: float
    farther_stops: float
    tenth_m: float
    law_off_stops: float


def see(meter: Meter, measures: Measures = METRIC) -> Sway:
    """The key of a set on its own line to the face at the mark."""
    key, mark = meter.solved.lights[0], meter.solved.mark_eyes
    distance = float(np.linalg.norm(key.at - mark))
    sway = MOVING_M if _moves(meter) else SWAY_M
    nearest = max(min(LEAST_NEAR_M, 0.7 * distance), NEAREST * distance)
    far = np.linspace(nearest, FARTHEST * distance, COUNT)
    stops = _on_the_line(meter, far, distance)
    law = -falloff.inverse_square_stops(distance, far)
    nearer, farther = _on_the_line(meter, np.array([distance - sway, distance + sway]), distance)
    # A tenth less: how far back that is by the small light's law.
    tenth = float(falloff.movement_for_stops(distance, -0.1))
    off = float(np.abs(stops - law).max())
    plot = _Plot(far, np.concatenate([stops, law] if off >= TOLD_APART_STOPS else [stops]), measures)
    drawn = plot.draw(far, stops, law if off >= TOLD_APART_STOPS else None, distance, sway)
    return Sway(drawn, distance, sway, float(nearer), float(farther), tenth, off)


def _moves(meter: Meter) -> bool:
    """Whether somebody in the picture is noted to tremble or is too small to be kept to a mark."""
    return any(s.person.sitter.tremor or s.person.age < 5.0 for s in meter.solved.pose.together)


def _on_the_line(meter: Meter, far_m: F, distance_m: float) -> F:
    """Stops of the key alone, at distances along its line to the mark, over its reading at the mark."""
    key, mark = meter.solved.lights[0], meter.solved.mark_eyes
    way = (mark - key.at) / distance_m
    got = levels.alone(meter, key, key.at + np.append(far_m, distance_m)[:, None] * way)
    found: F = np.log2(got[:-1] / got[-1])
    return found


class _Plot:
    """Metres across, stops up."""

    def __init__(self, far: F, stops: F, measures: Measures) -> None:
        self.low, self.high = float(np.floor(stops.min())), float(np.ceil(stops.max()))
        self.near, self.far, self.say = float(far[0]), float(far[-1]), measures

    def at(self, metres: float, stops: float) -> tuple[float, float]:
        across = (metres - self.near) / (self.far - self.near)
        up = (stops - self.low) / (self.high - self.low)
        return PLOT.left + across * (PLOT.right - PLOT.left), PLOT.bottom - up * (PLOT.bottom - PLOT.top)

    def draw(self, far: F, stops: F, law: F | None, distance: float, sway: float) -> Drawing:
        marks = [*self._axes()]
        for metres in (distance - sway, distance + sway):
            marks.append(Line(self.at(metres, self.low), self.at(metres, self.high), FINE_MM * 2, DASHED, part="sway"))
        middle = self.at(distance, self.high)[0]
        marks.append(Text((middle, PLOT.top - 1.0), f"± {self.say.number(sway)}", TEXT_MM, part="sway"))
        marks.append(self._path(far, stops))
        marks.append(Circle(self.at(distance, 0.0), 1.1, CURVE_MM, part="face"))
        if law is not None:
            marks.append(self._path(far, law, dashed=True))
            marks += self._told_apart(far, stops, law)
        words = _("The key's light on the face by distance: stops against the place planned")
        return Drawing(WIDE_MM, TALL_MM, 1, _("Light by distance"), words, tuple(marks))

    def _path(self, far: F, stops: F, *, dashed: bool = False) -> Polyline:
        points = tuple(self.at(float(m), float(s)) for m, s in zip(far, stops, strict=True))
        return Polyline(points, FINE_MM * 2 if dashed else CURVE_MM, dash=DASHED if dashed else (), part="curve")

    def _told_apart(self, far: F, stops: F, law: F) -> list[Mark]:
        """Each curve's name at the near end, where they part."""
        upper, lower = (_("small light"), _("this front")) if law[0] > stops[0] else (_("this front"), _("small light"))
        high, low = max(law[0], stops[0]), min(law[0], stops[0])
        x = float(far[0])
        top, under = self.at(x, high), self.at(x, low)
        return [
            Text((top[0] + 15, max(top[1] + 1, PLOT.top + TEXT_MM)), upper, TEXT_MM, part="name"),
            Text((under[0] + 8, max(under[1], top[1]) + 11), lower, TEXT_MM, part="name"),
        ]

    def _axes(self) -> list[Mark]:
        marks: list[Mark] = []
        step = 1.0 if self.high - self.low <= 6 else 2.0
        for level in np.arange(self.low, self.high + 0.01, step):
            y = self.at(self.near, float(level))[1]
            marks.append(Line((PLOT.left, y), (PLOT.right, y), FINE_MM, ink=0.5, part="grid"))
            marks.append(Text((PLOT.left - 6.5, y + 1.2), signed(float(level)), TEXT_MM, part="number"))
        apart = next(a for a in (0.25, 0.5, 1.0, 2.0, 4.0) if (self.far - self.near) / a <= 7)
        for metres in np.arange(np.ceil(self.near / apart) * apart, self.far, apart):
            x = self.at(float(metres), self.low)[0]
            marks.append(Line((x, PLOT.bottom), (x, PLOT.bottom + 1.2), FINE_MM * 2, part="grid"))
            marks.append(Text((x, PLOT.bottom + 5.2), self.say.number(float(metres)), TEXT_MM, part="number"))
        marks.append(Line((PLOT.left, PLOT.bottom), (PLOT.right, PLOT.bottom), FINE_MM * 2, part="grid"))
        axis = _("from the front, feet; up: stops") if self.say.is_imperial else _("from the front, metres; up: stops")
        middle = (PLOT.left + PLOT.right) / 2
        marks.append(Text((middle, PLOT.bottom + 10.5), axis, TEXT_MM))
        return marks
