"""Tilted panels against a library of view factors (pyviewfactor), which integrates over the edges of both facets."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from shotplans.light import sources
from shotplans.light.units import direction

SKIN_M = 0.004  # side of the facet that stands for a point: over it the light of a panel half a metre away is even

PANELS = {
    # centre (bearing, height, distance), axis off the aim, width, height, roll, facet's bearing and height
    "square before the face": ((0, 0, 1.0), 0, 1.0, 1.0, 0, (0, 0)),
    "rolled, beside a face turned away": ((45, 30, 1.2), 0, 0.9, 0.6, 25, (-15, 0)),
    "a strip aimed past the face": ((-60, 20, 1.4), 20, 0.3, 1.2, 0, (0, 0)),
    "low panel under a chin": ((-40, -35, 0.7), 0, 0.5, 0.9, 90, (-20, -20)),
}


def facet(meshes: Any, corners: np.ndarray) -> Any:
    return meshes.PolyData(np.asarray(corners, dtype=float), faces=[4, 0, 1, 2, 3])


@pytest.mark.parametrize("name", PANELS)
def test_a_tilted_panel_has_the_librarys_factor(name: str, view_factors: Any, meshes: Any) -> None:
    (az, el, d), off, width, height, roll, facing = PANELS[name]
    centre, axis, normal = direction(az, el) * d, -direction(az + off, el), direction(*facing)
    corners = sources.rect_corners(centre, axis, width, height, roll)
    assert ((corners @ normal) > 0).all()  # the library does not cut at the horizon; test_quadrature does
    skin = sources.rect_corners(np.zeros(3), normal, SKIN_M, SKIN_M)
    library = view_factors.compute_viewfactor(facet(meshes, corners), facet(meshes, skin), rounding_decimal=12)
    found = sources.rect_irradiance(np.zeros(3), normal, centre, axis, width, height, roll) / np.pi
    # The facet is 4 mm wide, the panel 0.7 m away at the least: second order in 0.006, and the library's own digits.
    assert found == pytest.approx(library, rel=1e-4)
