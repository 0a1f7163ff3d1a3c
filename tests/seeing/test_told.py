"""What the head pictures are told by: the nose's shadow, a light too high for an eye, a lens that is covered."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from shotplans.light import eyes
from shotplans.light.units import direction
from shotplans.planner.expect import NOSE_GAP_M, main_sitter
from shotplans.planner.people import Seated
from shotplans.planner.plan import Light
from shotplans.seeing import told
from tests.seeing.test_drawings import metered


def key() -> Light:
    return metered("tarrant").solved.lights[0]


def facing() -> Seated:
    return replace(main_sitter(metered("tarrant").solved), nose_deg=0.0, chin_deg=0.0)


def sized(**front: float) -> Light:
    """The key a metre off with a front of other sides, its glass even."""
    emitter = key().emitter
    assert emitter is not None
    other = {"shape": "disc" if "diameter_m" in front else "rect", "core_stops": 0.0} | front
    modifier = emitter.modifier.model_copy(update=other)
    return replace(key(), emitter=replace(emitter, modifier=modifier, roll_deg=0.0), distance_m=1.0)


@pytest.mark.parametrize(("across", "core"), [(0.5, 0.0), (0.9, 0.069), (1.5, 0.327)])
def test_a_nose_s_shadow_fills_as_the_study_traced_it(across: float, core: float) -> None:
    found = told.nose_shadow(sized(diameter_m=across))  # LIGHT-2, "Soft and hard in numbers"
    assert found.core == pytest.approx(core, abs=0.0011)
    assert found.edges_mm is None


def test_a_strip_draws_its_upright_edges_sharper_than_its_level_ones() -> None:
    found = told.nose_shadow(sized(width_m=0.3, height_m=1.2))
    assert found.edges_mm is not None
    upright, level = found.edges_mm
    full = 1000 * 0.3 * NOSE_GAP_M  # similar triangles: all of the edge; a square's 10 to 90 % is 0.8 of it [LIGHT-2]
    assert upright == pytest.approx(0.8 * full, rel=0.02)
    assert 3.3 * upright < level < 4 * upright
    assert told.nose_shadow(sized(width_m=0.9, height_m=0.8)).edges_mm is None


def test_a_light_too_high_for_an_eye_is_told_with_how_high_it_may_be() -> None:
    sitter = facing()
    most = eyes.highest_light_deg(30.0, sitter.person.brow_mm)

    def at(height: float) -> Light:
        place = np.array(sitter.face_m) + 2.0 * np.asarray(direction(30.0, height))
        return replace(key(), position=tuple(float(x) for x in place))

    assert told.too_high_by(at(most - 2), sitter, "right") is None
    found = told.too_high_by(at(most + 2), sitter, "right")
    assert found is not None
    assert found == pytest.approx((most, most + 2), abs=0.1)
    assert told.too_high_by(at(most + 2), replace(sitter, nose_deg=25.0), "right") is None


def test_a_lens_is_covered_where_it_mirrors_the_light_into_the_camera_and_only_there() -> None:
    sitter = facing()
    worn = replace(sitter, person=replace(sitter.person, base_dioptre=0.0))
    camera = np.array(sitter.face_m) + np.array([0.0, 0.0, 2.5])

    def at(height: float) -> Light:
        place = np.array(sitter.face_m) + 2.0 * np.asarray(direction(0.0, height))
        return replace(key(), position=tuple(float(x) for x in place))

    low, high = at(-16.0), at(60.0)
    assert told.covered(low, sitter, camera) == {}  # no glasses
    found = told.covered(low, worn, camera)  # a lens tipped by 8 degrees mirrors what is 16 below the camera
    assert set(found) == {"left", "right"}
    assert all(0 < share <= 1 for share in found.values())
    assert told.covered(high, worn, camera) == {}
