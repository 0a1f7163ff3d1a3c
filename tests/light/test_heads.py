"""Heads against guide-number tables, energy, and the arithmetic of dials."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import exposure, heads
from shotplans.light.sources import disc_factor
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("heads", "f-number at a distance"))
def test_guide_numbers_give_the_published_apertures(row: Published) -> None:
    # F02-F05: the guide number is the f-number at one unit of distance, metres or feet alike
    one_unit = heads.flash_exposure_1m_lxs(row.inputs["GN"], 0.0)
    found = exposure.f_number_for(one_unit / row.inputs["d"] ** 2, 100)
    assert found == pytest.approx(row.value, rel=1e-9)


@pytest.mark.parametrize("row", params("heads", "guide number with ISO"))
def test_a_guide_number_grows_with_the_root_of_the_iso(row: Published) -> None:
    lit = heads.flash_exposure_1m_lxs(1.0, 0.0)
    assert exposure.f_number_for(lit, row.inputs["S"]) == pytest.approx(row.value, abs=row.half_digit)  # F07


@pytest.mark.parametrize("row", params("heads", "guide number with power"))
def test_a_guide_number_falls_with_the_root_of_the_power(row: Published) -> None:
    below = -np.log2(row.inputs["p"])  # F09: a half is a stop
    found = exposure.f_number_for(heads.flash_exposure_1m_lxs(1.0, below), 100)
    assert found == pytest.approx(row.value, abs=5e-5)  # F08, printed to four decimals


@pytest.mark.parametrize("row", params("heads", "stops of a fraction"))
def test_a_fraction_dial_stands_at_the_published_stops(row: Published) -> None:
    ladder = heads.dial_ladder("fraction", 1.0, 8.0)
    assert np.abs(ladder + row.value).min() < 1e-12  # F09
    assert heads.dial_text("fraction", 1.0, 8.0, None, -row.value) == f"1/{1 / row.inputs['p']:.0f}"


@pytest.mark.parametrize("row", params("heads", "gain of pops"))
def test_several_heads_alike_gain_the_published_stops(row: Published) -> None:
    # F10: energies add, so n equal flashes read as one that loses log2 n stops less
    together = row.inputs["n"] * heads.flash_exposure_1m_lxs(32.0, 0.0)
    assert heads.flash_exposure_1m_lxs(32.0, -row.value) == pytest.approx(together, rel=0.0005 * np.log(2) * 2)


@pytest.mark.parametrize("row", params("heads", "exposure at 1 m"))
def test_a_guide_number_is_an_exposure_at_one_metre(row: Published) -> None:
    assert heads.flash_exposure_1m_lxs(row.inputs["GN"], 0.0) == pytest.approx(row.value, rel=1e-9)  # F14


def test_a_stop_of_cloth_halves_the_exposure() -> None:
    # 1 stop = a factor of two (definition)
    bare, clothed = heads.flash_exposure_1m_lxs(32.0, np.array([0.0, 1.0]))
    assert clothed == pytest.approx(bare / 2, rel=1e-12)


def test_a_front_gives_no_more_than_all_its_energy_as_light() -> None:
    # a Lambertian disc sends out M A; on its axis E = M F (Howell): E = lm F / A, for 1.5 m, 400 Ws
    limit = heads.full_power_limit_lxs(400.0, np.pi * 0.75**2, disc_factor(1.0, 1.5))
    flux = limit / (0.75**2 / (0.75**2 + 1)) * np.pi * 0.75**2
    assert flux == pytest.approx(400 * 60, rel=1e-12)


def test_the_least_loss_is_where_the_front_gives_all_its_energy() -> None:
    # By hand: f/64 is 10,240 lx s at 1 m; A/F of a disc 1.5 m across is pi (1 + 0.75^2) = 4.9087 m2: 50,265 lm s of the
    # 24,000 that 400 Ws x 60 lm/W make, log2 = 1.0665
    least = heads.least_loss_stops(64.0, 400.0, np.pi * 0.75**2, disc_factor(1.0, 1.5))
    assert least == pytest.approx(1.0665, abs=5e-5)


def test_a_dial_of_thirds_stands_at_every_third_and_every_whole_stop() -> None:
    thirds = [0, 1 / 3, 2 / 3, 1, 4 / 3, 5 / 3, 2]
    for written in (1 / 3, 0.33, 0.333):
        np.testing.assert_allclose(heads.dial_ladder("fraction", written, 2), thirds, atol=1e-12)


def test_a_fraction_dial_restarts_at_each_simple_fraction() -> None:
    # 1/1, 1/2, 1/4 are always on such a dial (common practice, no source)
    np.testing.assert_allclose(heads.dial_ladder("fraction", 0.3, 1), [0, 0.3, 0.6, 1], atol=1e-12)
    np.testing.assert_allclose(heads.dial_ladder("fraction", 1, 3.5), [0, 1, 2, 3], atol=1e-12)


def test_a_dial_to_ten_and_a_dial_in_stops_go_by_their_step() -> None:
    np.testing.assert_allclose(heads.dial_ladder("ten", 0.1, 0.3), [0, 0.1, 0.2, 0.3], atol=1e-12)
    np.testing.assert_allclose(heads.dial_ladder("stops", 0.5, 2), [0, 0.5, 1, 1.5, 2], atol=1e-12)


def test_a_dial_in_watt_seconds_goes_down_to_its_bottom() -> None:
    # 400 Ws over 3 stops ends at 50 Ws (halving three times)
    ladder = heads.dial_ladder("watt_seconds", 100, 3, 400)
    np.testing.assert_allclose(400 / 2**ladder, [400, 300, 200, 100, 50], rtol=1e-12)
    exact = heads.dial_ladder("watt_seconds", 50, 3, 400)
    np.testing.assert_allclose(400 / 2**exact, [400, 350, 300, 250, 200, 150, 100, 50], rtol=1e-12)


@given(
    st.sampled_from(heads.DIAL_SCALES),
    st.sampled_from([0.1, 0.2, 0.25, 0.3, 1 / 3, 0.5, 1.0]),
    st.floats(0, 9),
)
def test_every_dial_starts_at_full_and_falls_within_its_range(scale: str, step: float, reach: float) -> None:
    ladder = heads.dial_ladder(scale, step * (10 if scale == "watt_seconds" else 1), reach, 500)
    assert ladder[0] == 0
    assert np.all(np.diff(ladder) > 0)
    assert ladder[-1] <= reach + 1e-9


def test_a_dial_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="dial scale"):
        heads.dial_ladder("percent", 0.1, 5)
    with pytest.raises(ValueError, match="dial scale"):
        heads.dial_text("percent", 0.1, 5, None, 1)
    with pytest.raises(ValueError, match="energy_ws"):
        heads.dial_ladder("watt_seconds", 10, 5)
    with pytest.raises(ValueError, match="larger step"):
        heads.dial_ladder("watt_seconds", 1e-4, 5, 400)
    with pytest.raises(ValueError, match="step"):
        heads.dial_ladder("stops", 0, 5)
    with pytest.raises(ValueError, match="power_below_full_stops"):
        heads.dial_text("stops", 0.1, 5, None, -1)


@pytest.mark.parametrize(
    # the forms of the dial as the head writes them (common practice, no source)
    ("scale", "below", "text"),
    [
        ("fraction", 0.0, "1/1"),
        ("fraction", 2.0, "1/4"),
        ("fraction", 2.4, "1/4 -0.4"),
        ("fraction", 2.97, "1/8"),
        ("fraction", 1 / 3, "1/1 -0.3"),
        ("ten", 0.0, "10.0"),
        ("ten", 1.7, "8.3"),
        ("stops", 2.4, "-2.4 stops"),
        ("stops", 0.0, "0.0 stops"),
        ("watt_seconds", 0.0, "400 Ws"),
        ("watt_seconds", 1.415037, "150 Ws"),
        ("watt_seconds", 3.0, "50 Ws"),
        ("watt_seconds", 5.0, "12.5 Ws"),
    ],
)
def test_a_setting_is_written_as_on_the_head(scale: str, below: float, text: str) -> None:
    assert heads.dial_text(scale, 10 if scale == "watt_seconds" else 0.1, 5, 400, below) == text


@given(st.sampled_from([10.0, 25.0, 7.0]), st.floats(0, 6), st.sampled_from([400.0, 500.0, 1200.0]))
def test_watt_seconds_written_are_always_settable(step: float, below: float, energy: float) -> None:
    settable = energy / 2 ** heads.dial_ladder("watt_seconds", step, 6, energy)
    written = float(heads.dial_text("watt_seconds", step, 6, energy, below).removesuffix(" Ws"))
    wanted = energy / 2**below
    nearest = np.abs(settable - wanted).min()
    assert np.abs(settable - written).min() <= 0.05 + 1e-9  # written to a tenth of a watt second
    assert abs(written - wanted) <= nearest + 0.05 + 1e-9


def test_the_trade_rule_triples_a_flash_duration() -> None:
    rule, uncut = only("heads", "t0.1 over t0.5"), only("heads", "t0.1 over t0.5 without a cut-off")
    found = heads.t01_from_t05(1 / 3000)
    assert found == pytest.approx(rule.value / 3000, rel=1e-12)  # F18, trade rule
    assert found <= uncut.value / 3000  # F19: ln 10 / ln 2 from memory, an upper end
