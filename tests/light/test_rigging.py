"""Rigging against the lever law, the geometry of legs and a column that is about to fall."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import rigging
from tests.light.published import Published, only, params


@pytest.mark.parametrize("row", params("rigging", "counterweight") + params("rigging", "counterweight own weight"))
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


def test_three_legs_hold_over_a_quarter_of_their_width() -> None:
    # circle in an equilateral triangle: half the radius of the one about it (Euclid IV); four legs: 1/sqrt 2 of it
    assert rigging.edge_inside_m(1.0) == pytest.approx(0.25, rel=1e-12)
    assert rigging.edge_inside_m(1.0, legs=4) == pytest.approx(0.5**0.5 / 2, rel=1e-12)
    feet = 0.5 * np.exp(2j * np.pi * np.arange(3) / 3)
    assert rigging.edge_inside_m(1.0) == pytest.approx(abs((feet[0] + feet[1]) / 2), rel=1e-12)


def test_an_even_arm_weighs_in_its_middle() -> None:
    # sum of the moments of a thousand slices of a rod from -0.5 m to 1.5 m: its middle, at 0.5 m (G12's centre)
    slices = np.linspace(-0.5, 1.5, 1001)
    assert rigging.boom_centre_m(1.5, 0.5) == pytest.approx(slices.mean(), rel=1e-9)
    assert rigging.boom_centre_m(1.5, 0.5) == only("rigging", "counterweight own weight").inputs["centre"]


def test_a_push_tips_when_its_moment_is_the_margin() -> None:
    # 25 N at 2 m is 50 N m: moment is force times arm
    assert rigging.push_that_tips_n(50.0, 2.0) == pytest.approx(25.0, rel=1e-12)
    assert rigging.push_that_tips_n(-5.0, 2.0) == 0


def test_the_bag_for_a_push_holds_it_just() -> None:
    # 20 N at 2 m against a bag 0.25 m inside: 40 N m / (9.80665 m/s2 x 0.25 m) by hand = 16.32 kg
    assert rigging.sandbag_kg(0.0, 0.0, 0.0, 0.25, 0.25, push_nm=40.0) == pytest.approx(16.315, abs=0.001)
    # what hangs inside the edge holds without any safety: 4 kg at 0.25 m take 4 kg off the bag
    assert rigging.sandbag_kg(4.0, -0.25, 0.0, 0.25, 0.25, push_nm=40.0) == pytest.approx(12.315, abs=0.001)


@given(st.floats(0, 8), st.floats(0.1, 1.2), st.floats(0, 10), st.floats(0.2, 0.6))
def test_the_sandbag_asked_for_leaves_the_margin(
    load: float, beyond: float, stand: float, inside: float
) -> None:
    bag = rigging.sandbag_kg(load, beyond, stand, 0.3, inside)
    held = bag * inside + stand * 0.3
    assert held >= 1.5 * load * beyond - 1e-9
    assert bag >= 0


def test_weights_and_arms_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="load_kg"):
        rigging.counterweight_kg(-1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="counter_arm_m"):
        rigging.counterweight_kg(1.0, 1.0, 0.0)
    with pytest.raises(ValueError, match="holding_kg"):
        rigging.tipping_margin_nm(1.0, 1.0, -1.0, 1.0)
    with pytest.raises(ValueError, match="safety"):
        rigging.sandbag_kg(1.0, 1.0, 1.0, 0.3, 0.3, safety=0.5)
    with pytest.raises(ValueError, match="push_nm"):
        rigging.sandbag_kg(1.0, 1.0, 1.0, 0.3, 0.3, push_nm=-1.0)
    with pytest.raises(ValueError, match="legs"):
        rigging.edge_inside_m(1.0, legs=2)
    with pytest.raises(ValueError, match="reach_m"):
        rigging.boom_centre_m(-1.0, 0.5)
    with pytest.raises(ValueError, match="height_m"):
        rigging.push_that_tips_n(10.0, 0.0)
