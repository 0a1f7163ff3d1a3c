"""Movement, shutters and hot lamps against published figures and plane geometry."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import heat, lenses, motion
from shotplans.light.heads import t01_from_t05
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("exposure", "motion blur"))
def test_a_moving_sitter_smears_by_way_and_time(row: Published) -> None:
    # F21: from memory (v t), arithmetic ours
    assert motion.motion_blur_mm(row.inputs["v"], row.inputs["t"]) == pytest.approx(row.value, rel=1e-12)


@pytest.mark.parametrize("row", params("exposure", "frame lit"))
def test_a_shutter_faster_than_sync_lights_part_of_the_frame(row: Published) -> None:
    # F24: curtain geometry as described, 1/500 at 1/250 lights half
    found = motion.frame_lit_share(row.inputs["t"], row.inputs["sync"])
    assert found == pytest.approx(row.value, abs=row.half_digit)


@pytest.mark.parametrize("row", params("exposure", "usual sync"))
def test_at_the_usual_sync_speeds_and_slower_the_whole_frame_is_lit(row: Published) -> None:
    # F22, a photographic society's page on synchronisation
    assert motion.frame_lit_share(row.value, row.value) == 1
    assert motion.frame_lit_share(2 * row.value, row.value) == 1


def test_a_smear_shows_on_the_print_as_a_face_does() -> None:
    # job.md row 2, worked there: a print 61 cm wide of a scene of 1.9 m shows a 22 cm face 7 cm high
    assert lenses.size_on_print(0.22, 610.0, 1.9) == pytest.approx(70, abs=1)


@given(st.floats(0.01, 5), st.floats(0.1, 3))
def test_the_longest_light_smears_just_the_blur_allowed(blur_mm: float, speed: float) -> None:
    longest = motion.longest_for_blur_s(blur_mm, speed)
    assert motion.motion_blur_mm(speed, longest) == pytest.approx(blur_mm, rel=1e-12)


def test_a_flash_smears_over_the_tenth_not_over_the_half() -> None:
    # F18 (trade rule): t0.1 is about three times t0.5, so counting t0.5 would tell a third of the smear
    ratio = only("heads", "t0.1 over t0.5").value
    half = motion.motion_blur_mm(1.0, 0.0006)
    assert motion.motion_blur_mm(1.0, t01_from_t05(0.0006)) == pytest.approx(ratio * half, rel=1e-12)


def test_movements_and_shutters_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="speed_m_s"):
        motion.motion_blur_mm(-1.0, 0.1)
    with pytest.raises(ValueError, match="speed_m_s"):
        motion.longest_for_blur_s(1.0, 0.0)
    with pytest.raises(ValueError, match="shutter_s"):
        motion.frame_lit_share(0.0, 0.005)


def test_a_hot_lamp_keeps_eighteen_inches() -> None:
    # G23: 18 in from clothes, a photographer's page; an inch is 25.4 mm by definition
    inches = only("rigging", "clearance of a hot lamp").inputs["inches"]
    assert pytest.approx(inches * 0.0254, abs=0.005) == heat.CLEAR_OF_HOT_LAMP_M


FRONT = {"centre": (0.0, 1.0, 0.0), "across": (1.0, 0.0, 0.0), "up": (0.0, 1.0, 0.0), "width_m": 0.6, "height_m": 0.8}


@pytest.mark.parametrize(
    ("point", "metres"),
    [
        ((0.1, 1.2, 0.5), 0.5),  # before the front: the perpendicular
        ((0.6, 1.0, 0.4), 0.5),  # beside it: 3-4-5
        ((0.6, 1.8, 1.2), 1.3),  # off a corner: 0.3, 0.4 and 1.2, Pythagoras twice (5-12-13)
    ],
)
def test_the_way_to_a_front_is_the_shortest(point: tuple[float, float, float], metres: float) -> None:
    assert heat.distance_to_front_m(point, **FRONT) == pytest.approx(metres, rel=1e-12)


def test_no_point_of_a_front_is_nearer_than_its_distance() -> None:
    # brute force over the front, 2 cm apart: nearest found no nearer, and within the mesh
    point = np.array([0.7, 0.2, 0.3])
    u, v = np.meshgrid(np.linspace(-0.3, 0.3, 61), np.linspace(-0.4, 0.4, 81))
    spots = np.stack([u, 1.0 + v, np.zeros_like(u)], axis=-1)
    nearest = float(np.linalg.norm(spots - point, axis=-1).min())
    assert heat.distance_to_front_m(point, **FRONT) == pytest.approx(nearest, abs=0.01)
    with pytest.raises(ValueError, match="width_m"):
        heat.distance_to_front_m(point, **FRONT | {"width_m": 0.0})
