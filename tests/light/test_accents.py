"""Gloss and spill of light from behind: Fresnel as tabled, laws of reflection by quadrature, tangents by hand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import accents, gloss
from shotplans.light.units import direction
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("accents", "fresnel"))
def test_skin_mirrors_as_much_as_the_equations_say(row: Published) -> None:
    found = gloss.fresnel(np.cos(np.radians(row.inputs["t"])))
    assert found == pytest.approx(row.value, abs=row.half_digit)  # K15, K16


def test_at_brewsters_angle_only_one_of_the_two_polarisations_is_left() -> None:
    row = only("accents", "Brewster angle")
    n, t = row.inputs["n"], np.radians(row.value)
    # There light polarised along is not mirrored; across it is ((n^2 - 1)/(n^2 + 1))^2 (textbook)
    assert gloss.fresnel(np.cos(t), n) == pytest.approx(0.5 * ((n**2 - 1) / (n**2 + 1)) ** 2, rel=1e-4)
    assert gloss.fresnel(0.0) == pytest.approx(1.0)  # all of it at grazing


def over_the_half_space() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Cosines, azimuths and solid angles of a fine grid of directions."""
    cos = (np.arange(1500) + 0.5) / 1500
    phi = (np.arange(360) + 0.5) / 360 * 2 * np.pi
    c, p = (a.ravel() for a in np.meshgrid(cos, phi))
    return c, p, np.full(c.size, 2 * np.pi / c.size)


@pytest.mark.parametrize("theta_deg", [0.0, 40.0, 65.0, 80.0])
def test_gloss_never_gives_back_more_than_came(theta_deg: float) -> None:
    co, phi, omega = over_the_half_space()
    ci = np.cos(np.radians(theta_deg))
    between = ci * co + np.sqrt(1 - ci**2) * np.sqrt(1 - co**2) * np.cos(phi)
    given_back = (gloss.gloss(ci, co, between, 0.3) * co * omega).sum()
    # Conservation of light: at most what Fresnel mirrors somewhere in the lobe; at the normal close to F0 (K15)
    assert given_back < 1.0
    if theta_deg == 0:
        assert given_back == pytest.approx(0.0278, abs=0.003)


def test_a_nearly_smooth_surface_mirrors_what_fresnel_says() -> None:
    # Limit m -> 0: all that is mirrored goes into the lobe, F(45) = 0.03658 (K16); 2 % for the lobe's own width
    co, phi, omega = over_the_half_space()
    ci = np.cos(np.radians(45))
    between = ci * co + np.sqrt(1 - ci**2) * np.sqrt(1 - co**2) * np.cos(phi)
    assert (gloss.gloss(ci, co, between, 0.05) * co * omega).sum() == pytest.approx(0.03658, rel=0.02)


@given(st.floats(0.1, 1.0), st.floats(0.1, 1.0), st.floats(-0.5, 1.0))
def test_light_and_lens_may_change_places(ci: float, co: float, between: float) -> None:
    # Helmholtz reciprocity
    assert gloss.gloss(ci, co, between, 0.3) == pytest.approx(gloss.gloss(co, ci, between, 0.3))


def test_a_matt_head_looks_as_its_reading_says_and_a_glossy_one_brighter_from_behind() -> None:
    # Without a step in the index nothing is mirrored: rho E cos / pi, brightest where the skin faces the light
    assert accents.glancing_stops(60.0, 0.1, 0.2, 0.3, 1.0001) == pytest.approx(0.0, abs=0.01)
    # Seen from 150 degrees round only skin turned 70 degrees and more from the light faces the lens within 80:
    # cos 70 is the matt part (geometry); what is over it is gloss
    matt = accents.glancing_stops(150.0, 0.1, 0.2, 0.3, 1.0001)
    assert matt == pytest.approx(np.log2(np.cos(np.radians(70.0))), abs=0.01)
    found = [accents.glancing_stops(b, 0.1, 0.2, 0.3) for b in (90.0, 120.0, 135.0, 150.0)]
    assert found == sorted(found)
    # The trade says that readings of a glancing accent cannot be relied on (S25 of job.md): here by a stop and more
    assert found[2] > 1.0


def test_dark_skin_draws_the_brighter_line_against_its_reading() -> None:
    # The mirrored part is the same, so against a darker skin it counts for more (LIGHT-3: "lower rho, more of it")
    assert accents.glancing_stops(135.0, 0.1, 0.05, 0.3) > accents.glancing_stops(135.0, 0.1, 0.33, 0.3) + 1


HEAD = np.array([0.075, 0.115, 0.0975])  # half of A10 breadth 150 mm, of 230 mm chin to crown, of A09 length 195 mm


def test_a_nose_before_the_head_sees_light_as_far_round_as_the_tangent() -> None:
    nose = np.array([0.0, 0.0, 0.1275])
    # By hand: scaled to a ball the nose lies 0.1275/0.0975 off its middle, the tangent cone is asin of the inverse;
    # scaled back the limiting direction leaves the backward line by atan(0.075 sin / (0.0975 cos))
    half = np.arcsin(0.0975 / 0.1275)
    limit = 180 - np.degrees(np.arctan2(0.075 * np.sin(half), 0.0975 * np.cos(half)))
    for off, hidden in ((-0.5, False), (0.5, True)):
        light = nose + 3.0 * direction(limit + off, 0.0)
        assert bool(accents.head_hides(nose, light, HEAD)) is hidden
        assert bool(accents.head_hides(nose, light * [-1, 1, 1], HEAD)) is hidden


def test_skin_is_hidden_from_what_lies_under_its_horizon() -> None:
    cheek = np.array([0.075, 0.0, 0.0])
    # Its normal points along x: light from 1 degree before the tangent plane reaches it, from 1 behind does not
    assert not accents.head_hides(cheek, cheek + direction(1.0, 0.0), HEAD)
    assert accents.head_hides(cheek, cheek + direction(-1.0, 0.0), HEAD)


def test_the_head_hides_as_rays_walked_step_by_step_say() -> None:
    rng = np.random.default_rng(5)
    points, lights = rng.normal(size=(300, 3)) * 0.3, rng.normal(size=(300, 3)) * 1.5
    outside = (points**2 / HEAD**2).sum(axis=1) > 1.05
    points, lights = points[outside], lights[outside]
    steps = np.linspace(0, 1, 4001)[:, None, None]
    way = points + steps * (lights - points)
    walked = ((way**2 / HEAD**2).sum(axis=-1) < 1).any(axis=0)
    # Steps of half a millimetre miss a few tangents
    assert (accents.head_hides(points, lights, HEAD) == walked).mean() > 0.99


def test_what_cannot_be_is_refused() -> None:
    for bad in (-0.1, 1.5):
        with pytest.raises(ValueError, match="cos_t"):
            gloss.fresnel(bad)
    with pytest.raises(ValueError, match="index"):
        gloss.fresnel(0.5, 1.0)
    with pytest.raises(ValueError, match="between_deg"):
        accents.glancing_stops(175.0, 0.1, 0.2, 0.3)
    with pytest.raises(ValueError, match="half_axes_m"):
        accents.head_hides(np.zeros(3), np.ones(3), np.zeros(3))
