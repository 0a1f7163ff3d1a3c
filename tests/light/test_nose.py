"""The nose's shadow against triangles worked by hand, published sizes of faces and the trade's ranges of patterns."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import nose
from shotplans.light.units import direction
from tests.light.published import only, params, rows

PLANE = float("inf")


def test_the_face_has_published_sizes() -> None:
    breadths = [row.value for row in rows("faces", "face breadth")]  # A11: ANSUR II medians
    assert pytest.approx(np.mean(breadths) / 2, abs=0.5) == nose.FACE_RADIUS_MM
    lengths = [row.value for row in rows("faces", "face length")]  # A12: ANSUR II medians
    # The pupils lie about at the nose's root; mouth between nose's base and chin, by the rule of thirds (no source).
    mouth = 38 + nose.MOUTH_DOWN_MM
    assert 38 + nose.BASE_DOWN_MM < mouth < np.mean(lengths)
    assert mouth / np.mean(lengths) == pytest.approx(2 / 3, abs=0.1)


def test_the_tip_stands_as_far_before_the_cheekbones_as_near_cameras_say() -> None:
    row = only("lenses", "depth that widens the nose 30 %")  # D39: Paskhover 2018 on a pinhole
    near, far, ratio = row.inputs["near"] * 1000, row.inputs["far"] * 1000, row.value
    # (near/(near - a)) / (far/(far - a)) = ratio, distances counted to the cheekbones; or to the tip.
    to_cheek = near * far * (ratio - 1) / (ratio * far - near)
    to_tip = near * far * (ratio - 1) / (far - ratio * near)
    assert to_cheek <= nose.FACE_RADIUS_MM + nose.PROJECTION_MM <= to_tip


@pytest.mark.parametrize(
    ("az", "el", "right", "down"),
    [(0, 45, 0, 20), (45, 0, -20, 0), (-45, 0, 20, 0), (60, 0, -20 * 3**0.5, 0), (45, 45, -20, 20 * 2**0.5),
     (0, -45, 0, -20)],
)  # fmt: skip
def test_on_a_plane_the_shadow_lies_by_the_tangents(az: float, el: float, right: float, down: float) -> None:
    found = nose.shadow(direction(az, el), projection_mm=20.0, radius_mm=PLANE)
    assert (found.right_mm, found.down_mm) == pytest.approx((right, down), abs=1e-9)  # p tan b and p tan e / cos b
    # The length on a plane is p tan(incidence).
    incidence = np.arccos(np.cos(np.radians(az)) * np.cos(np.radians(el)))
    assert found.length_mm == pytest.approx(20 * np.tan(incidence))
    assert not found.joins_cheek


def test_on_a_cylinder_a_triangle_of_whole_numbers_tells_the_tangent() -> None:
    # R 60, p 15: the axis is 75 behind the tip, 45-60-75 is a right triangle, so the tangent stands at sin b = 0.8.
    assert nose.joining_sine(15.0, 60.0) == pytest.approx(0.8)
    bearing = np.degrees(np.arcsin(0.8))
    at = nose.shadow(direction(bearing, 45.0), 15.0, 60.0)
    assert at.joins_cheek
    assert at.down_mm == pytest.approx(45.0)  # the tangent's length times tan 45
    assert at.right_mm == pytest.approx(-60 * np.arcsin(0.6))  # round the cylinder, to where it turns out of the light
    before = nose.shadow(direction(bearing - 1e-6, 45.0), 15.0, 60.0)
    assert not before.joins_cheek
    assert before.down_mm == pytest.approx(45.0, abs=0.1)  # no step where the shadow joins


@given(st.floats(-85, 85), st.floats(-40, 60))
def test_the_shadow_lies_on_the_ray_and_on_the_skin(az: float, el: float) -> None:
    found = nose.shadow(direction(az, el))
    turn = found.right_mm / nose.FACE_RADIUS_MM
    place = np.array([np.sin(turn), np.cos(turn)]) * nose.FACE_RADIUS_MM  # x and z from the cylinder's axis
    ray = np.array([0.0, nose.FACE_RADIUS_MM + nose.PROJECTION_MM]) - place
    to_light = np.array([np.sin(np.radians(az)), np.cos(np.radians(az))])
    if not found.joins_cheek:
        assert ray @ to_light == pytest.approx(np.hypot(*ray))  # the tip, the place and the light in one line
        assert found.down_mm == pytest.approx(np.hypot(*ray) * np.tan(np.radians(el)), abs=1e-9)
        assert place @ to_light >= -1e-6  # a place that is lit but for the tip
    else:
        assert place @ to_light == pytest.approx(0.0, abs=1e-9)  # the edge of the light
    mirrored = nose.shadow(direction(-az, el))
    assert mirrored.right_mm == pytest.approx(-float(found.right_mm))
    assert mirrored.down_mm == pytest.approx(float(found.down_mm))
    assert mirrored.length_mm == pytest.approx(float(found.length_mm))


def test_a_large_cylinder_is_a_plane() -> None:
    lights = direction(np.array([0.0, 20.0, -40.0, 60.0]), 30.0)
    for a, b in zip(nose.shadow(lights, radius_mm=1e9), nose.shadow(lights, radius_mm=PLANE), strict=True):
        assert a == pytest.approx(b, rel=1e-5)


def test_a_high_light_in_front_brings_the_shadow_to_the_lip() -> None:
    # The lip 20 mm behind the tip, its edge 25 mm below: met from atan(25/20) = 51.34 degrees up, straight in front.
    low, high = (bool(nose.shadow(direction(0, el)).touches_lip) for el in (51.3, 51.4))
    assert (low, high) == (False, True)
    assert not nose.shadow(direction(60, 50)).touches_lip  # it has joined the cheek's shadow instead


def test_light_from_behind_joins_and_light_from_straight_above_throws_nothing() -> None:
    behind = nose.shadow(direction(np.array([120.0, 180.0, 91.0]), 20.0))
    assert behind.joins_cheek.all()
    assert np.isnan(behind.length_mm).all()
    above = nose.shadow((0.0, 1.0, 0.0))
    assert not above.joins_cheek
    assert np.isnan(above.down_mm)


@pytest.mark.parametrize(("light", "p", "r"), [((0, 0, 1), 0, 60), ((0, 0, 1), 30, -1), ((0, 0, 0), 30, 60)])
def test_no_face_and_no_direction_are_refused(light: tuple[float, ...], p: float, r: float) -> None:
    with pytest.raises(ValueError, match=r"above zero|a length"):
        nose.shadow(light, p, r)


@pytest.mark.parametrize("row", params("faces", "triangle place"))
def test_the_shadow_joins_the_cheeks_about_where_the_trade_says(row) -> None:  # type: ignore[no-untyped-def]
    joins = np.degrees(np.arcsin(nose.joining_sine()))
    assert joins == pytest.approx(row.value, abs=5)  # L15: "about 45" to the side
    narrow, wide = (np.degrees(np.arcsin(nose.joining_sine(radius_mm=r))) for r in (62.5, 76.5))
    assert narrow == pytest.approx(row.value, abs=5)  # A11: the 5th percentile of women to the 95th of men
    assert wide == pytest.approx(row.value, abs=5)


def test_where_the_far_cheek_is_dark() -> None:
    assert nose.dark_from_deg([0, 45, -90, 120]).tolist() == [90, 45, 0, -30]  # normal square to the light
    assert nose.bearing_of_deg(nose.FACE_RADIUS_MM / 2) == pytest.approx(30.0)  # sin 30 = 1/2
