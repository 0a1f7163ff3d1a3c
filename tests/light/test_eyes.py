"""Catchlights against the optics of the eye, published anatomy and the tables of the study."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import eyes
from shotplans.light.units import direction
from tests.light.published import Published, only, params

FAR_MM = 1e7


def test_the_eye_is_the_published_one() -> None:
    assert only("geometry_and_eyes", "corneal radius").value == eyes.CORNEA_RADIUS_MM  # Y01: Schwartz
    row = only("geometry_and_eyes", "corneal diameter")  # Y08: Ruefer 2005
    edge_mm = 2 * eyes.CORNEA_RADIUS_MM * np.sin(np.radians(eyes.CORNEA_EDGE_DEG))
    assert edge_mm == pytest.approx(row.value, abs=row.inputs["sd"])
    assert only("geometry_and_eyes", "pupil distance").value == 2 * eyes.NOSE_OFFSET_MM  # Y16: Dodgson 2004


@pytest.mark.parametrize("row", params("geometry_and_eyes", "catchlight magnification"))
def test_a_small_light_is_mirrored_by_the_convex_mirrors_share(row: Published) -> None:
    d = row.inputs["d"]
    found = eyes.catchlight_outline((0.0, 0.0, d), (0.0, 0.0, -1.0), (2.0,), FAR_MM)
    # Y04: m = f/(d + f); the outline is taken on the cornea, not in the image plane: R/d of it, under 1 %.
    assert found.radial_mm / 2.0 == pytest.approx(row.value, rel=0.008)
    assert found.tangential_mm / 2.0 == pytest.approx(row.value, rel=0.008)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "catchlight off-centre"))
def test_the_offset_of_far_lights_is_the_mirror_laws(row: Published) -> None:
    found = eyes.catchlight(direction(0.0, row.inputs["gamma"]) * FAR_MM, FAR_MM)
    assert found.dy_mm == pytest.approx(row.value, abs=0.0005 + 1e-5)  # Y06 (MEMORY formula): R sin(gamma/2)
    assert found.dx_mm == pytest.approx(0.0, abs=1e-9)
    assert found.clock_hours == pytest.approx(0.0, abs=1e-9)


def test_far_to_the_side_the_cornea_shows_nothing() -> None:
    row = only("geometry_and_eyes", "light beyond the cornea")
    # Y07: 2 asin(5.855/7.8); we use 5.85 (light_cases.json), which is 0.2 degrees less.
    limit = row.value - 0.2
    seen = [eyes.catchlight(direction(az, 0) * FAR_MM, FAR_MM).normal_angle_deg for az in (limit - 1, limit + 1)]
    assert eyes.on_cornea(seen).tolist() == [True, False]


@given(st.floats(-80, 80), st.floats(-60, 60), st.floats(300, 4000), st.floats(500, 5000))
def test_light_and_camera_make_equal_angles_with_the_cornea(az: float, el: float, d: float, camera: float) -> None:
    light, eye_to_camera = direction(az, el) * d, np.array([0.0, 0.0, camera])
    point = eyes.corneal_point(light, camera)
    normal = (point + np.array([0, 0, eyes.CORNEA_RADIUS_MM])) / eyes.CORNEA_RADIUS_MM
    s, k = light - point, eye_to_camera - point
    s, k = s / np.linalg.norm(s), k / np.linalg.norm(k)
    assert np.linalg.norm(normal) == pytest.approx(1.0)
    # Law of reflection: the mirrored ray is the camera's; 1e-6 rad is 1e-5 mm on the cornea.
    assert 2 * (s @ normal) * normal - s == pytest.approx(k, abs=2e-6)


@given(st.floats(-75, 75), st.floats(-50, 60))
def test_mirrored_lights_mirror_the_catchlight(az: float, el: float) -> None:
    left, right = (eyes.catchlight(direction(a, el) * 1500.0, 2000.0, g) for a, g in ((-az, -8.0), (az, 8.0)))
    assert left.dx_mm == pytest.approx(-float(right.dx_mm), abs=1e-12)
    assert left.dy_mm == pytest.approx(float(right.dy_mm), abs=1e-12)
    assert (left.clock_hours + right.clock_hours) % 12 == pytest.approx(0.0, abs=1e-6) or (
        left.clock_hours + right.clock_hours
    ) % 12 == pytest.approx(12.0, abs=1e-6)


def test_an_eye_turned_ten_degrees_moves_the_catchlight() -> None:
    light = direction(0.0, 10.0) * 1500.0
    ahead, turned = (eyes.catchlight(light, 2000.0, gaze) for gaze in (0.0, 10.0))
    # LIGHT-5: turned 10 degrees to image right it moves .83 mm to image left relative to the pupil.
    assert turned.dx_mm - ahead.dx_mm == pytest.approx(-0.83, abs=0.01)


def test_the_camera_may_stand_anywhere() -> None:
    camera = direction(20.0, -5.0) * 2000.0
    beside = eyes.catchlight(camera * 0.9, camera, 20.0, -5.0)
    # A light on the lens is mirrored where the line of sight meets the middle of a pupil that looks into it; the eye
    # turns 13.5 mm behind the origin, which is a hundredth of the way to the camera.
    assert np.hypot(beside.dx_mm, beside.dy_mm) < 0.05
    straight = eyes.catchlight((300.0, 400.0, 1500.0), 2000.0)
    as_point = eyes.catchlight((300.0, 400.0, 1500.0), (0.0, 0.0, 2000.0))
    assert straight.dx_mm == as_point.dx_mm


@pytest.mark.parametrize(
    ("gamma", "diameter", "d"), [(10, 300, 1200), (30, 600, 1500), (45, 450, 1000), (60, 500, 2000)]
)
def test_the_outline_has_the_closed_forms_size(gamma: float, diameter: float, d: float) -> None:
    centre = direction(gamma, 0.0) * d
    found = eyes.catchlight_outline(centre, -centre / d, (diameter,), 2500.0)
    alpha, half = np.arctan(diameter / 2 / d), np.cos(np.radians(gamma) / 2)
    # LIGHT-5: radial (R/2)(2 alpha) cos(gamma/2), tangential (R/2)(2 alpha)/cos(gamma/2), within 1.2 %.
    assert found.radial_mm == pytest.approx(7.8 * alpha * half, rel=0.012)
    assert found.tangential_mm == pytest.approx(7.8 * alpha / half, rel=0.012)


@pytest.mark.parametrize("row", params("geometry_and_eyes", "highest light"))
def test_lids_and_brows_hide_the_highest_lights(row: Published) -> None:
    found = eyes.highest_light_deg(row.inputs["az"], row.inputs["brow"], row.inputs["lid"])
    assert found == pytest.approx(row.value, abs=0.6)  # LIGHT-5 table, printed to a degree, our step 0.1


@pytest.mark.parametrize("row", params("geometry_and_eyes", "nose hides beyond"))
def test_the_nose_hides_lights_beyond_its_side(row: Published) -> None:
    azimuths = -np.arange(30.0, 90.0, 0.1)
    codes = eyes.hidden_by(direction(azimuths, row.inputs["el"]), 1.0, -50.0, row.inputs["bridge"])
    first = -float(azimuths[np.flatnonzero(codes == eyes.NOSE)[0]])
    assert first == pytest.approx(row.value, abs=0.6)  # LIGHT-5, printed to a degree


def test_each_hindrance_has_its_code_and_eyes_mirror() -> None:
    lights = direction(np.array([0.0, 0.0, 0.0, -80.0]), np.array([30.0, 80.0, 60.0, 10.0]))
    brows = np.array([1.4, 1.4, 5.6, 1.4])
    right = eyes.hidden_by(lights, 1.0, brows, 10.0)
    assert right.tolist() == [eyes.CLEAR, eyes.LID, eyes.BROW, eyes.NOSE]
    assert eyes.hidden_by(lights * [-1, 1, 1], -1.0, brows, 10.0).tolist() == right.tolist()


def test_light_from_far_below_is_hidden_by_the_lower_lid() -> None:
    # The cornea mirrors it 7.8 sin 45 = 5.52 mm below the pupil, the lid's margin is at 5.5 mm.
    assert eyes.hidden_by(direction(0.0, -90.0), 1.0, 1.4, 10.0) == eyes.LID
    assert eyes.hidden_by(direction(0.0, -85.0), 1.0, 1.4, 10.0) == eyes.CLEAR


def test_near_lights_agree_with_far_ones_about_what_hides_them() -> None:
    rng = np.random.default_rng(2)
    lights = direction(rng.uniform(-85, 85, 400), rng.uniform(-30, 75, 400))
    far = eyes.hidden_by(lights, 1.0, 1.4, 10.0)
    point = eyes.corneal_point(lights * 1500.0, 2000.0)
    ray = lights * 1500.0 - point
    ray /= np.linalg.norm(ray, axis=-1, keepdims=True)
    clear = eyes.lid_open(point) & eyes.brow_clear(point, ray, 1.0, 1.4) & eyes.nose_clear(point, ray, 1.0, 10.0)
    # Directions differ by up to half a degree at 1.5 m, so only lights on a border may differ.
    assert np.mean((far == eyes.CLEAR) == clear) > 0.98


def test_an_eye_that_looks_ahead_is_hidden_alike_near_and_far() -> None:
    rng = np.random.default_rng(4)
    lights = direction(rng.uniform(-80, 80, 400), rng.uniform(-30, 75, 400))
    far = eyes.hidden_by(lights, 1.0, 1.4, 10.0)
    near = eyes.unseen_because(lights * 1e6, 1e6, 1.0, 1.4, 10.0)
    # The same test written twice: with the light at a place a kilometre away and with its direction alone.
    assert near.tolist() == far.tolist()


def test_beyond_the_cornea_nothing_is_mirrored() -> None:
    row = only("geometry_and_eyes", "light beyond the cornea")
    # Y07: 2 asin(5.855/7.8); an eye on the camera, so the limit turns with both.
    for turn in (0.0, 20.0):
        camera = direction(turn, 0.0) * FAR_MM
        seen = [
            int(eyes.unseen_because(direction(turn + az, 0) * FAR_MM, camera, 1.0, -50.0, -1e6, turn))
            for az in (row.value - 1, row.value + 1)
        ]
        assert seen == [eyes.CLEAR, eyes.BESIDE]


@pytest.mark.parametrize("camera", [-10.0, 0.0, 20.0])
def test_the_lid_goes_up_and_down_with_the_gaze(camera: float) -> None:
    # By hand, all in one upright plane: the mirror point lies 5.7 sin c + 7.8 sin((L + c)/2) up, the pupil 10.45 sin c,
    # and the lid's margin 4.2 mm above that: L = 2 asin((4.2 + 4.75 sin c)/7.8) - c.
    lens = direction(0.0, camera) * FAR_MM
    highest = 2 * np.degrees(np.arcsin((4.2 + 4.75 * np.sin(np.radians(camera))) / 7.8)) - camera
    codes = [
        int(eyes.unseen_because(direction(0.0, highest + more) * FAR_MM, lens, 1.0, -50.0, -1e6, 0.0, camera))
        for more in (-0.1, 0.1)
    ]
    assert codes == [eyes.CLEAR, eyes.LID]


def test_outlines_of_several_eyes_at_once_are_those_of_each() -> None:
    centres = np.array([[300.0, 400.0, 1200.0], [363.0, 400.0, 1200.0]])
    cameras, axis = np.array([[-200.0, 0.0, 2000.0], [-137.0, 0.0, 2000.0]]), -direction(15.0, 18.0)
    gaze_az = np.degrees(np.arctan2(cameras[:, 0], cameras[:, 2]))
    both = eyes.catchlight_outline(centres, axis, (900.0, 600.0), cameras, 0.0, gaze_az, 0.0)
    for n in range(2):
        one = eyes.catchlight_outline(centres[n], axis, (900.0, 600.0), cameras[n], 0.0, float(gaze_az[n]), 0.0)
        assert both.radial_mm[n] == pytest.approx(float(one.radial_mm), abs=1e-12)
        assert both.tangential_mm[n] == pytest.approx(float(one.tangential_mm), abs=1e-12)
