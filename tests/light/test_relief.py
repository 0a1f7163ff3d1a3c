"""Skin relief against the path-traced tables of the study, a matt brute-force groove and laws of shading."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light.relief import STANDARD_ASPECT, Relief, relief, slope
from shotplans.light.units import direction

AHEAD = (0.0, 0.0, 1.0)
MATT = 1 + 1e-9  # an index so near the air's that nothing is mirrored
SKIN: dict[str, Any] = {"dome": 0.0, "reflectance": 0.2, "roughness": 0.3, "aspect": STANDARD_ASPECT}


def under_one_light(theta_deg: float, alpha_deg: float, **skin: Any) -> Relief:
    return relief(AHEAD, AHEAD, [direction(theta_deg, 0.0)], [np.radians(alpha_deg)], [1.0], **{**SKIN, **skin})


def total_stops(found: Relief) -> float:
    return float(found.shadow_stops + found.highlight_stops)


def test_the_steepest_slope_is_that_of_a_gaussian() -> None:
    # LIGHT-3: z = -h exp(-4 ln2 (x/w)^2) has the steepest slope 1.4282 h/w; here by differences.
    x = np.linspace(-2, 2, 400001)
    steepest = np.abs(np.gradient(-0.15 * np.exp(-4 * np.log(2) * x**2), x)).max()
    assert slope(0.15) == pytest.approx(steepest, rel=1e-6)
    assert slope(1.0) == pytest.approx(1.4282, abs=1e-4)


@pytest.mark.parametrize(
    ("theta_deg", "reflectance", "expected"),
    [
        (20, 0.6, 0.34), (20, 0.2, 0.53), (20, 0.05, 1.02), (30, 0.6, 0.50), (30, 0.2, 0.75), (30, 0.05, 1.41),
        (45, 0.6, 0.76), (45, 0.2, 1.02), (45, 0.05, 1.78), (60, 0.6, 1.21), (60, 0.2, 1.42), (60, 0.05, 2.07),
        (75, 0.6, 2.39), (75, 0.2, 2.55), (75, 0.05, 3.01),
    ],
)  # fmt: skip
def test_the_anchors_for_words_are_met(theta_deg: float, reflectance: float, expected: float) -> None:
    # LIGHT-3, anchors at alpha 15 from the numeric groove model. The index differs from that by .088 at most; at the
    # grazing end of its range it misses the bounced light: there its error against path tracing, .169, is allowed.
    found = total_stops(under_one_light(theta_deg, 15.0, reflectance=reflectance))
    assert found == pytest.approx(expected, abs=0.169 if theta_deg == 75 else 0.088)


@pytest.mark.parametrize(
    ("theta_deg", "lights", "darks"),
    [(30, (), (0.03, 0.12, 0.6)), (50, (0.03, 0.05, 0.12), (0.6,)), (60, (0.03, 0.08), (0.3, 0.6)),
     (75, (), (0.03, 0.2, 0.6))],
)  # fmt: skip
def test_wrinkles_read_as_highlights_only_on_dark_skin_and_in_the_middle_angles(
    theta_deg: float, lights: tuple[float, ...], darks: tuple[float, ...]
) -> None:
    # LIGHT-3, table H - S (alpha 10, m .3); only entries at least .06 stop from the tie, above the H and S errors' rms.
    for reflectance in (*lights, *darks):
        found = under_one_light(theta_deg, 10.0, reflectance=reflectance)
        assert (found.highlight_stops > found.shadow_stops) == (reflectance in lights)


@pytest.mark.parametrize(
    ("reflectance", "change"), [(0.05, (-5, -12, -28)), (0.2, (-6, -27, -46)), (0.6, (-6, -37, -58))]
)
def test_size_hardly_lowers_relief_and_angle_does(reflectance: float, change: tuple[int, ...]) -> None:
    # LIGHT-3, "Does source size alone lower relief?" (path traced): theta 60 alpha 5 against alpha 30, theta 45 and 30.
    # The index is within .042 stop rms of R 1.2-2.1, so a change of R is good to about 4 points.
    before = total_stops(under_one_light(60, 5, reflectance=reflectance))
    for (theta_deg, alpha_deg), percent in zip(((60, 30), (45, 5), (30, 5)), change, strict=True):
        after = total_stops(under_one_light(theta_deg, alpha_deg, reflectance=reflectance))
        assert 100 * (after / before - 1) == pytest.approx(percent, abs=4)


@pytest.mark.parametrize(("theta_deg", "alpha_deg"), [(30.0, 20.0), (60.0, 5.0), (75.0, 30.0), (95.0, 25.0)])
def test_matt_walls_get_what_the_light_sends_over_the_skins_horizon(theta_deg: float, alpha_deg: float) -> None:
    # Brute force: a million points of a disc, each seen by a wall if it is above the skin's plane and the wall's.
    # Index 1 takes all sheen away, so radiance is irradiance; the grid's rows leave about 1e-3 of a small cap.
    steps = (np.arange(1000) + 0.5) / 1000
    radius, phi = np.meshgrid(np.tan(np.radians(alpha_deg)) * np.sqrt(steps), 2 * np.pi * steps)
    along, up = radius * np.cos(phi), radius * np.sin(phi)
    weight = (1 + radius**2) ** -1.5  # solid angle of a piece of the disc
    t = np.radians(theta_deg)
    scale = np.sqrt(1 + radius**2)
    x, z = (np.sin(t) + along * np.cos(t)) / scale, (np.cos(t) - along * np.sin(t)) / scale
    assert np.allclose(x**2 + z**2 + (up / scale) ** 2, 1)
    p = float(slope(0.15))
    walls = [
        (weight * np.clip((z + side * p * x) / np.sqrt(1 + side**2 * p**2), 0, None) * (z > 0)).mean()
        for side in (0, 1, -1)
    ]
    found = under_one_light(theta_deg, alpha_deg, index=MATT)
    assert found.highlight_stops == pytest.approx(np.log2(max(walls) / walls[0]), abs=3e-3)
    assert found.shadow_stops == pytest.approx(np.log2(walls[0] / max(min(walls), walls[0] / 16)), abs=3e-3)


def test_michelson_follows_from_the_stops() -> None:
    found = under_one_light(55, 10)
    ratio = 2 ** total_stops(found)
    assert found.michelson == pytest.approx((ratio - 1) / (ratio + 1))  # definition


def test_where_no_light_reaches_there_is_no_relief() -> None:
    found = relief(AHEAD, AHEAD, [(0.0, 0.0, -1.0)], [0.2], [1.0], **SKIN)
    assert [float(v) for v in found] == [0.0, 0.0, 0.0, 0.0]
    assert [float(v) for v in relief(AHEAD, AHEAD, [AHEAD], [0.2], [0.0], **SKIN)] == [0.0, 0.0, 0.0, 0.0]


def test_a_light_below_the_horizon_counts_for_nothing() -> None:
    alone = under_one_light(50, 10)
    lights = [direction(50, 0), direction(150, 0)]
    both = relief(AHEAD, AHEAD, lights, [np.radians(10)] * 2, [1.0, 5.0], **SKIN)
    assert [float(v) for v in both] == pytest.approx([float(v) for v in alone])


@given(st.floats(5.0, 75.0), st.floats(1.0, 40.0), st.floats(0.05, 0.6))
def test_front_fill_and_even_surroundings_lower_relief(theta: float, alpha: float, reflectance: float) -> None:
    bare = total_stops(under_one_light(theta, alpha, reflectance=reflectance))
    lights, radii = [direction(theta, 0), direction(0, 0)], np.radians([alpha, 12.0])
    filled = relief(AHEAD, AHEAD, lights, radii, [1.0, 0.3], **{**SKIN, "reflectance": reflectance})
    # Below 25 degrees a small front light adds as much sheen as it takes shade: the law is for the rest.
    if theta > 25:
        assert total_stops(filled) < bare
    assert total_stops(under_one_light(theta, alpha, reflectance=reflectance, dome=0.5)) < bare


@given(st.floats(5.0, 75.0), st.floats(0.05, 0.6), st.floats(0.05, 0.19))
def test_deeper_wrinkles_and_opaque_skin_show_more(theta: float, reflectance: float, aspect: float) -> None:
    shallow = under_one_light(theta, 10, reflectance=reflectance, aspect=aspect)
    deep = under_one_light(theta, 10, reflectance=reflectance, aspect=aspect + 0.01)
    assert total_stops(deep) > total_stops(shallow)
    assert shallow.rms < deep.rms


def test_translucent_matt_skin_keeps_its_share_of_contrast() -> None:
    opaque, half = (under_one_light(40, 10, index=MATT, transfer=tau) for tau in (1.0, 0.5))
    # E+- - E0 halves while E0 stays: so do highest and lowest over flat, less one (definition of the transfer).
    assert 2**half.highlight_stops - 1 == pytest.approx((2**opaque.highlight_stops - 1) / 2)
    assert 1 - 2**-half.shadow_stops == pytest.approx((1 - 2**-opaque.shadow_stops) / 2)


def test_lines_across_the_light_show_and_lines_along_it_hide() -> None:
    worst = under_one_light(60, 10)
    across = under_one_light(60, 10, line=(0.0, 1.0, 0.0))
    along = under_one_light(60, 10, line=(1.0, 0.0, 0.0))
    assert [float(v) for v in across] == pytest.approx([float(v) for v in worst])
    assert total_stops(along) < 0.5 * total_stops(worst)


def test_light_down_the_normal_still_gives_a_number_on_any_face() -> None:
    for normal in (AHEAD, (0.0, 1.0, 0.0)):
        found = relief(normal, normal, [normal], [0.2], [1.0], **SKIN)
        assert 0 < total_stops(found) < 0.5
        assert np.isfinite(found.rms)


def test_mirrored_light_gives_the_same_relief() -> None:
    left, right = (
        relief(
            direction(20 * s, 5), AHEAD, [direction(45 * s, 30), direction(-20 * s, 0)], [0.3, 0.1], [1, 0.4], **SKIN
        )
        for s in (1, -1)
    )
    assert [float(v) for v in left] == pytest.approx([float(v) for v in right], rel=1e-12)


def test_many_patches_at_once_agree_with_one_at_a_time() -> None:
    rng = np.random.default_rng(3)
    normals, lights = rng.normal(size=(5000, 3)), rng.normal(size=(2, 3))
    normals /= np.linalg.norm(normals, axis=-1, keepdims=True)
    lights /= np.linalg.norm(lights, axis=-1, keepdims=True)
    rho = rng.uniform(0.05, 0.6, 5000)
    skin = {**SKIN, "dome": 0.05, "reflectance": rho}
    all_at_once = relief(normals, AHEAD, lights, [0.3, 0.1], [1.0, 0.5], **skin)
    assert all(np.isfinite(v).all() and v.shape == (5000,) for v in all_at_once)
    for i in (0, 4095, 4096, 4999):
        one = relief(normals[i], AHEAD, lights, [0.3, 0.1], [1.0, 0.5], **{**skin, "reflectance": rho[i]})
        assert [float(v) for v in one] == pytest.approx([float(v[i]) for v in all_at_once], rel=1e-12)


def test_no_shadow_is_counted_deeper_than_four_stops() -> None:
    found = under_one_light(89, 0.5, reflectance=0.6)
    assert found.shadow_stops == pytest.approx(4.0)
