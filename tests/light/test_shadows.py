"""Shadow edges against the study's traced tables, a brute count of the source and similar triangles."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shotplans.light import shadows


@given(st.floats(0.05, 3.0), st.floats(0.3, 5.0), st.floats(0.001, 0.2))
def test_the_full_width_is_by_similar_triangles(extent: float, source_m: float, gap_m: float) -> None:
    # LIGHT-2: W b / a, exact for parallel planes; the profile is 0 at one end and 1 at the other.
    full_m = extent * gap_m / source_m
    ends = shadows.edge_profile([-full_m / 2, 0.0, full_m / 2], (extent,), source_m, gap_m)
    assert ends == pytest.approx([0.0, ends[1], 1.0], abs=1e-9)


def test_the_edge_of_a_far_disc_has_the_published_profile() -> None:
    # LIGHT-2: f(t) = 1/2 + (t sqrt(1 - t^2) + asin t)/pi, the area of a disc beyond a chord; far and near the surface.
    t = np.linspace(-0.95, 0.95, 9)
    profile = shadows.edge_profile(t * 0.5e-6, (1.0,), 1e3, 1e-3)
    assert profile == pytest.approx(0.5 + (t * np.sqrt(1 - t**2) + np.arcsin(t)) / np.pi, abs=1e-6)


@pytest.mark.parametrize("across", [0.1, 0.3, 0.75, 1.5, 2.0])
def test_the_rule_for_planning_keeps_to_the_exact_width(across: float) -> None:
    # LIGHT-2 states 0.7 % for discs up to D/a 2.
    disc = shadows.edge_disc_mm(across, 1.0, 0.02) / shadows.edge_width_mm((across,), 1.0, 0.02)
    assert disc == pytest.approx(1.0, abs=0.007)


@pytest.mark.parametrize(
    ("d_over_distance", "edge_mm", "core"),
    [(0.10, 2.1, 0), (0.15, 3.1, 0), (0.30, 6.2, 0), (0.50, 10.2, 0), (0.75, 15.1, 0), (0.90, 18.0, 0.069),
     (1.00, 19.8, 0.125), (1.20, 23.4, 0.221), (1.50, 28.3, 0.327), (1.90, 34.1, 0.419), (2.50, 41.0, 0.498)],
)  # fmt: skip
def test_soft_and_hard_in_numbers(d_over_distance: float, edge_mm: float, core: float) -> None:
    # LIGHT-2, "Soft and hard in numbers": edge by the rule (half a printed digit), core traced to 0.0006.
    assert shadows.edge_disc_mm(d_over_distance, 1.0, 0.030) == pytest.approx(edge_mm, abs=0.051)
    assert shadows.core_share(d_over_distance, 1.0) == pytest.approx(core, abs=0.0006 + 0.0005)


@pytest.mark.parametrize(
    ("d_over_distance", "word"),
    [(0.1, "hard"), (0.15, "hard"), (0.3, "fairly hard"), (0.5, "medium"), (0.75, "soft"), (1.2, "very soft"),
     (2.5, "shadowless"), (9.0, "shadowless")],
)  # fmt: skip
def test_each_softness_has_its_word(d_over_distance: float, word: str) -> None:
    assert shadows.softness_word(d_over_distance) == word  # LIGHT-2, recommended words (a convention)


def test_the_umbra_behind_a_nose_vanishes_where_the_words_turn_soft() -> None:
    # LIGHT-2: from D/d = f/b = 30 mm over 40 mm on
    assert shadows.core_share(0.74, 1.0) == pytest.approx(0.0, abs=1e-9)
    assert shadows.core_share(0.76, 1.0) > 0


def test_a_square_on_its_corner_has_the_published_share_of_its_full_width() -> None:
    # LIGHT-2: 0.540 of the full width at D/a 0.53.
    full = 1000 * shadows.extent_m((0.53, 0.53), 45) * 0.02  # mm, by similar triangles
    assert shadows.edge_width_mm((0.53, 0.53), 1.0, 0.02, 45) / full == pytest.approx(0.540, abs=0.0006)


def test_a_turned_surface_stretches_the_edge() -> None:
    # LIGHT-2: 1/cos within 0.7 % at 60 degrees for D/a 0.4 and b/a 1/60; 35.4 mm for D/a 1.2 where 1/cos says 46.6.
    level, turned = (shadows.edge_width_mm((0.6,), 1.5, 0.025, 0, tilt) for tilt in (0, 60))
    assert turned * np.cos(np.radians(60)) == pytest.approx(level, rel=0.0075)
    assert shadows.edge_width_mm((1.2,), 1.0, 0.03, 0, 60) == pytest.approx(35.4, abs=0.05)


def brute_profile(position_m, size_m, source_m, gap_m, roll_deg, tilt_deg):  # type: ignore[no-untyped-def]
    """Share of the light by counting points of the source: slow, independent of the strip integral."""
    steps = (np.arange(900) + 0.5) / 900
    if len(size_m) == 1:
        r, phi = np.meshgrid(size_m[0] / 2 * np.sqrt(steps), 2 * np.pi * steps)
        x, y = r * np.cos(phi), r * np.sin(phi)
    else:
        u, v = np.meshgrid(size_m[0] * (steps - 0.5), size_m[1] * (steps - 0.5))
        c, s = np.cos(np.radians(roll_deg)), np.sin(np.radians(roll_deg))
        x, y = c * u - s * v, s * u + c * v
    tilt = np.radians(tilt_deg)
    px, pz = position_m * np.cos(tilt), position_m * np.sin(tilt)
    up = source_m + gap_m - pz
    light = np.clip(-np.sin(tilt) * (x - px) + np.cos(tilt) * up, 0, None) * up / ((x - px) ** 2 + y**2 + up**2) ** 2
    crossing = px + (x - px) * (gap_m - pz) / up
    return (light * (crossing > 0)).sum() / light.sum()


@pytest.mark.parametrize("size_m", [(1.2,), (0.3, 1.2), (1.6, 0.8)])
@pytest.mark.parametrize(("roll_deg", "tilt_deg"), [(0, 0), (30, 0), (90, 35), (-20, 60), (45, -70)])
def test_any_source_roll_and_tilt_agrees_with_a_brute_count(
    size_m: tuple[float, ...], roll_deg: float, tilt_deg: float
) -> None:
    for position_m in (-0.012, -0.003, 0.0, 0.004, 0.015):
        exact = shadows.edge_profile(position_m, size_m, 0.9, 0.03, roll_deg, tilt_deg)
        brute = brute_profile(position_m, size_m, 0.9, 0.03, roll_deg, abs(tilt_deg))
        # The count steps by a row of the grid, 1/900 of the source at the edge.
        assert exact == pytest.approx(brute, abs=2e-3)


@settings(max_examples=25, deadline=None)  # the time is the grid's, and other work shares the machine
@given(st.floats(0.2, 2.0), st.floats(0.2, 2.0), st.floats(0, 180), st.floats(0, 80))
def test_the_width_lies_between_ten_and_ninety_percent(w: float, h: float, roll: float, tilt: float) -> None:
    width_m = shadows.edge_width_mm((w, h), 1.0, 0.03, roll, tilt) / 1000
    assert shadows.edge_width_mm((w, h), 1.0, 0.03, roll + 180, -tilt) / 1000 == pytest.approx(width_m, rel=1e-6)
    grid = np.linspace(-4 * width_m, 4 * width_m, 4001)
    ceiling = 0.03 / np.sin(np.radians(tilt)) * 0.999 if tilt > 0.01 else np.inf
    grid = grid[grid < ceiling]
    profile = shadows.edge_profile(grid, (w, h), 1.0, 0.03, roll, tilt)
    middle = grid[(profile > 0.1) & (profile < 0.9)]
    # The two crossings lie within a step of the grid each.
    assert np.ptp(middle) == pytest.approx(width_m, abs=2.1 * 8 * width_m / 4000)


def test_a_surface_on_edge_is_refused() -> None:
    with pytest.raises(ValueError, match="less than 90"):
        shadows.edge_profile(0.0, (1.0,), 1.0, 0.03, 0.0, 90.0)


def test_a_surface_that_is_nowhere_dark_has_no_width() -> None:
    with pytest.raises(ValueError, match="more than a tenth"):
        shadows.edge_width_mm((3.6,), 1.0, 9.5, 0.0, 75.0)
