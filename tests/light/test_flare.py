"""Veiling glare against the published flare factor, its own definition and limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shotplans.light import flare


def test_the_average_outdoor_scene_loses_what_was_measured() -> None:
    # FLARE-FACTOR (from memory): 160:1 leaves 40:1, two stops. The veil that does it is (1 - 40/160)/39 of white.
    measured = (1 - 40 / 160) / 39
    lost = flare.black_lift_stops(1 / 160, measured) - flare.black_lift_stops(1.0, measured)
    assert lost == pytest.approx(np.log2(160 / 40), abs=1e-9)
    # The stated index is of that size for a scene bright all over
    assert 0.5 * measured < flare.veil(1.0, 1.0) < 2 * measured


def test_a_black_in_a_white_field_shows_no_more_than_the_index() -> None:
    # GLARE, the definition: a true black in an endless white field reads the index itself, 1 % is 101:1
    assert flare.veil(1.0, 1.0, 0.01) == pytest.approx(0.01)
    assert 1.01 / flare.veil(1.0, 1.0, 0.01) == pytest.approx(101)


def test_half_the_frame_veils_half_as_much_and_a_black_with_its_own_light_doubled_rises_a_stop() -> None:
    assert flare.veil(0.5, 2.0) == pytest.approx(flare.veil(1.0, 1.0))
    assert flare.black_lift_stops(0.04, 0.04) == pytest.approx(1.0)  # twice the light is one stop
    assert flare.black_lift_stops(0.04, 0.0) == 0


def test_a_lamp_on_the_lens_counts_as_the_field_that_lights_it_as_much() -> None:
    # A field of luminance Y around the front sends pi L = Y H: at Y = 1 the front gets the setting's own exposure
    assert flare.veil_of_lamp(160.0, 160.0) == pytest.approx(flare.veil(1.0, 1.0))
    assert flare.veil_of_lamp(16.0, 160.0) == pytest.approx(0.1 * flare.veil(1.0, 1.0))


@given(st.floats(0.01, 2.0), st.floats(0.01, 0.2), st.floats(0.05, 1.0))
def test_the_luminance_for_a_lift_lifts_as_much(lift: float, black: float, share: float) -> None:
    luminance = flare.luminance_for_lift(lift, black, share, 0.02)
    assert flare.black_lift_stops(black, flare.veil(share, luminance, 0.02)) == pytest.approx(lift)


@given(st.floats(0.0, 1.0), st.floats(0.01, 0.2))
def test_dark_parts_lose_more_than_light_ones(veil: float, black: float) -> None:
    assert flare.black_lift_stops(black, veil) >= flare.black_lift_stops(1.0, veil)


def test_light_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="share of the frame"):
        flare.veil(1.2, 1.0)
    with pytest.raises(ValueError, match="luminance"):
        flare.veil(0.5, -1.0)
    with pytest.raises(ValueError, match="setting"):
        flare.veil_of_lamp(1.0, 0.0)
    with pytest.raises(ValueError, match="black"):
        flare.black_lift_stops(0.0, 0.1)
    assert flare.luminance_for_lift(1.0, 0.04, 0.0, 0.02) == float("inf")
