"""Background tone against CIE lightness as published and grey scales; its glow against quadrature and the trade."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import background
from shotplans.light.sources import rect_factor
from tests.light.published import Published, params


@pytest.mark.parametrize("row", params("background", "lightness"))
def test_lightness_is_the_published_one(row: Published) -> None:
    # L20 colour library doctest; L21 middle grey; L24 24-patch chart, its luminances printed to 0.01 %
    tolerance = 5e-7 if row.id == "L20" else 0.02
    assert background.lightness(row.inputs["Y"] / 100) == pytest.approx(row.value, abs=tolerance)


@pytest.mark.parametrize("row", params("background", "ground"))
def test_a_ground_shows_the_lightness_of_its_light(row: Published) -> None:
    found = background.ground_lightness(row.inputs["rho"], row.inputs["s"])
    # L26-L28, to half a digit; 28.5 for white at -4 is rounded twice (CIE gives 28.446), hence 0.005 more
    assert found == pytest.approx(row.value, abs=0.055)


@pytest.mark.parametrize("row", params("background", "stops to clip"))
def test_a_ground_turns_white_at_the_published_excess(row: Published) -> None:
    found = background.stops_for_lightness(row.inputs["rho"], 100.0)
    assert found == pytest.approx(row.value, abs=row.half_digit)  # L29, L30
    assert background.ground_lightness(row.inputs["rho"], row.value + 1) == 100


@given(st.floats(0, 100))
def test_lightness_and_luminance_undo_each_other(level: float) -> None:
    assert background.lightness(background.relative_luminance(level)) == pytest.approx(level, abs=1e-9)


def test_the_dark_toe_meets_the_root_without_a_step() -> None:
    # CIE 1976: the straight part ends at L* = 8 (kappa epsilon = 8 exactly)
    assert background.relative_luminance(8.0) == pytest.approx(216 / 24389, rel=1e-12)
    assert background.lightness(0.001) == pytest.approx(24389 / 27 * 0.001, rel=1e-12)


@given(st.floats(0.03, 0.9), st.floats(-4, 0))
def test_the_stops_for_a_lightness_show_it(reflectance: float, stops: float) -> None:
    shown = background.ground_lightness(reflectance, stops)
    assert background.stops_for_lightness(reflectance, shown) == pytest.approx(stops, abs=1e-9)


def test_tones_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="relative_luminance"):
        background.lightness(-0.1)
    with pytest.raises(ValueError, match="lightness"):
        background.relative_luminance(-1.0)
    with pytest.raises(ValueError, match="reflectance"):
        background.ground_lightness(-0.1, 0.0)
    with pytest.raises(ValueError, match="reflectance"):
        background.stops_for_lightness(0.0, 50.0)
    assert background.stops_for_lightness(0.5, 0.0) == float("-inf")


@pytest.mark.parametrize("row", params("background", "back spill"))
def test_the_back_reads_as_the_face_with_the_ground_as_far_over_as_the_trade_says(row: Published) -> None:
    # L31: a roll of 2.7 x 2.5 m, 90 % white (L26), as far behind as the trade hangs it, 1.8 to 2.4 m (S27 of job.md)
    over = [-np.log2(0.9 * rect_factor(d, 2.7, 2.5)) for d in (1.8, 2.4)]
    found = [_glow_at_the_back(d, 2.0**s) for d, s in zip((1.8, 2.4), over, strict=True)]
    assert np.log2(found) == pytest.approx([row.value] * 2, abs=0.01)
    assert over[0] < row.inputs["high"]
    assert over[1] > row.inputs["low"]


def _glow_at_the_back(distance_m: float, exposure: float) -> float:
    """Glow on a back in the middle of the roll, from one cell as large as the roll."""
    cells, back = np.array([[0.0, 1.2, -distance_m]]), np.array([[0.0, 0.0, -1.0]])
    middle = np.array([[0.0, 1.2, 0.0]])
    found = background.glow(
        middle, back, cells, np.array([exposure]), cell_width_m=2.7, cell_height_m=2.5, reflectance=0.9
    )
    return float(found[0])


def test_a_ground_cut_into_cells_glows_as_the_whole_and_as_quadrature_says() -> None:
    xs, ys = np.meshgrid((np.arange(8) + 0.5) / 8 * 2.7 - 1.35, (np.arange(6) + 0.5) / 6 * 2.5)
    cells = np.stack([xs, ys, np.full_like(xs, -2.0)], axis=-1).reshape(-1, 3)
    points = np.array([[0.1, 1.2, 0.0], [0.2, 1.4, 0.0]])
    normals = np.array([[0.0, 0.0, -1.0], [1.0, 0.0, 0.0]])  # the back, and an edge that the ground only half sees
    found = background.glow(
        points, normals, cells, np.full(48, 2.0), cell_width_m=2.7 / 8, cell_height_m=2.5 / 6, reflectance=0.8
    )
    # Quadrature of L cos cos' / r^2 over a fine grid of the same ground, L = rho E / pi
    gx, gy = np.meshgrid((np.arange(900) + 0.5) / 900 * 2.7 - 1.35, (np.arange(800) + 0.5) / 800 * 2.5)
    way = np.stack([gx, gy, np.full_like(gx, -2.0)], axis=-1)[None] - points[:, None, None, :]
    r2 = (way**2).sum(axis=-1)
    cos = np.clip(np.einsum("nijk,nk->nij", way, normals), 0, None) / np.sqrt(r2)
    area = 2.7 * 2.5 / gx.size
    by_hand = (0.8 * 2.0 / np.pi * cos * (2.0 / np.sqrt(r2)) / r2 * area).sum(axis=(1, 2))
    assert found == pytest.approx(by_hand, rel=1e-4)
    assert found[1] < found[0]


def test_before_an_endless_ground_the_back_gets_all_it_sends_and_an_edge_half() -> None:
    # Limit: an infinite plane fills the half space, E = rho E_g; a surface square to it sees half of that
    points = np.zeros((2, 3))
    normals = np.array([[0.0, 0.0, -1.0], [0.0, 1.0, 0.0]])
    found = background.glow(
        points, normals, np.array([[0.0, 0.0, -1.0]]), np.array([1.0]),
        cell_width_m=2000.0, cell_height_m=2000.0, reflectance=0.5,
    )  # fmt: skip
    assert found == pytest.approx([0.5, 0.25], rel=2e-3)


@given(st.floats(0.02, 0.9), st.floats(0.5, 6.0), st.floats(0.5, 4.0))
def test_the_distance_for_a_glow_gives_it(share: float, width: float, height: float) -> None:
    found = background.distance_for_glow(share, width, height)
    assert rect_factor(found, width, height) == pytest.approx(share, abs=2e-3)


def test_the_spread_of_a_ground_is_counted_in_stops() -> None:
    # Definition of the stop: four times the light is two
    assert background.spread_stops([[1.0, 2.0, 4.0], [3.0, 3.0, 3.0]]) == pytest.approx([2.0, 0.0])


def test_grounds_that_cannot_be_are_refused() -> None:
    one = np.zeros((1, 3))
    with pytest.raises(ValueError, match="reflectance"):
        background.glow(one, one, one, np.ones(1), cell_width_m=1, cell_height_m=1, reflectance=1.1)
    with pytest.raises(ValueError, match="exposures"):
        background.glow(one, one, one, -np.ones(1), cell_width_m=1, cell_height_m=1, reflectance=0.5)
    with pytest.raises(ValueError, match="configuration factor"):
        background.distance_for_glow(1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="share"):
        background.distance_for_glow(0.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="exposures"):
        background.spread_stops([0.0, 1.0])
