"""Closed forms against scipy's adaptive quadrature of the laws they were made from.

The integrand is always the law itself (Lambert's cosine over distance squared, a dome's projected area, the definition
of a flux), never a form of ours; the quadrature's own error is asked for and is far below the tolerance.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from shotplans.light import beams, bounce, metering, shadows, sources
from shotplans.light.units import direction

ABS = 2e-7  # of a source that fills the half space with pi: what the closed forms promise [LIGHT-1]


def over_disc(integrate: Any, density: Callable[[float, float], float], radius: float) -> float:
    """Integral over a disc in polar coordinates, so that its rim is an end and no step."""
    found, error = integrate.dblquad(
        lambda phi, r: r * density(r * np.cos(phi), r * np.sin(phi)), 0.0, radius, 0.0, 2 * np.pi,
        epsabs=1e-8, epsrel=1e-8,
    )  # fmt: skip
    assert error < 1e-6
    return float(found)


def lambert(point: Any, normal: Any, centre: Any, axis: Any, roll_deg: float = 0.0) -> Callable[[float, float], float]:
    """What a piece of a front at (u, v) in its own plane sends to a patch: cos cos / r^2, none below the horizon."""
    across, upward = sources.panel_axes(axis, roll_deg)

    def density(u: float, v: float) -> float:
        ray = centre + u * across + v * upward - point
        r2 = float(ray @ ray)
        return max(float(ray @ normal), 0.0) * max(-float(ray @ axis), 0.0) / r2**2

    return density


LIGHTS = {
    # centre (bearing, height, distance), axis off the aim, size, roll, the patch's bearing and height
    "whole": ((30, 20, 1.0), 10, 0.8, 0.5, 15, (0, 0)),
    "cut through the middle": ((80, 0, 0.8), 0, 0.9, 0.6, 0, (-10, 0)),
    "a sliver above the horizon": ((60, 40, 1.0), 0, 1.2, 0.9, 40, (-55, -10)),
    "turned away and cut": ((100, -20, 0.9), -30, 1.0, 0.4, -60, (20, 15)),
}


@pytest.mark.parametrize("name", LIGHTS)
def test_discs_and_rectangles_cut_by_the_horizon(name: str, integrate: Any) -> None:
    (az, el, d), off, width, height, roll, facing = LIGHTS[name]
    centre, axis, normal = direction(az, el) * d, -direction(az + off, el), direction(*facing)
    density = lambert(np.zeros(3), normal, centre, axis, roll)
    disc = sources.disc_irradiance(np.zeros(3), normal, centre, axis, width)
    # The horizon is a kink in the integrand: adaptive, to 1e-6 of a steradian.
    assert disc == pytest.approx(over_disc(integrate, density, width / 2), abs=3e-6)
    expected, error = integrate.dblquad(
        density, -height / 2, height / 2, -width / 2, width / 2, epsabs=1e-8, epsrel=1e-8
    )
    assert error < 1e-5
    rect = sources.rect_irradiance(np.zeros(3), normal, centre, axis, width, height, roll)
    assert rect == pytest.approx(expected, abs=3e-6)


def cap(integrate: Any, weight: Callable[[float], float], t: float, alpha: float) -> float:
    """Integral of a weight on the cosine with an axis over the directions within `alpha` of one `t` off that axis."""
    found, _ = integrate.dblquad(
        lambda phi, a: np.sin(a) * weight(np.cos(a) * np.cos(t) + np.sin(a) * np.sin(t) * np.cos(phi)), 0.0, alpha,
        0.0, 2 * np.pi, epsabs=1e-9, epsrel=1e-9,
    )  # fmt: skip
    return float(found)


@pytest.mark.parametrize("alpha_deg", [2.0, 20.0, 60.0])
@pytest.mark.parametrize("t_deg", [0.0, 45.0, 80.0, 120.0])
def test_meters_under_area_sources_read_the_integral(t_deg: float, alpha_deg: float, integrate: Any) -> None:
    t, alpha = np.radians([t_deg, alpha_deg])
    plane = cap(integrate, lambda c: max(c, 0.0), 0.0, alpha)
    cone = cap(integrate, lambda c: max(c, 0.0), t, alpha)
    dome = cap(integrate, lambda c: (1 + c) / 2, t, alpha)  # half a disc and half an ellipse of a sphere seen aslant
    assert sources.cone_irradiance(np.cos(t), alpha) == pytest.approx(cone, abs=ABS)
    assert metering.recessed_reading(np.cos(t), plane, alpha) == pytest.approx(cone, abs=1e-6)
    assert metering.dome_reading(np.cos(t), plane, alpha) == pytest.approx(dome, rel=1e-7)
    assert np.pi * np.sin(alpha) ** 2 == pytest.approx(plane, rel=1e-7)


def test_a_dome_in_even_surroundings(integrate: Any) -> None:
    even = cap(integrate, lambda c: (1 + c) / 2, 0.0, np.pi / 2) / cap(integrate, lambda c: c, 0.0, np.pi / 2)
    assert metering.dome_uniform(1.0) == pytest.approx(even, rel=1e-9)


@pytest.mark.parametrize("beam_deg", [25.0, 70.0, 120.0, 160.0])
def test_the_flux_of_a_beam(beam_deg: float, integrate: Any) -> None:
    n = np.log(0.5) / np.log(np.cos(np.radians(beam_deg / 2)))
    expected, _ = integrate.quad(lambda t: 2 * np.pi * np.sin(t) * np.cos(t) ** n, 0.0, np.pi / 2)
    assert beams.flux_over_axis(beam_deg) == pytest.approx(expected, rel=1e-8)


def test_the_flux_of_a_beam_behind_a_grid(integrate: Any) -> None:
    n, edge = np.log(0.5) / np.log(np.cos(np.radians(35.0))), np.radians(20.0)  # a grid of 40 degrees in full
    expected, _ = integrate.quad(lambda t: 2 * np.pi * np.sin(t) * np.cos(t) ** n * (1 - t / edge), 0.0, edge)
    assert beams.flux_over_axis(70.0, 40.0) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("core_stops", [0.3, 1.5, 4.0])
def test_a_hot_core_by_its_second_moment(core_stops: float, integrate: Any) -> None:
    light, spread = (
        integrate.quad(lambda r, p=power: r**p * 2.0 ** (-core_stops * r**2), 0.0, 1.0)[0] for power in (1, 3)
    )
    assert sources.hot_core_diameter(1.0, core_stops) == pytest.approx(np.sqrt(2 * spread / light), rel=1e-7)


def over_front(integrate: Any, density: Callable[[float, float], float], size: tuple[float, ...], low: float) -> float:
    """Integral over what of a disc or rectangle lies beyond x = low."""
    half_x, half_y = size[0] / 2, size[-1] / 2

    def chord(x: float) -> float:
        return float(np.sqrt(max(half_x**2 - x * x, 0.0))) if len(size) == 1 else half_y

    start = min(max(low, -half_x), half_x)
    found, _ = integrate.dblquad(
        lambda y, x: density(x, y), start, half_x, lambda x: -chord(x), chord, epsabs=1e-9, epsrel=1e-8
    )
    return float(found)


@pytest.mark.parametrize("size", [(0.6,), (0.8, 0.4)])
@pytest.mark.parametrize("tilt_deg", [0.0, 55.0])
def test_the_profile_of_a_shadows_edge(size: tuple[float, ...], tilt_deg: float, integrate: Any) -> None:
    source, gap, tilt = 1.0, 0.03, np.radians(tilt_deg)
    normal = np.array([-np.sin(tilt), 0.0, np.cos(tilt)])
    lamp = np.array([0.0, 0.0, source + gap])
    for place in (-0.006, 0.0, 0.004):
        point = place * np.array([np.cos(tilt), 0.0, np.sin(tilt)])
        density = along_x(lambert(point, normal, lamp, np.array([0.0, 0.0, -1.0])))
        # The ray to x of the source passes the edge's plane on the lit side from this x on.
        first = -point[0] * source / (gap - point[2])
        seen, whole = (over_front(integrate, density, size, low) for low in (first, -np.inf))
        assert shadows.edge_profile(place, size, source, gap, 0.0, tilt_deg) == pytest.approx(seen / whole, abs=2e-6)


def along_x(density: Callable[[float, float], float]) -> Callable[[float, float], float]:
    """The same front in the scene's own x and y: one that looks down z has its width along -x."""
    across, upward = sources.panel_axes(np.array([0.0, 0.0, -1.0]))
    return lambda x, y: density(x * across[0], y * upward[1])


@pytest.mark.parametrize("diameter", [0.9, 1.5])
def test_what_is_left_behind_a_bar(diameter: float, integrate: Any) -> None:
    distance, bar, gap = 1.0, 0.030, 0.040
    ahead, front = np.array([0.0, 0.0, 1.0]), np.array([0.0, 0.0, distance])
    density = lambert(np.zeros(3), ahead, front, -ahead)
    beside = distance * bar / (2 * gap)  # seen from the middle of its shadow the bar ends here on the source
    left, whole = (over_front(integrate, density, (diameter,), low) for low in (beside, -np.inf))
    assert shadows.core_share(diameter, distance, bar, gap) == pytest.approx(2 * left / whole, abs=1e-6)


def test_the_share_a_black_panel_takes(integrate: Any) -> None:
    width, height, d = 1.0, 2.0, 0.6
    factor, _ = integrate.dblquad(
        lambda y, x: d * d / (x * x + y * y + d * d) ** 2 / np.pi, -width / 2, width / 2, -height / 2, height / 2
    )
    assert bounce.blocked_share(width, height, d) == pytest.approx(factor, rel=1e-8)
