"""Circuits and batteries against the load rule of the electrical code and the conservation of energy."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import power
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("rigging", "continuous load"))
def test_a_circuit_carries_four_fifths_of_its_breaker(row: Published) -> None:
    # G02, G03 seen (NEC as quoted); G05 arithmetic from memory
    assert power.continuous_limit_w(row.inputs["V"], row.inputs["A"]) == pytest.approx(row.value, rel=1e-12)


def test_a_load_of_24_amperes_fills_a_breaker_of_30() -> None:
    # G04: a forum's worked figure of the same rule, 125 % of 24 A
    row = only("rigging", "breaker for a load")
    assert power.continuous_limit_w(1.0, row.value) == pytest.approx(row.inputs["A"], rel=1e-12)


def test_one_head_after_the_other_peaks_by_the_largest_alone() -> None:
    # currents of one phase add (Kirchhoff): 2 A stand, of 5, 4 and 3 A only the 5 flow at a time
    assert power.staggered_peak_a([5.0, 4.0, 3.0], 2.0) == pytest.approx(7.0, rel=1e-12)
    assert power.staggered_peak_a([], 2.0) == 2.0


@pytest.mark.parametrize(("stops", "share"), [(0, 1), (1, 1 / 2), (2, 1 / 4), (3, 1 / 8), (4, 1 / 16)])
def test_a_stop_less_takes_half_the_energy(stops: float, share: float) -> None:
    # F09: 1/2 is -1 stop ... 1/16 is -4, a published answer
    assert power.energy_below_full(400.0, stops) == pytest.approx(400 * share, rel=1e-12)


def test_a_charge_holds_as_many_flashes_as_its_energy_allows() -> None:
    # conservation of energy, worked by hand: 0.7 of 80 kWs are 56 kWs, 140 flashes of 400 Ws, 280 of 200 Ws
    assert power.frames_on_charge(80_000.0, 400.0) == 140
    assert power.frames_on_charge(80_000.0, 200.0) == 280
    assert power.frames_on_charge(0.0, 400.0) == 0


def test_half_the_power_holds_twice_the_flashes() -> None:
    # F09: each stop halves the energy, so it doubles the count
    assert [float(power.frames_at_power(150.0, s)) for s in (0, 1, 2)] == [150, 300, 600]


@given(st.floats(1000, 500_000), st.floats(10, 1000), st.floats(0, 8))
def test_the_flashes_of_a_charge_never_hold_more_energy_than_it_did(
    battery: float, full: float, below: float
) -> None:
    one = float(power.energy_below_full(full, below))
    frames = float(power.frames_on_charge(battery, one))
    assert frames * one <= battery
    assert (frames + 1) * one > 0.69 * battery


def test_loads_and_charges_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="volts"):
        power.continuous_limit_w(0, 16)
    with pytest.raises(ValueError, match="recycling_amps"):
        power.staggered_peak_a([-5.0])
    with pytest.raises(ValueError, match="full"):
        power.energy_below_full(-1.0, 0.0)
    with pytest.raises(ValueError, match="power_below_full_stops"):
        power.energy_below_full(1.0, -1.0)
    with pytest.raises(ValueError, match="flash_ws"):
        power.frames_on_charge(1.0, 0.0)
    with pytest.raises(ValueError, match="frames_at_full"):
        power.frames_at_power(-1.0, 0.0)
