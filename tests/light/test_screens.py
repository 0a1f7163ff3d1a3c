"""Flags against similar triangles, the width of a penumbra and rays drawn at random."""

from __future__ import annotations

import numpy as np
import pytest

from shotplans.light import screens

ACROSS, UP = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])


def source(width: float, n: int = 41) -> np.ndarray:
    """A square source of this width at z = 0, facing +z."""
    xs, ys = np.meshgrid((np.arange(n) + 0.5) / n * width - width / 2, (np.arange(n) + 0.5) / n * width - width / 2)
    return np.stack([xs, ys, np.zeros_like(xs)], axis=-1).reshape(-1, 3)


def test_a_screen_between_is_as_wide_as_similar_triangles_say() -> None:
    assert screens.size_needed_m(0.5, 0.1, 0.0) == pytest.approx(0.5)
    assert screens.size_needed_m(0.5, 0.1, 1.0) == pytest.approx(0.1)
    assert screens.size_needed_m(0.4, 0.2, 0.5) == pytest.approx(0.3)


def test_a_screen_of_the_needed_size_hides_all_and_a_smaller_one_does_not() -> None:
    at = np.array([0.0, 0.0, 1.0])  # a quarter of the way to a place of 0.2 m, 4 m off
    needed = float(screens.size_needed_m(0.5, 0.2, 0.25))
    corners = np.array([[x, y, 4.0] for x in (-0.1, 0.1) for y in (-0.1, 0.1)])
    assert screens.hidden_share(corners, source(0.5), at, (ACROSS, UP), needed, needed) == pytest.approx(1.0)
    assert screens.hidden_share(corners, source(0.5), at, (ACROSS, UP), 0.8 * needed, 0.8 * needed).max() < 1.0


def test_the_edge_of_its_shadow_is_as_wide_as_the_penumbra_of_a_straight_edge() -> None:
    # LIGHT-2: full width W b/a, a 1 m from source to edge, b 2 m from edge to surface: 0.4 x 2/1 = 0.8 m about x = 0
    wide = np.array([-5.0, 0.0, 1.0])
    points = np.array([[x, 0.0, 3.0] for x in (-0.45, -0.35, 0.0, 0.35, 0.45)])
    found = screens.hidden_share(points, source(0.4), wide, (ACROSS, UP), 10.0, 10.0)
    assert found[0] == 1.0
    assert 0 < found[1] < 1
    assert found[2] == pytest.approx(0.5, abs=0.02)
    assert 0 < found[3] < 1
    assert found[4] == 0.0


def test_a_screen_behind_the_point_or_edge_on_hides_nothing() -> None:
    point = np.array([[0.0, 0.0, 2.0]])
    behind = np.array([0.0, 0.0, 3.0])
    assert screens.hidden_share(point, source(0.2), behind, (ACROSS, UP), 1.0, 1.0) == 0.0
    edge_on = (np.array([0.0, 0.0, 1.0]), UP)
    assert screens.hidden_share(point, source(0.2, 4), np.array([0.0, 0, 1.0]), edge_on, 1.0, 1.0) <= 0.5


def test_sizes_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="along"):
        screens.size_needed_m(1.0, 1.0, 1.2)
    with pytest.raises(ValueError, match="source_m"):
        screens.size_needed_m(-1.0, 1.0, 0.5)
    with pytest.raises(ValueError, match="width_m"):
        screens.hidden_share(np.zeros((1, 3)), source(0.1), np.ones(3), (ACROSS, UP), 0.0, 1.0)
