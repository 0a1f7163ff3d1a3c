"""Rigging against the lever law and the load rule of the electrical code."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import rigging
from tests.light.published import Published, params


@pytest.mark.parametrize("row", params("rigging", "counterweight"))
def test_a_boom_balances_by_the_lever_law(row: Published) -> None:
    # G11, G12: lever law, from memory
    at = row.inputs
    found = rigging.counterweight_kg(at["load"], at["arm"], at["counter"], at["boom"], at["centre"])
    assert found == pytest.approx(row.value, rel=1e-12)


def test_a_boom_heavier_behind_needs_no_counterweight() -> None:
    assert rigging.counterweight_kg(1.0, 0.5, 0.5, 10.0, -0.4) == 0


@pytest.mark.parametrize("row", params("rigging", "tipping"))
def test_a_stand_is_just_held_by_the_published_weight(row: Published) -> None:
    # G14: static moment, from memory
    at = row.inputs
    margin = rigging.tipping_margin_nm(
        at["load"], at["beyond"], np.array([0.9, 1, 1.1]) * row.value, at["inside"]
    )
    assert margin[0] < 0
    assert margin[1] == pytest.approx(0, abs=1e-9)
    assert margin[2] > 0
    needed = rigging.sandbag_kg(at["load"], at["beyond"], 0.0, 0.1, at["inside"], safety=1.0)
    assert needed == pytest.approx(row.value, rel=1e-12)


def test_a_kilogram_at_a_metre_holds_its_weight() -> None:
    # standard gravity 9.80665 m/s2 (SI)
    assert rigging.tipping_margin_nm(0.0, 0.0, 1.0, 1.0) == pytest.approx(9.80665, rel=1e-12)


@given(st.floats(0, 8), st.floats(0.1, 1.2), st.floats(0, 10), st.floats(0.2, 0.6))
def test_the_sandbag_asked_for_leaves_the_margin(
    load: float, beyond: float, stand: float, inside: float
) -> None:
    bag = rigging.sandbag_kg(load, beyond, stand, 0.3, inside)
    held = bag * inside + stand * 0.3
    assert held >= 1.5 * load * beyond - 1e-9
    assert bag >= 0


@pytest.mark.parametrize("row", params("rigging", "continuous load"))
def test_a_circuit_carries_four_fifths_of_its_breaker(row: Published) -> None:
    # G02, G03 seen (NEC as quoted); G05 arithmetic from memory
    assert rigging.continuous_limit_w(row.inputs["V"], row.inputs["A"]) == pytest.approx(row.value, rel=1e-12)


def test_weights_and_arms_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="load_kg"):
        rigging.counterweight_kg(-1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="counter_arm_m"):
        rigging.counterweight_kg(1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="holding_kg"):
        rigging.tipping_margin_nm(1.0, 1.0, -1.0, 1.0)
    with pytest.raises(ValueError, match="safety"):
        rigging.sandbag_kg(1.0, 1.0, 1.0, 0.3, 0.3, safety=0.5)
    with pytest.raises(ValueError, match="volts"):
        rigging.continuous_limit_w(0, 16)
