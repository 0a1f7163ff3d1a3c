"""Room bounce against the conservation of light, and black panels against configuration factors."""

from __future__ import annotations

import numpy as np
import pytest

from shotplans.light import bounce
from tests.light.published import Published, params


def test_a_room_s_surfaces_count_by_their_area() -> None:
    # 9 x 6 x 3.2 m: walls 2 (9 + 6) 3.2 = 96, ceiling and floor 54 each (plain geometry)
    area, mean = bounce.surface(9.0, 6.0, 3.2, "grey", "white", 0.1)
    assert area == pytest.approx(204)
    assert mean == pytest.approx((96 * 0.25 + 54 * 0.80 + 54 * 0.1) / 204)  # reflectances from memory


def test_walls_absorb_all_the_light_the_lamp_gives() -> None:
    # conservation of energy: (direct + bounce) x A x (1 - rho) = flux, in any room (formula from memory)
    rho = np.array([0.04, 0.25, 0.5, 0.8, 0.98])
    total = 24000 / 150 + bounce.bounce_irradiance(24000.0, 150.0, rho)
    np.testing.assert_allclose(total * 150 * (1 - rho), 24000, rtol=1e-12)


def test_bounce_is_the_sum_of_all_reflections() -> None:
    # the geometric series of the integrating sphere, added term by term
    by_terms = sum(1000 / 50 * 0.8**n for n in range(1, 400))
    assert bounce.bounce_irradiance(1000.0, 50.0, 0.8) == pytest.approx(by_terms, rel=1e-12)


@pytest.mark.parametrize("row", params("photometry", "centred panel"))
def test_a_black_panel_takes_its_configuration_factor(row: Published) -> None:
    # P25-P30: formula from memory, agrees with double integrals (EES hs301 prints the same form)
    found = bounce.blocked_share(row.inputs["w"], row.inputs["h"], row.inputs["d"])
    assert found == pytest.approx(row.value, abs=1e-5)


def test_a_panel_askew_takes_less() -> None:
    whole = bounce.blocked_share(1.0, 2.0, 0.8)
    assert bounce.blocked_share(1.0, 2.0, 0.8, effect=0.5) == pytest.approx(float(whole) / 2, rel=1e-12)


def test_rooms_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="mean_reflectance"):
        bounce.bounce_irradiance(1.0, 1.0, 0.99)
    with pytest.raises(ValueError, match="mean_reflectance"):
        bounce.bounce_irradiance(1.0, 1.0, -0.1)
    with pytest.raises(ValueError, match="a surface is one of"):
        bounce.surface(4, 5, 2.6, "mauve", "white", "dark")
    with pytest.raises(ValueError, match="between 0 and 1"):
        bounce.surface(4, 5, 2.6, 1.2, "white", "dark")
    with pytest.raises(ValueError, match="effect"):
        bounce.blocked_share(1.0, 1.0, 1.0, effect=1.5)
    with pytest.raises(ValueError, match="height_m"):
        bounce.surface(4, 5, 0, "white", "white", "white")
