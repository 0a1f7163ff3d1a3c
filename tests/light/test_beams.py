"""Beams, grids, lips and feathering against their definitions, direct sums and published orders of a beam."""

from __future__ import annotations

import numpy as np
import pytest

from shotplans.light import beams, sources
from shotplans.light.units import direction
from tests.light.published import Published, params

FRONT = np.array([0.0, 0.0, 1.0])


@pytest.mark.parametrize("row", params("beams", "order of a beam"))
def test_a_beam_has_the_published_order(row: Published) -> None:
    # W01-W04: the order of a generalised Lambertian source from its half angle; printed to the digits of the row.
    assert beams.beam_exponent(2 * row.inputs["half_deg"]) == pytest.approx(row.value, abs=row.half_digit)


def test_a_beam_is_half_as_strong_at_half_its_width() -> None:
    assert beams.beam_exponent(120.0) == pytest.approx(1.0)  # a flat Lambertian front: cos 60 = 1/2
    for beam_deg in (20.0, 70.0, 120.0, 150.0):
        cos = np.cos(np.radians(beam_deg / 2))
        assert beams.beam_gain(cos, beam_deg) * cos == pytest.approx(0.5)  # definition of the half width
    assert beams.beam_gain([1.0, 0.0, -1.0], 70.0).tolist() == [1.0, 0.0, 0.0]


def test_a_grid_ends_the_light_at_half_its_angle() -> None:
    off = np.cos(np.radians([0.0, 10.0, 20.0, 30.0]))
    assert beams.beam_gain(off, 120.0, grid_deg=40.0) == pytest.approx([1.0, 0.5, 0.0, 0.0], abs=1e-12)


@pytest.mark.parametrize("beam_deg", [30.0, 90.0, 120.0])
def test_the_flux_of_a_beam_is_its_integral(beam_deg: float) -> None:
    cos = (np.arange(200000) + 0.5) / 200000
    expected = 2 * np.pi * (cos ** beams.beam_exponent(beam_deg)).mean()
    assert beams.flux_over_axis(beam_deg) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("beam_deg", [0.0, 180.0, np.nan])
def test_an_impossible_beam_is_refused(beam_deg: float) -> None:
    with pytest.raises(ValueError, match="wider than 0"):
        beams.beam_exponent(beam_deg)


def test_a_grid_lets_through_what_its_cells_show() -> None:
    # A square cell of depth h and width c, seen askew along a side, is open by 1 - (h/c) tan(off): geometry.
    for grid_deg in (20.0, 40.0, 90.0):
        off = np.linspace(0.0, grid_deg / 2, 50)
        cells = 1 - np.tan(np.radians(off)) / np.tan(np.radians(grid_deg / 2))
        assert np.abs(beams.grid_share(off, grid_deg) - cells).max() <= 0.1  # as the docstring says


@pytest.mark.parametrize(("beam_deg", "grid_deg"), [(120.0, 40.0), (70.0, 90.0), (120.0, 170.0)])
def test_the_flux_behind_a_grid_is_its_integral(beam_deg: float, grid_deg: float) -> None:
    off = (np.arange(200000) + 0.5) / 200000 * np.pi / 2
    sent = np.cos(off) ** float(beams.beam_exponent(beam_deg)) * beams.grid_share(np.degrees(off), grid_deg)
    expected = 2 * np.pi * (sent * np.sin(off)).sum() * np.pi / 2 / 200000  # rectangle sums over the half space
    assert beams.flux_over_axis(beam_deg, grid_deg) == pytest.approx(expected, rel=1e-6)


def test_a_lip_hides_as_much_of_a_disc_as_a_direct_count_says() -> None:
    # Points of the front from which a far eye sees the lip's opening, by counting on a fine lattice.
    step = (np.arange(2000) + 0.5) / 1000 - 1
    u, v = np.meshgrid(step, step)
    inside = u**2 + v**2 <= 1
    for off_deg in (0.0, 20.0, 45.0, 70.0):
        tan = np.tan(np.radians(off_deg))
        seen = inside & ((u + 2 * 0.1 * tan) ** 2 + v**2 <= 1)  # a lip of a tenth of the diameter, in half diameters
        assert beams.lip_share_disc(tan, 0.1, 1.0) == pytest.approx(seen.sum() / inside.sum(), abs=5e-4)
    assert beams.lip_share_disc(20.0, 0.1, 1.0) == 0  # the opening is shifted past the whole front


def test_a_lip_hides_a_strip_most_along_its_narrow_side() -> None:
    # Overlap of two equal rectangles shifted by lip x tan: 0.05 m of 0.3 m is a sixth, of 1.2 m a twenty-fourth.
    assert beams.lip_share_rect(1.0, 0.0, 0.05, 0.3, 1.2) == pytest.approx(5 / 6)
    assert beams.lip_share_rect(0.0, 1.0, 0.05, 0.3, 1.2) == pytest.approx(23 / 24)
    assert beams.lip_share_rect(1.0, 1.0, 0.05, 0.3, 1.2) == pytest.approx(5 / 6 * 23 / 24)


