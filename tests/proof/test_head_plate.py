"""The head picture against a renderer: the same egg from the same formula under one front, matt, pixel by pixel.

Compared is irradiance over its brightest place, ours as the plate reckons it (`plate.irradiance` past the horizons,
times the front's closed form), Mitsuba's from 64 rays to the front a pixel of a mesh. Pixels at the outline are left
out, where a pixel is part ground. Each tolerance has two parts. Noise: in the middle of a penumbra 64 rays are wrong by
0.06 at one sigma (stratified: less), elsewhere by nothing. Ours: twenty pieces of a front step by 0.05 in a penumbra,
and horizons 4 mm apart put a shadow's edge wrong by at most half of that.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from shotplans.light import sources
from shotplans.light.units import direction
from shotplans.seeing import head, plate
from tests.proof import scenes

PIXELS = 128  # two of the plate's to each
CAMERA_MM = 2000.0
FAR_MM = 1200.0
GRID = 500  # of the mesh, each way
MEAN, IN_95_OF_100 = 0.006, 0.02
EDGE_MM = 2.0
UNDER_NOSE = range(75, 83)  # rows where the edge of a nose's shadow crosses the cheek and the lip
ACROSS = slice(50, 75)


def egg(mi: Any) -> Any:
    """The head as a mesh of its formula, its normals from the same."""
    side = np.linspace(-head.REACH, head.REACH, GRID)
    out = head.from_plane(*np.meshgrid(side, side))
    place = out * head.radius_mm(out)[..., None]
    normal = np.cross(np.gradient(place, axis=1), np.gradient(place, axis=0))
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    n = np.arange(GRID * GRID).reshape(GRID, GRID)
    a, b, c, d = (part.ravel() for part in (n[:-1, :-1], n[:-1, 1:], n[1:, 1:], n[1:, :-1]))
    faces = np.concatenate([np.stack([a, b, c], -1), np.stack([a, c, d], -1)])
    held = mi.Properties()
    held["bsdf"] = mi.load_dict({"type": "diffuse", "reflectance": scenes.grey(scenes.BOARD)})
    mesh = mi.Mesh("egg", vertex_count=n.size, face_count=len(faces), has_vertex_normals=True, props=held)
    kept = mi.traverse(mesh)
    kept["vertex_positions"], kept["vertex_normals"], kept["faces"] = place.ravel(), normal.ravel(), faces.ravel()
    kept.update()
    return mesh


def rendered(mi: Any, at: np.ndarray, wide_mm: float) -> np.ndarray:
    """Irradiance (PIXELS, PIXELS) over the front's radiance."""
    look = mi.ScalarTransform4f().look_at(
        origin=[0, 0, CAMERA_MM], target=[0, plate.MIDDLE_UP_MM, 0], up=[0, 1, 0]
    )  # fmt: skip
    seen = mi.render(mi.load_dict({
        "type": "scene", "head": egg(mi), "lamp": scenes.panel(mi, at, -at / np.linalg.norm(at), (wide_mm,)),
        "integrator": {"type": "direct", "emitter_samples": 16, "bsdf_samples": 0},
        "camera": {
            "type": "perspective", "fov": 2 * np.degrees(np.arctan(plate.TALL_MM / 2 / CAMERA_MM)), "to_world": look,
            "near_clip": 1.0, "far_clip": 1e5,
            "film": {
                "type": "hdrfilm", "width": PIXELS, "height": PIXELS, "pixel_format": "luminance",
                "component_format": "float32", "rfilter": {"type": "box"},
            },
            "sampler": {"type": "multijitter", "sample_count": 4, "seed": 1},
        },
    }))  # fmt: skip
    return np.asarray(np.pi / scenes.BOARD * np.array(seen)[..., 0], dtype=np.float64)


def reckoned(at: np.ndarray, wide_mm: float) -> tuple[np.ndarray, np.ndarray]:
    """The plate's irradiance over the front's radiance, and which pixels lie inside the outline."""
    seen = plate.look((0, 0, round(CAMERA_MM)), 0.0, 0.0)
    axis = -at / np.linalg.norm(at)
    across, up = sources.panel_axes(axis)
    n = np.arange(plate.LARGE**2 * 4 // 5)
    r, phi = wide_mm / 2 * np.sqrt((n + 0.5) / len(n)), n * np.pi * (3 - np.sqrt(5))
    spots = at + across * (r * np.cos(phi))[:, None] + up * (r * np.sin(phi))[:, None]
    points = list(spots.astype(np.float32))
    share = plate.irradiance(seen.place, seen.normal, seen.out, seen.horizon, points, axis.astype(np.float32))
    whole = np.linalg.norm(sources.disc_vector(seen.place.astype(np.float64), at, axis, wide_mm), axis=-1)
    image, cover = np.zeros((2, plate.PIXELS**2))
    image[seen.pixels], cover[seen.pixels] = share * whole, seen.cover
    twos = (PIXELS, plate.PIXELS // PIXELS) * 2
    inside = cover.reshape(twos).min(axis=(1, 3)) >= 1
    for axis_, by in ((0, 1), (0, -1), (1, 1), (1, -1)):
        inside = inside & np.roll(inside, by, axis_)
    return image.reshape(twos).mean(axis=(1, 3)), inside


def edges_mm(image: np.ndarray) -> np.ndarray:
    """Where each row under the nose rises from its darkest place to half of its lightest, in millimetres."""
    found = []
    for line in image[UNDER_NOSE, ACROSS]:
        dark = int(np.argmin(line))
        level = (line.max() + line.min()) / 2
        n = dark + int(np.flatnonzero(line[dark:] >= level)[0])
        found.append(n - 1 + (level - line[n - 1]) / (line[n] - line[n - 1]))
    return np.array(found) * plate.TALL_MM / PIXELS


@pytest.mark.parametrize(("wide_mm", "bearing", "height"), [(800.0, 45.0, 25.0), (70.0, 45.0, 25.0)])
def test_the_head_is_lit_as_the_renderer_lights_it(wide_mm: float, bearing: float, height: float, mi: Any) -> None:
    at = np.asarray(direction(bearing, height)) * FAR_MM
    theirs = rendered(mi, at, wide_mm)
    ours, inside = reckoned(at, wide_mm)
    lit = inside & (theirs > 0.3 * theirs[inside].max())
    assert np.median(ours[lit] / theirs[lit]) == pytest.approx(1.0, abs=0.005)  # exposure itself
    off = np.abs(ours - theirs)[inside] / np.percentile(theirs[inside], 99)
    assert off.mean() < MEAN
    assert np.percentile(off, 95) < IN_95_OF_100
    if wide_mm < 100:  # a soft front leaves no edge to put a place to
        assert np.abs(edges_mm(ours) - edges_mm(theirs)).max() < EDGE_MM
