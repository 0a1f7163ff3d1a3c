"""Lenses against field-of-view tables, hyperfocal figures and published depth of field."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import lenses
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("lenses", "field"))
def test_a_field_is_the_thin_lens_one(row: Published) -> None:
    found = 1000 * lenses.field_m(row.inputs["d"], row.inputs["f"], row.inputs["s"])
    assert found == pytest.approx(row.value, abs=row.half_digit)  # D28, D29


@pytest.mark.parametrize("row", params("lenses", "distance for a field"))
def test_a_field_asks_for_its_distance(row: Published) -> None:
    found = 1000 * lenses.distance_for_field_m(row.inputs["d"], row.inputs["f"], row.inputs["field"])
    assert found == pytest.approx(row.value, abs=row.half_digit)  # D30


@given(st.floats(35, 135), st.floats(0.3, 8))
def test_distance_and_field_undo_each_other(focal_mm: float, distance_m: float) -> None:
    field = lenses.field_m(36, focal_mm, distance_m)
    assert lenses.distance_for_field_m(36, focal_mm, field) == pytest.approx(distance_m, rel=1e-12)


@pytest.mark.parametrize("row", params("lenses", "hyperfocal") + params("lenses", "hyperfocal less f"))
def test_at_its_published_hyperfocal_distance_a_lens_is_sharp_to_the_end(row: Published) -> None:
    f, n, c = (row.inputs[name] for name in ("f", "N", "c"))
    focus_mm = row.value + (f if row.quantity == "hyperfocal less f" else 0.0)  # calculators leave out one focal length
    found = lenses.aperture_for_depth(f, focus_mm / 1000, 0.0, np.inf, c)
    # D06-D13 to half a digit; D03, D04 to the millimetre; D05 is printed as 20.8 ft, half of 0.1 ft = 15 mm
    off_mm = row.half_digit if row.quantity == "hyperfocal" else 15.3 if row.id == "D05" else 0.5
    assert found == pytest.approx(n, rel=off_mm / (focus_mm - f) * 1.01 + 1e-9)


@pytest.mark.parametrize("row", params("lenses", "near limit") + params("lenses", "far limit"))
def test_limits_of_sharpness_are_the_exact_thin_lens_ones(row: Published) -> None:
    limits = lenses.depth_of_field_m(row.inputs["f"], row.inputs["N"], row.inputs["s"], row.inputs["c"])
    found = 1000 * limits[0 if row.quantity == "near limit" else 1]
    assert found == pytest.approx(row.value, abs=row.half_digit)  # D06-D13


@pytest.mark.parametrize("row", params("lenses", "published depth"))
def test_depth_of_field_agrees_with_a_published_table(row: Published) -> None:
    near, far = lenses.depth_of_field_m(row.inputs["f"], row.inputs["N"], 4.57, 0.03)
    assert far - near == pytest.approx(row.value, rel=0.04)  # D14: 4 %, the table does not state its circle


def test_beyond_the_hyperfocal_everything_behind_is_sharp() -> None:
    focus = 50**2 / (8 * 0.03) / 1000 + 0.05  # D01: f^2 / (N c) + f
    near, far = lenses.depth_of_field_m(50, 8, np.array([focus + 1e-9, 20.0]), 0.03)
    assert np.isinf(far).all()
    assert near[0] == pytest.approx(focus / 2, rel=1e-6)  # D05: half the hyperfocal, 10.4 of 20.8 ft


@pytest.mark.parametrize("row", params("lenses", "blur circle"))
def test_the_blur_circle_goes_with_the_sensor(row: Published) -> None:
    # D15, D16 seen; D17 from memory. Published figures use 1/1442 or 1/1500 of the diagonal: 5 %
    found = lenses.blur_mm(row.inputs["w"], row.inputs["h"], big_print=False)
    assert found == pytest.approx(row.value, rel=0.06)


def test_a_big_print_asks_for_a_smaller_circle() -> None:
    assert lenses.blur_mm(36, 24, big_print=True) == pytest.approx(0.02)  # common practice, no source


@given(st.floats(35, 135), st.floats(1.5, 6), st.floats(0, 0.6), st.floats(0, 1.5))
def test_the_aperture_for_a_zone_just_holds_it(
    focal: float, focus: float, front: float, behind: float
) -> None:
    # round trip through depth_of_field_m, itself held against D06-D13
    f_number = lenses.aperture_for_depth(focal, focus, front, behind + 0.01, 0.03)
    near, far = lenses.depth_of_field_m(focal, f_number, focus, 0.03)
    assert near <= focus - front + 1e-9
    assert far >= focus + behind + 0.01 - 1e-9
    ends = (abs(near - (focus - front)), abs(far - (focus + behind + 0.01)))
    assert min(ends) < 1e-6


def test_an_endless_zone_takes_the_hyperfocal_aperture() -> None:
    f_number = lenses.aperture_for_depth(50, 5.0, 0.0, np.inf, 0.03)
    assert 50**2 / (f_number * 0.03) / 1000 + 0.05 == pytest.approx(5.0, rel=1e-12)  # D01: f^2 / (N c) + f


@pytest.mark.parametrize("row", params("lenses", "perspective"))
def test_what_is_nearer_looks_larger(row: Published) -> None:
    # D38: pinhole, from memory; 100 mm nearer
    assert lenses.perspective_gain(row.inputs["d"], 0.1) == pytest.approx(row.value, abs=row.half_digit)


def test_a_nose_grows_by_the_measured_third_at_arm_s_length() -> None:
    row = only(
        "lenses", "depth that widens the nose 30 %"
    )  # D39 on Paskhover et al. 2018; arithmetic from memory
    near, far = (lenses.perspective_gain(row.inputs[at], 0.124) for at in ("near", "far"))
    assert near / far == pytest.approx(row.value, abs=row.half_digit)


def test_a_lens_cannot_focus_within_its_focal_length() -> None:
    with pytest.raises(ValueError, match="focus_distance"):
        lenses.field_m(36, 85, 0.08)
    with pytest.raises(ValueError, match="near_end"):
        lenses.aperture_for_depth(85, 2.0, 2.0, 1.0, 0.03)
    with pytest.raises(ValueError, match="focal_mm"):
        lenses.distance_for_field_m(36, 0, 1.0)
    with pytest.raises(ValueError, match="nearer_m"):
        lenses.perspective_gain(1.0, -0.1)