def test_an_even_disc_cannot_be_feathered_and_a_hot_core_does_not_change_that() -> None:
    # E = I cos/d^2 [CIE-DISTANCE]: a matt front turned 20 degrees off a face two diameters away loses log2(cos 20).
    face = np.array([0.0, 0.0, 2.0])
    for core_stops in (0.0, 3.0):
        size = float(sources.hot_core_diameter(1.0, core_stops))
        straight, turned = (
            float(np.linalg.norm(sources.disc_vector(face, [0, 0, 0], direction(a, 0.0), size))) for a in (0.0, 20.0)
        )
        assert beams.feather_stops(0.0, 20.0, 120.0) == pytest.approx(np.log2(turned / straight), abs=0.02)
    assert beams.feather_stops(0.0, 20.0, 120.0) == pytest.approx(-0.0897, abs=1e-4)  # log2(cos 20 degrees)


def test_aiming_a_big_even_source_at_the_far_end_of_a_row_evens_it_by_little() -> None:
    # light.md section 1: light at bearing 45, height 25, 1.2 m across; ends of the row 0.75 m either side of the
    # middle, flat skin facing the camera. Aimed at the far end the spread shrinks by 0.05 to 0.15 stop, no more.
    ends = np.array([[-0.75, 0.0, 0.0], [0.75, 0.0, 0.0]])
    for distance_m, spread in ((1.5, 1.28 + 0.85), (2.0, 1.01 + 0.76), (3.0, 0.70 + 0.59), (4.0, 0.53 + 0.47)):
        at = distance_m * direction(45.0, 25.0)
        found = []
        for aim in (np.zeros(3), ends[0]):
            axis = (aim - at) / np.linalg.norm(aim - at)
            lit = sources.disc_vector(ends, at, axis, 1.2) @ FRONT
            found.append(float(np.log2(lit[1] / lit[0])))
        assert found[0] == pytest.approx(spread, abs=0.015)  # two figures, each printed to a hundredth
        assert 0.045 <= found[0] - found[1] <= 0.155  # half of the last printed digit either side


def test_a_narrow_beam_is_feathered_by_its_order() -> None:
    # Two faces 6 degrees either side of the axis, the aim turned 15 degrees past the near one: by hand, n = 3 (a beam
    # of 74.93 degrees) makes three times the difference of a matt front, 3 log2(cos 9/cos 21).
    beam_deg = 2 * float(np.degrees(np.arccos(0.5 ** (1 / 3))))
    far = beams.feather_stops(6.0, 9.0, beam_deg)
    near = beams.feather_stops(6.0, 21.0, beam_deg)
    assert far - near == pytest.approx(3 * np.log2(np.cos(np.radians(9)) / np.cos(np.radians(21))))
    assert far - near == pytest.approx(3 * (beams.feather_stops(6, 9, 120) - beams.feather_stops(6, 21, 120)))


def test_a_grid_ends_what_feathering_leaves() -> None:
    assert beams.feather_stops(0.0, 20.0, 120.0, 40.0) == -np.inf
    assert beams.feather_stops(0.0, 10.0, 120.0, 40.0) == pytest.approx(np.log2(0.5 * np.cos(np.radians(10))))


@pytest.mark.parametrize("core_stops", [0.0, 0.0005, 0.5, 3.0])
def test_a_hot_core_makes_a_side_work_shorter(core_stops: float) -> None:
    # Direct sum of the second moment along u of brightness 2^(-core (u^2 + v^2)/2); an even side has s^2/3 in halves.
    u = (np.arange(100000) + 0.5) / 100000
    weight = 2.0 ** (-core_stops * u**2 / 2)
    expected = np.sqrt(3 * (weight * u**2).sum() / weight.sum())
    assert beams.hot_core_side(1.0, core_stops) == pytest.approx(expected, rel=1e-6)


def test_relief_goes_by_the_side_that_lies_in_the_plane_of_incidence() -> None:
    # light.md section 3: 1.155 x the half side in the plane of incidence, for a 30 x 120 strip upright at one side.
    toward, across, up = direction(60.0, 0.0), 0.15 * direction(-30.0, 0.0), np.array([0.0, 0.6, 0.0])
    ahead, raised = FRONT, direction(60.0, 80.0)
    assert beams.radius_in_plane(across, up, toward, ahead) == pytest.approx(1.155 * 0.15, rel=1e-3)
    assert beams.radius_in_plane(across, up, toward, raised) == pytest.approx(1.155 * 0.6, rel=1e-3)
    # Straight down the normal: the disc of equal mean second moment, R^2 = (w^2 + h^2)/6
    assert beams.radius_in_plane(across, up, toward, toward) == pytest.approx(np.sqrt((0.3**2 + 1.2**2) / 6))


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="above 0"):
        beams.grid_share(10.0, 0.0)
    with pytest.raises(ValueError, match="wider than 0"):
        beams.lip_share_disc(0.1, 0.05, 0.0)
    with pytest.raises(ValueError, match="lip not below"):
        beams.lip_share_rect(0.1, 0.1, -0.05, 1.0, 1.0)
    with pytest.raises(ValueError, match="less than 90"):
        beams.feather_stops(90.0, 10.0, 120.0)
    with pytest.raises(ValueError, match="got no light before"):
        beams.feather_stops(30.0, 10.0, 120.0, 40.0)
    with pytest.raises(ValueError, match="not below 0"):
        beams.hot_core_side(1.0, -1.0)
