"""The light against a renderer: irradiance of panels, edges of shadows, relief of a groove, two lights together.

The source beside every assertion is Mitsuba 3 (scalar_rgb), which knows none of our formulas: it follows rays. What
is compared is far inside what the project promises (2 % of irradiance, 5 % of an edge's width, 10 % or 0.1 stop of
relief, whichever is more); its own noise is said where it counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from shotplans.light import shadows, sources
from shotplans.light.relief import STANDARD_ASPECT, Relief, relief
from shotplans.light.units import direction
from tests.proof import scenes

IRRADIANCE, EDGE, RELIEF, RELIEF_STOPS = 0.02, 0.05, 0.10, 0.1  # what the project promises against the renderer
AHEAD = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True)
class Panel:
    """A front of so many millimetres at a bearing, height and distance, its axis turned from the subject by `off`."""

    size: tuple[float, ...]
    az: float
    el: float
    distance: float
    off: float = 0.0
    roll: float = 0.0

    @property
    def centre(self) -> np.ndarray:
        return np.asarray(direction(self.az, self.el)) * self.distance

    @property
    def axis(self) -> np.ndarray:
        return -np.asarray(direction(self.az + self.off, self.el))

    def lamp(self, mi: Any, radiance: float = 1.0) -> dict[str, Any]:
        return scenes.panel(mi, self.centre, self.axis, self.size, self.roll, radiance)

    def on(self, point: np.ndarray, normal: np.ndarray) -> float:
        if len(self.size) == 1:
            return float(sources.disc_irradiance(point, normal, self.centre, self.axis, self.size[0]))
        return float(sources.rect_irradiance(point, normal, self.centre, self.axis, *self.size, self.roll))


PANELS = {
    "a disc half its size away": (Panel((120.0,), 0, 0, 60), (0, 0, 0), (0, 0)),
    "a disc to the side, seen by a face turned away": (Panel((90.0,), 45, 30, 120), (0, 0, 0), (-20, 0)),
    "a disc aimed elsewhere, at the end of a row": (Panel((150.0,), 35, 20, 250, off=25), (-80, 0, 10), (0, 0)),
    "a disc cut by the horizon of the skin": (Panel((140.0,), 80, 5, 100), (0, 0, 0), (-5, 0)),
    "a square near by": (Panel((100.0, 100.0), 0, 0, 70), (0, 0, 0), (0, 0)),
    "a rolled rectangle off its axis": (Panel((90.0, 60.0), -40, 25, 110, roll=30), (15, -10, 0), (20, 10)),
    "a strip seen end on": (Panel((30.0, 120.0), 70, 10, 140, roll=90), (0, 0, 0), (0, 0)),
    "a rectangle cut by the horizon of the skin": (Panel((120.0, 80.0), 100, 20, 90), (0, 0, 0), (30, 0)),
}


@pytest.mark.parametrize("name", PANELS)
def test_a_panel_lights_a_patch_as_the_renderer_has_it(name: str, mi: Any) -> None:
    panel, point, facing = PANELS[name]
    where, normal = np.array(point, dtype=float), np.asarray(direction(*facing))
    rendered = scenes.irradiance(mi, where, normal, [panel.lamp(mi)])
    assert panel.on(where, normal) == pytest.approx(rendered, rel=IRRADIANCE)
    assert panel.on(where, normal) == pytest.approx(rendered, rel=0.002)  # its noise here is under a thousandth


def test_two_lights_add_up(mi: Any) -> None:
    key, fill = Panel((120.0,), 45, 30, 150), Panel((180.0, 120.0), -20, 15, 300)
    normal = np.asarray(direction(10.0, 0.0))
    rendered = scenes.irradiance(mi, np.zeros(3), normal, [key.lamp(mi, 3.0), fill.lamp(mi, 1.5)])
    assert 3.0 * key.on(np.zeros(3), normal) + 1.5 * fill.on(np.zeros(3), normal) == pytest.approx(rendered, rel=0.002)


EDGES = {
    # source (mm), source to edge, edge to board, roll, turn of the board (degrees)
    "a disc": ((500.0,), 1000.0, 30.0, 0.0, 0.0),
    "a square on its corner": ((600.0, 600.0), 1000.0, 25.0, 45.0, 0.0),
    "a rolled strip on a turned cheek": ((300.0, 1200.0), 900.0, 30.0, 30.0, 50.0),
    "a large disc on a cheek turned far": ((1200.0,), 1000.0, 30.0, 0.0, 60.0),
}


def crossing(places: np.ndarray, profile: np.ndarray, level: float) -> float:
    """Where a noisy rising profile passes a level: a cubic through its neighbourhood."""
    middle = int(np.flatnonzero(profile >= level)[0])
    near = slice(max(0, middle - 8), middle + 8)
    return float(np.polyval(np.polyfit(profile[near], places[near], 3), level))


@pytest.mark.parametrize("name", EDGES)
def test_the_edge_of_a_shadow_is_as_wide_as_the_renderer_draws_it(name: str, mi: Any) -> None:
    size, source, gap, roll, tilt = EDGES[name]
    in_metres = (tuple(s / 1000 for s in size), source / 1000, gap / 1000, roll, tilt)
    exact = shadows.edge_width_mm(*in_metres)
    places, profile = scenes.edge(mi, size, source, gap, 1.6 * exact, roll, tilt)
    rendered = crossing(places, profile, 0.9) - crossing(places, profile, 0.1)
    assert exact == pytest.approx(rendered, rel=EDGE)
    assert exact == pytest.approx(rendered, rel=0.012)  # a pixel is 2 % of the width; the cubic finds a half of that
    # Noise of 16,384 rays a pixel at the middle of the edge: 0.004.
    assert shadows.edge_profile(places / 1000, *in_metres) == pytest.approx(profile, abs=0.006)


def test_the_rule_for_planning_holds_where_it_says(mi: Any) -> None:
    places, profile = scenes.edge(mi, (800.0,), 1000.0, 30.0, 27.0)
    rendered = crossing(places, profile, 0.9) - crossing(places, profile, 0.1)
    assert shadows.edge_disc_mm(0.8, 1.0, 0.03) == pytest.approx(rendered, rel=EDGE)


@dataclass(frozen=True)
class Groove:
    """One light at `theta` from the normal, its angular radius, the skin, and a fill `fill_below` stops under it."""

    theta: float
    alpha: float
    reflectance: float
    fill_below: float | None = None
    roughness: float = 0.3
    aspect: float = STANDARD_ASPECT


GROOVES = {
    "light skin, in front": Groove(30, 10, 0.33),
    "light skin, 45 degrees": Groove(45, 15, 0.33),
    "dark skin, 45 degrees": Groove(45, 15, 0.05),
    "light skin, raking": Groove(65, 10, 0.33),
    "dark skin, raking": Groove(65, 10, 0.05),
    "dark skin, raking, a source six times as large": Groove(60, 30, 0.05),
    "light skin with a fill over the lens": Groove(55, 12, 0.33, fill_below=1.0),
    "dark skin with a fill over the lens": Groove(55, 12, 0.05, fill_below=1.0),
    "corner of the range: shallow, dark, grazing": Groove(75, 5, 0.05, aspect=0.05),
    "corner of the range: deep, light, grazing, large": Groove(75, 30, 0.45, aspect=0.20),
    "corner of the range: deep, dark, in front": Groove(20, 5, 0.05, aspect=0.20),
}
FILL_ALPHA = 15.0


def lit(mi: Any, groove: Groove) -> list[dict[str, Any]]:
    """Key and fill as discs far away; the radiance makes the key one at normal incidence."""
    lights = [(groove.theta, groove.alpha, 1.0)]
    if groove.fill_below is not None:
        lights.append((0.0, FILL_ALPHA, 2.0**-groove.fill_below))
    far = 200.0
    return [
        Panel((2 * far * float(np.tan(np.radians(a))),), t, 0, far).lamp(mi, e / (np.pi * np.sin(np.radians(a)) ** 2))
        for t, a, e in lights
    ]


def reckoned(groove: Groove) -> Relief:
    fills = [] if groove.fill_below is None else [(0.0, FILL_ALPHA, 2.0**-groove.fill_below)]
    theta, alpha, strength = (np.array(v) for v in zip((groove.theta, groove.alpha, 1.0), *fills, strict=True))
    return relief(
        AHEAD, AHEAD, direction(theta, 0.0), np.radians(alpha), strength, dome=0.0, reflectance=groove.reflectance,
        roughness=groove.roughness, aspect=groove.aspect, line=(0.0, 1.0, 0.0),
    )  # fmt: skip


@pytest.mark.parametrize("name", GROOVES)
def test_a_groove_stands_out_as_the_renderer_shows_it(name: str, mi: Any) -> None:
    groove = GROOVES[name]
    skin = scenes.skin(groove.reflectance, groove.roughness)
    shadow, highlight = scenes.groove_stops(mi, groove.aspect, skin, lit(mi, groove))
    found = reckoned(groove)
    total = shadow + highlight
    assert found.shadow_stops + found.highlight_stops == pytest.approx(total, abs=max(RELIEF_STOPS, RELIEF * total))
    for part, rendered in ((found.shadow_stops, shadow), (found.highlight_stops, highlight)):
        assert part == pytest.approx(rendered, abs=max(RELIEF_STOPS, RELIEF * rendered))


def test_beyond_its_range_the_relief_leaves_the_promise_as_its_docstring_says(mi: Any) -> None:
    # A deep fold in light skin: its walls light one another, which the index leaves out.
    fold = Groove(60, 5, 0.45, aspect=0.35)
    skin = scenes.skin(fold.reflectance, fold.roughness)
    shadow, highlight = scenes.groove_stops(mi, fold.aspect, skin, lit(mi, fold))
    found = reckoned(fold)
    assert 0.1 * shadow + RELIEF_STOPS < found.shadow_stops - shadow < 0.7
    assert found.highlight_stops == pytest.approx(highlight, abs=RELIEF_STOPS)
    assert "too deep by up to 0.7 stop" in " ".join(str(relief.__doc__).split())
