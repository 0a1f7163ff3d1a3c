"""Irradiance of discs, panels and cones against published factors, brute quadrature and laws of light."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.polynomial.legendre import leggauss

from shotplans.light import sources
from shotplans.light.units import direction
from tests.light.published import Published, params

# Half of the last printed digit of a row that gives four or more figures: 1e-4 relative at the least.
ROUNDING = 1e-4
UP = np.array([0.0, 0.0, 1.0])
DOWN = -UP


def corner_factor(a: float, b: float, c: float, normal: np.ndarray = UP) -> float:
    """Factor of a rectangle a x b parallel to the floor, c above a point beneath its corner."""
    return float(sources.rect_irradiance([0, 0, 0], normal, [a / 2, b / 2, c], DOWN, a, b)) / np.pi


@pytest.mark.parametrize("row", params("geometry_and_eyes", "disc factor"))
def test_a_disc_on_its_axis_has_the_published_factor(row: Published) -> None:
    d, diameter = row.inputs["d"], row.inputs["D"]
    # P05, P07-P13: uniform disc on axis, course notes and HOWELL.
    assert sources.disc_factor(d, diameter) == pytest.approx(row.value, abs=row.half_digit)
    exact = sources.disc_irradiance([0, 0, 0], UP, [0, 0, d], DOWN, diameter)
    assert exact == pytest.approx(np.pi * row.value, abs=np.pi * row.half_digit)


@pytest.mark.parametrize("tilt_deg", [0.0, 20.0, 40.0])
def test_a_tilted_element_loses_the_cosine_while_the_disc_is_up(tilt_deg: float) -> None:
    # P06: F = cos w R^2/(R^2 + d^2), disc wholly above the horizon (a published catalogue page).
    normal = direction(tilt_deg, 0.0)
    expected = np.pi * np.cos(np.radians(tilt_deg)) * 0.2
    assert sources.disc_irradiance([0, 0, 0], normal, [0, 0, 1], DOWN, 1.0) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "corner factor"))
def test_a_rectangle_over_its_corner_has_the_catalogue_factor(row: Published) -> None:
    assert corner_factor(**row.inputs) == pytest.approx(row.value, abs=row.half_digit)  # P15 (MEMORY, integrated)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "wide corner factor"))
def test_a_wide_ceiling_fills_a_quarter_per_corner(row: Published) -> None:
    # P20: limit of the published note; the rest is of the order c/a.
    assert corner_factor(**row.inputs) == pytest.approx(row.value, abs=1e-3)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "facing strip factor"))
def test_a_strip_under_the_edge_of_a_ceiling_gets_the_published_share(row: Published) -> None:
    a, b, c = row.inputs["a"], row.inputs["b"], row.inputs["c"]
    nodes, weights = leggauss(40)
    points = np.stack([np.zeros(40), b * (nodes + 1) / 2, np.zeros(40)], axis=-1)
    along = sources.rect_irradiance(points, UP, [a / 2, b / 2, c], DOWN, a, b) / np.pi
    assert (along * weights).sum() / 2 == pytest.approx(row.value, abs=row.half_digit)  # P16: published result


@pytest.mark.parametrize("row", params("geometry_and_eyes", "perpendicular strip factor"))
def test_a_strip_square_to_a_wall_gets_the_published_share(row: Published) -> None:
    a, b, c = row.inputs["a"], row.inputs["b"], row.inputs["c"]
    nodes, weights = leggauss(40)
    points = np.stack([np.zeros(40), b * (nodes + 1) / 2, np.zeros(40)], axis=-1)
    along = sources.rect_irradiance(points, [1.0, 0, 0], [a / 2, b / 2, c], DOWN, a, b) / np.pi
    assert (along * weights).sum() / 2 == pytest.approx(row.value, abs=row.half_digit)  # P18: published result


@pytest.mark.parametrize("row", params("geometry_and_eyes", "perpendicular corner factor"))
def test_a_wall_seen_from_its_corner_has_the_catalogue_factor(row: Published) -> None:
    found = corner_factor(**row.inputs, normal=np.array([1.0, 0.0, 0.0]))
    assert found == pytest.approx(row.value, abs=row.half_digit)  # P19 (MEMORY)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "facing rectangles factor"))
def test_two_facing_panels_exchange_the_published_share(row: Published) -> None:
    a, b, c = row.inputs["a"], row.inputs["b"], row.inputs["c"]
    nodes, weights = leggauss(24)
    x, y = np.meshgrid(a / 2 * nodes, b / 2 * nodes)
    points = np.stack([x, y, np.zeros_like(x)], axis=-1)
    share = sources.rect_irradiance(points, UP, [0, 0, c], DOWN, a, b) / np.pi
    mean = (share * np.outer(weights, weights)).sum() / 4
    assert mean == pytest.approx(row.value, abs=row.half_digit)  # P22-P24: published tables


@pytest.mark.parametrize("row", params("geometry_and_eyes", "panel factor"))
def test_a_centred_panel_has_four_times_the_corner_factor(row: Published) -> None:
    w, h, d = row.inputs["w"], row.inputs["h"], row.inputs["d"]
    assert sources.rect_factor(d, w, h) == pytest.approx(row.value, rel=ROUNDING)  # P25-P30 (MEMORY formula)
    exact = sources.rect_irradiance([0, 0, 0], UP, [0, 0, d], DOWN, w, h) / np.pi
    assert exact == pytest.approx(row.value, rel=ROUNDING)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "panel illuminance"))
def test_a_panel_of_known_luminance_gives_the_worked_illuminance(row: Published) -> None:
    w, h, d = row.inputs["w"], row.inputs["h"], row.inputs["d"]
    lux = np.pi * row.inputs["L"] * sources.rect_factor(d, w, h)
    assert lux == pytest.approx(row.value, abs=row.half_digit)  # P31 (MEMORY formula)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "cone solid angle"))
def test_a_disc_fills_the_angle_of_its_cone(row: Published) -> None:
    diameter = 2 * np.tan(np.radians(row.inputs["alpha"]))
    seen = np.radians(sources.apparent_deg(diameter, 1.0))
    assert 2 * np.pi * (1 - np.cos(seen / 2)) == pytest.approx(row.value, abs=row.half_digit)  # P36 (MEMORY)
    assert sources.apparent_deg(diameter, 1.0) == pytest.approx(2 * row.inputs["alpha"])


def brute_irradiance(point, normal, centre, axis, size, roll_deg):  # type: ignore[no-untyped-def]
    """Midpoint sum over the source: slow, independent of every closed form."""
    across, upward = sources.panel_axes(axis, roll_deg)
    steps = (np.arange(700) + 0.5) / 700
    if len(size) == 1:
        r, phi = np.meshgrid(size[0] / 2 * np.sqrt(steps), 2 * np.pi * steps)
        u, v, area = r * np.cos(phi), r * np.sin(phi), np.pi * size[0] ** 2 / 4
    else:
        u, v = np.meshgrid(size[0] * (steps - 0.5), size[1] * (steps - 0.5))
        area = size[0] * size[1]
    ray = centre + u[..., None] * across + v[..., None] * upward - point
    r2 = (ray**2).sum(axis=-1)
    return (np.clip(ray @ normal, 0, None) * np.clip(-(ray @ axis), 0, None) / r2**2).mean() * area


@pytest.mark.parametrize("seed", range(8))
def test_cut_and_turned_sources_agree_with_brute_quadrature(seed: int) -> None:
    rng = np.random.default_rng(seed)
    point, normal, centre = rng.normal(size=3) * 0.3, rng.normal(size=3), rng.normal(size=3)
    normal /= np.linalg.norm(normal)
    axis = -centre / np.linalg.norm(centre) + rng.normal(size=3) * 0.4
    axis /= np.linalg.norm(axis)
    w, h, roll = rng.uniform(0.2, 1.5), rng.uniform(0.2, 1.5), rng.uniform(-90, 90)
    # The midpoint sum itself is good to about 1e-6 absolute at 490,000 points.
    disc = sources.disc_irradiance(point, normal, centre, axis, w)
    assert disc == pytest.approx(brute_irradiance(point, normal, centre, axis, (w,), roll), abs=3e-6)
    rect = sources.rect_irradiance(point, normal, centre, axis, w, h, roll)
    assert rect == pytest.approx(brute_irradiance(point, normal, centre, axis, (w, h), roll), abs=3e-6)


@given(st.floats(0.02, 1.5), st.floats(0.0, 180.0))
def test_an_aimed_disc_is_the_same_by_the_cone_and_by_the_arc(alpha: float, t_deg: float) -> None:
    normal = direction(t_deg, 0.0)
    cone = sources.cone_irradiance(np.cos(np.radians(t_deg)), alpha)
    disc = sources.disc_irradiance([0, 0, 0], normal, [0, 0, 1], DOWN, 2 * np.tan(alpha))
    assert disc == pytest.approx(float(cone), abs=1e-9)


@given(st.floats(0.1, 3.0), st.floats(-60.0, 60.0), st.floats(-80.0, 80.0))
def test_the_vector_form_is_the_irradiance_while_the_source_is_up(d: float, az: float, roll: float) -> None:
    centre = direction(az, 20.0) * (d + 0.6)
    axis = -centre / (d + 0.6)
    normal = direction(az, 20.0)
    disc = sources.disc_vector([0, 0, 0], centre, axis, 0.5) @ normal
    assert disc == pytest.approx(float(sources.disc_irradiance([0, 0, 0], normal, centre, axis, 0.5)), rel=1e-9)
    rect = sources.rect_vector([0, 0, 0], centre, axis, 0.5, 0.3, roll) @ normal
    exact = sources.rect_irradiance([0, 0, 0], normal, centre, axis, 0.5, 0.3, roll)
    assert rect == pytest.approx(float(exact), rel=1e-9)


def test_twice_the_distance_costs_two_stops_far_away() -> None:
    # CIE S 017 17-25-104: photometric distance law, the limit of every source.
    for shape in ((1.0,), (1.0, 0.6)):
        near, far = (
            sources.disc_irradiance([0, 0, 0], UP, [0, 0, d], DOWN, *shape)
            if len(shape) == 1
            else sources.rect_irradiance([0, 0, 0], UP, [0, 0, d], DOWN, *shape)
            for d in (500.0, 1000.0)
        )
        assert np.log2(near / far) == pytest.approx(2.0, abs=1e-5)


def test_nothing_shines_behind_the_front() -> None:
    behind = [0.1, 0.0, 1.5]
    assert sources.disc_irradiance(behind, DOWN, [0, 0, 1], DOWN, 1.0) == 0
    assert sources.rect_irradiance(behind, DOWN, [0, 0, 1], DOWN, 1.0, 1.0) == 0
    assert not sources.disc_vector(behind, [0, 0, 1], DOWN, 1.0).any()
    assert not sources.rect_vector(behind, [0, 0, 1], DOWN, 1.0, 1.0).any()


def test_a_source_under_the_horizon_gives_nothing() -> None:
    assert sources.disc_irradiance([0, 0, 0], DOWN, [0, 0, 1], DOWN, 1.0) == 0
    assert sources.rect_irradiance([0, 0, 0], DOWN, [0, 0, 1], DOWN, 1.0, 1.0) == 0
    assert sources.cone_irradiance(-0.9, 0.3) == 0


def test_a_panel_straight_overhead_still_has_its_sides() -> None:
    across, upward = sources.panel_axes([0.0, -1.0, 0.0])
    assert across.tolist() == [1.0, 0.0, 0.0]
    assert abs(upward[2]) == 1.0


def test_many_points_at_once_agree_with_one_at_a_time() -> None:
    rng = np.random.default_rng(5)
    points, normals = rng.normal(size=(6, 4, 3)), rng.normal(size=(4, 3))
    normals /= np.linalg.norm(normals, axis=-1, keepdims=True)
    disc = sources.disc_irradiance(points, normals, [0, 0, 2], DOWN, [[0.5]] * 6)
    rect = sources.rect_irradiance(points, normals, [0, 0, 2], DOWN, 1.0, 0.5, 30.0)
    for i in range(6):
        for j in range(4):
            one = sources.disc_irradiance(points[i, j], normals[j], [0, 0, 2], DOWN, 0.5)
            assert disc[i, j] == pytest.approx(float(one), abs=1e-14)
            one = sources.rect_irradiance(points[i, j], normals[j], [0, 0, 2], DOWN, 1.0, 0.5, 30.0)
            assert rect[i, j] == pytest.approx(float(one), abs=1e-14)


def test_a_hot_core_makes_a_source_work_smaller() -> None:
    # Against a direct sum over the disc: second moment of 2^(-stops r^2), an even disc has R^2/2.
    r2 = (np.arange(100000) + 0.5) / 100000
    for core_stops in (0.0, 0.0005, 0.5, 2.0):
        weight = 2.0 ** (-core_stops * r2)
        expected = np.sqrt(2 * (weight * r2).sum() / weight.sum())
        assert sources.hot_core_diameter(1.0, core_stops) == pytest.approx(expected, rel=1e-7)


def fading_disc(point: np.ndarray, core_stops: float) -> float:
    """Light at a point from a matt disc 1 m across that fades from middle to rim, by direct sum, over its output."""
    r, turn = np.meshgrid((np.arange(400) + 0.5) / 400, 2 * np.pi * (np.arange(128) + 0.5) / 128, indexing="ij")
    ray = point[:, None, None] - np.stack([r / 2 * np.cos(turn), r / 2 * np.sin(turn), 0 * r])
    far2 = (ray**2).sum(axis=0)
    weight = 2.0 ** (-core_stops * r**2) * r
    vector = (weight * ray[2] / far2**1.5 * ray / np.sqrt(far2)).sum(axis=(1, 2))
    return float(np.linalg.norm(vector) / weight.sum())


@pytest.mark.parametrize("off_deg", [0.0, 30.0, 50.0])
@pytest.mark.parametrize(("distance_m", "slack"), [(0.5, 0.06), (1.0, 0.01), (2.0, 0.01)])
def test_an_even_disc_of_equal_moment_stands_for_one_with_a_hot_core(
    distance_m: float, slack: float, off_deg: float
) -> None:
    point = distance_m * direction(off_deg, 0.0)
    for core_stops in (0.5, 2.0, 3.0):
        size = float(sources.hot_core_diameter(1.0, core_stops))
        seen = float(np.linalg.norm(sources.disc_vector(point, [0, 0, 0], UP, size))) / (np.pi * size**2 / 4)
        # Against a direct sum over the fading disc; the docstring states the slack.
        assert abs(np.log2(seen / fading_disc(point, core_stops))) <= slack
