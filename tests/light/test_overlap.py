"""Hiding against rays, quadrature over the sphere and limiting cases; nothing here was printed by our own code."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import overlap

EYE = np.array([0.0, 1.6, 5.0])
HALF = np.array([0.08, 0.12, 0.1])


def hidden_by_steps(eye: np.ndarray, point: np.ndarray, centre: np.ndarray, half: np.ndarray) -> bool:
    """The line walked in ten thousand steps: brute force."""
    walk = eye + np.linspace(0.0, 1.0, 10_001)[:, None] * (point - eye)
    return bool((np.square((walk - centre) / half).sum(axis=1) < 1).any())


@given(
    st.lists(st.floats(-0.3, 0.3), min_size=3, max_size=3),
    st.lists(st.floats(-0.3, 0.3), min_size=3, max_size=3),
)
def test_a_head_hides_what_a_walk_along_the_line_runs_into(point: list[float], centre: list[float]) -> None:
    at, middle = np.add(point, [0.0, 1.5, -0.5]), np.add(centre, [0.0, 1.5, 0.5])
    found = bool(overlap.behind_ellipsoid(EYE, at, middle, HALF))
    # steps of half a millimetre: a chord shorter than that may be stepped over, so a grazing line may differ
    thinner, thicker = HALF * 0.999, HALF * 1.001
    assert hidden_by_steps(EYE, at, middle, thinner) <= found <= hidden_by_steps(EYE, at, middle, thicker)


def test_what_stands_behind_hides_nothing() -> None:
    face = np.array([0.0, 1.6, 0.0])
    assert overlap.behind_ellipsoid(EYE, face, [0.0, 1.6, 0.5], HALF)  # in the line: geometry
    assert not overlap.behind_ellipsoid(EYE, face, [0.0, 1.6, -0.5], HALF)
    assert not overlap.behind_ellipsoid(EYE, face, [0.0, 1.6, 5.5], HALF)  # behind the eye
    with pytest.raises(ValueError, match="half_axes_m"):
        overlap.behind_ellipsoid(EYE, face, face, [0.1, 0.0, 0.1])


SHOULDERS = {"neck_m": [0.0, 1.4, 1.0], "half_breadth_m": 0.25, "slope_m": 0.08, "half_neck_m": 0.06}


@pytest.mark.parametrize(
    ("x", "y", "hidden"),
    # Seen level from 4 m, a figure at 1 m of depth: by hand. The slope at 0.155 beside the neck is half done.
    [(0.0, 1.39, True), (0.0, 1.41, False), (0.155, 1.355, True), (0.155, 1.365, False), (0.26, 1.0, False)],
)
def test_shoulders_fall_from_the_neck_to_their_tips(x: float, y: float, hidden: bool) -> None:
    eye = np.array([x, y, 5.0])
    assert bool(overlap.behind_shoulders(eye, [x, y, 0.0], **SHOULDERS)) is hidden


def test_a_figure_beside_the_line_or_behind_the_face_hides_nothing() -> None:
    eye = np.array([0.0, 1.2, 5.0])
    assert not overlap.behind_shoulders(eye, [0.0, 1.2, 2.0], **SHOULDERS)  # the figure is behind the point: geometry
    assert not overlap.behind_shoulders(eye, [1.0, 1.2, 5.0], **SHOULDERS)  # a line square to z meets no plane of z
    # A point 0.5 m out at depth 0, seen from the middle, crosses the plane at 4/5 of it, 0.4 m out: similar triangles
    assert not overlap.behind_shoulders(eye, [0.5, 1.2, 0.0], **SHOULDERS)
    assert overlap.behind_shoulders(eye, [0.30, 1.2, 0.0], **SHOULDERS)
    with pytest.raises(ValueError, match="neck"):
        overlap.behind_shoulders(eye, [0.0, 1.2, 0.0], [0.0, 1.4, 1.0], 0.05, 0.08, 0.06)


def caps_by_quadrature(a: float, b: float, c: float) -> float:
    """The first cap cut into rings; of each ring the arc within the second, by the law of cosines.

    Rings nearer its middle than |c - b| lie wholly in or out; the others end as square roots, which the sine sweeps.
    """
    first, last = min(a, abs(c - b)), min(a, b + c)
    whole = 2 * math.pi * (1 - math.cos(first)) if b > c else 0.0
    nodes, weights = np.polynomial.legendre.leggauss(200)
    phi = math.pi / 2 * (nodes + 1)
    theta = first + (last - first) * (1 - np.cos(phi)) / 2
    cosine = (math.cos(b) - math.cos(c) * np.cos(theta)) / np.maximum(math.sin(c) * np.sin(theta), 1e-15)
    arc = 2 * np.arccos(np.clip(cosine, -1.0, 1.0))
    return whole + float((arc * np.sin(theta) * np.sin(phi) * weights).sum() * (last - first) / 2 * math.pi / 2)


@given(st.floats(0.02, 1.3), st.floats(0.02, 1.3), st.floats(0.01, 2.8))
def test_two_patches_share_what_quadrature_over_the_sphere_finds(a: float, b: float, c: float) -> None:
    # Gauss's rule on 200 rings: good to a part in a million of the smaller patch where its ends are square roots
    smaller = 2 * math.pi * (1 - math.cos(min(a, b)))
    assert overlap.caps_in_common_sr(a, b, c) == pytest.approx(caps_by_quadrature(a, b, c), abs=1e-4 * smaller)


def test_small_patches_share_what_two_circles_share() -> None:
    # Two unit circles one radius apart share 2 pi/3 - sqrt(3)/2 (school geometry); 10 mrad of sphere are flat to 1e-4
    flat = (2 * math.pi / 3 - math.sqrt(3) / 2) * 1e-4
    assert overlap.caps_in_common_sr(0.01, 0.01, 0.01) == pytest.approx(flat, rel=1e-3)


def test_patches_apart_or_one_inside_the_other() -> None:
    assert overlap.caps_in_common_sr(0.2, 0.3, 0.6) == 0
    small = 2 * math.pi * (1 - math.cos(0.1))  # a cap's solid angle: school geometry
    assert overlap.caps_in_common_sr(0.1, 0.4, 0.2) == pytest.approx(small)
    half = math.pi  # two half spheres a right angle apart share a quarter of the sphere
    assert overlap.caps_in_common_sr(math.pi / 2, math.pi / 2, math.pi / 2) == pytest.approx(half)
    for wrong in ((0.0, 0.1, 0.1), (0.1, 2.0, 0.1), (0.1, 0.1, -0.1), (0.1, 0.1, 4.0)):
        with pytest.raises(ValueError, match="right angle"):
            overlap.caps_in_common_sr(*wrong)


def hidden_by_points(diameter: float, distance: float, ball: np.ndarray, radius: float) -> float:
    """Share of 40,000 places on a disc straight before the face whose line of sight runs into the ball: brute force."""
    n = np.arange(40_000)
    out, turn = np.sqrt((n + 0.5) / len(n)) * diameter / 2, n * math.pi * (3 - math.sqrt(5))
    spots = np.stack([out * np.cos(turn), out * np.sin(turn), np.full(len(n), distance)], axis=1)
    line = spots / np.linalg.norm(spots, axis=1, keepdims=True)
    along = line @ ball
    return float((np.linalg.norm(ball - along[:, None] * line, axis=1) < radius).mean())


@pytest.mark.parametrize("x", [0.0, 0.1, 0.2, 0.3])
@pytest.mark.parametrize(("diameter", "distance"), [(1.5, 4.0), (0.55, 3.0), (0.18, 2.0)])
def test_a_head_takes_the_share_of_a_source_that_rays_find(diameter: float, distance: float, x: float) -> None:
    ball, radius = np.array([x, 0.0, 0.6]), 0.11
    found = overlap.source_hidden(np.zeros(3), [0.0, 0.0, distance], diameter, ball, radius)
    # A flat disc is a little denser in its middle than a patch of the sky: cos^3 of 10.6 degrees is 5 % at most
    assert found == pytest.approx(hidden_by_points(diameter, distance, ball, radius), abs=0.02)


def test_a_small_source_behind_a_head_is_gone_and_a_big_one_looks_round_it() -> None:
    face, light, head = np.zeros(3), np.array([0.0, 0.0, 4.0]), np.array([0.0, 0.0, 0.6])
    assert overlap.source_hidden(face, light, 0.2, head, 0.11) == 1  # umbra: 1.4 degrees of radius behind 10.6
    # Concentric, the share is the ratio of the solid angles: (1 - cos b)/(1 - cos a), limiting case
    alpha, beta = math.atan(2.0 / 4.0), math.asin(0.11 / 0.6)
    ratio = (1 - math.cos(beta)) / (1 - math.cos(alpha))
    assert overlap.source_hidden(face, light, 4.0, head, 0.11) == pytest.approx(ratio)
    assert overlap.source_hidden(face, light, 0.2, [0.0, 0.0, 4.6], 0.11) == 0  # behind the light
    assert overlap.source_hidden(face, light, 0.2, [0.0, 0.0, -0.6], 0.11) == 0  # behind the face
    assert overlap.source_hidden(face, light, 0.2, [0.0, 0.05, 0.0], 0.11) == 1  # inside the head


@given(st.floats(-40, 40), st.floats(0, 60), st.floats(5, 40))
def test_a_light_at_the_clear_height_touches_the_head_and_higher_is_free(e: float, b: float, clearing: float) -> None:
    height = float(overlap.clear_height_deg(e, b, clearing))
    ball = np.array([0.0, math.sin(math.radians(e)), math.cos(math.radians(e))])

    def off(h: float) -> float:
        up, turn = math.radians(h), math.radians(b)
        light = np.array([math.cos(up) * math.sin(turn), math.sin(up), math.cos(up) * math.cos(turn)])
        return math.degrees(math.acos(max(-1.0, min(1.0, float(light @ ball)))))

    if height == -90.0:
        assert min(off(h) for h in np.arange(-90, 91, 0.5)) >= clearing - 0.02  # steps of half a degree
    else:
        assert off(height) == pytest.approx(clearing, abs=1e-6)  # products of unit vectors: geometry
        assert off(height + 3) > clearing


def test_a_light_straight_over_a_head_clears_it_by_the_sum_of_the_angles() -> None:
    # Head level with the face, 0.6 m before it, radius 0.11; source 1.5 m at 4 m: 10.56 + 10.62 degrees, tangent lines
    clearing = overlap.clearing_angle_deg(0.6, 0.11, math.atan(0.75 / 4))
    assert clearing == pytest.approx(10.565 + 10.620, abs=0.01)
    assert overlap.clear_height_deg(0.0, 0.0, clearing) == pytest.approx(clearing)
    with pytest.raises(ValueError, match="ball"):
        overlap.clearing_angle_deg(0.1, 0.11, 0.1)
    # and what hides begins there: a light a tenth of a degree inside loses something, one outside nothing
    for beyond, lost in ((-0.3, True), (0.3, False)):
        h = math.radians(float(clearing) + beyond)
        light = 4.0 * np.array([0.0, math.sin(h), math.cos(h)])
        assert (overlap.source_hidden(np.zeros(3), light, 1.5, [0.0, 0.0, 0.6], 0.11) > 0) == lost
