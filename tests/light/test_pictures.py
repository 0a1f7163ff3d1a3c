"""Light in finished pictures against published levels and whites."""

from __future__ import annotations

import numpy as np
import pytest

from shotplans.light import pictures

# IEC 61966-2-1: level 188 is half the light of white, 255 all of it; ISO 12232 puts an 18 % card at level 118.
LEVELS = [(188, 0.5), (255, 1.0), (118, 0.18), (0, 0.0)]


@pytest.mark.parametrize(("level", "light"), LEVELS)
def test_levels_are_the_light_the_standards_say(level: int, light: float) -> None:
    assert float(pictures.linear(level)) == pytest.approx(light, abs=0.004)


def test_twice_the_light_is_one_stop_over() -> None:
    assert float(pictures.exposure_stops([0.36, 0.36, 0.36])) == pytest.approx(1.0)


def test_the_white_of_the_encoding_and_illuminant_a_have_their_published_temperatures() -> None:
    assert float(pictures.kelvin([1, 1, 1])) == pytest.approx(6504, abs=2)  # D65
    x, y = 0.44757, 0.40745  # CIE illuminant A, 2856 K
    rgb = np.linalg.inv(pictures._TO_XYZ) @ np.array([x / y, 1, (1 - x - y) / y])
    assert float(pictures.kelvin(rgb)) == pytest.approx(2856, abs=5)


def test_green_is_told_from_pink() -> None:
    assert float(pictures.green_stops([0.2, 0.4, 0.2])) == pytest.approx(1.0)


@pytest.mark.parametrize("bad", [[0.0, 0.0, 0.0], [0.0, 0.0, 1.0]])
def test_black_and_colours_that_are_no_white_are_refused(bad: list[float]) -> None:
    with pytest.raises(ValueError, match=r"light|white"):
        pictures.kelvin(bad)


def test_a_level_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="255"):
        pictures.linear(256)
