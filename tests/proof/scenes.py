"""Small scenes for the renderer: one patch of skin or board, its lights, and a camera that reads it.

Belongs here: how a scene is put together for Mitsuba and what is read off the picture. Which numbers are compared
belongs to the tests. Lengths are millimetres: the renderer lifts its shadow rays by about 9e-5 of the scene's unit,
which in metres would narrow a penumbra. Frame as in light_cases.json: the subject at the origin.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light.sources import panel_axes

F = NDArray[np.float64]
Scene = dict[str, Any]
BOARD = 0.5  # reflectance of the grey board that is read
PIXELS_OVER_WIDTH = 40  # 120 pixels over the window of three widths, as in light_cases.json
WIDTHS_SEEN = 6  # the groove's window and as much flat skin again


def grey(value: float) -> Scene:
    return {"type": "rgb", "value": [value] * 3}


def placed(mi: Any, across: F, upward: F, out: F, centre: F) -> Any:
    """The renderer's unit shape (x, y and the normal z) laid along these vectors, lengths and all."""
    frame = np.eye(4)
    frame[:3, 0], frame[:3, 1], frame[:3, 2], frame[:3, 3] = across, upward, out, centre
    return mi.ScalarTransform4f(frame)


def panel(mi: Any, centre: F, axis: F, size: tuple[float, ...], roll_deg: float = 0.0, radiance: float = 1.0) -> Scene:
    """A disc (diameter,) or rectangle (width, height) of this radiance that shines along `axis` alone."""
    across, upward = panel_axes(axis, roll_deg)
    half_w, half_h = size[0] / 2, size[-1] / 2
    shape = "disk" if len(size) == 1 else "rectangle"
    return {
        "type": shape,
        "to_world": placed(mi, across * half_w, upward * half_h, np.asarray(axis, dtype=float), centre),
        "emitter": {"type": "area", "radiance": grey(radiance)},
    }


def board(mi: Any, point: F, normal: F, half_mm: float) -> Scene:
    """A matt grey square."""
    across, upward = panel_axes(normal)
    return {
        "type": "rectangle",
        "to_world": placed(mi, across * half_mm, upward * half_mm, np.asarray(normal, dtype=float), point),
        "bsdf": {"type": "diffuse", "reflectance": grey(BOARD)},
    }


def camera(mi: Any, at: F, toward: F, half_mm: float, pixels: int, samples: int, up: F) -> Scene:
    """Parallel rays on a row of pixels `half_mm` to either side; square pixels, no blur from one to the next."""
    look = mi.ScalarTransform4f().look_at(origin=list(at), target=list(toward), up=list(up))
    return {
        "type": "orthographic",
        "near_clip": 1e-3,
        "far_clip": 1e5,
        "to_world": look @ mi.ScalarTransform4f().scale([half_mm, half_mm, 1.0]),
        "film": {
            "type": "hdrfilm", "width": pixels, "height": 1, "pixel_format": "luminance", "component_format": "float32",
            "rfilter": {"type": "box"},
        },
        "sampler": {"type": "multijitter", "sample_count": samples, "seed": 1},
    }  # fmt: skip


def row(mi: Any, scene: Scene) -> F:
    """Radiance of each pixel of the one row."""
    image = mi.render(mi.load_dict({"type": "scene", **scene}))
    return np.asarray(np.array(image, dtype=np.float64).reshape(-1))


DIRECT: Scene = {"type": "direct", "emitter_samples": 64, "bsdf_samples": 0}


def irradiance(mi: Any, point: F, normal: F, lights: list[Scene], samples: int = 4096) -> float:
    """Irradiance on a board at `point`, read off its radiance: E = pi L / rho."""
    normal = np.asarray(normal, dtype=float)
    across, _ = panel_axes(normal)
    eye = point + 5.0 * (normal + 2.0 * across)
    seen = row(mi, {
        "integrator": DIRECT, "board": board(mi, point, normal, 3.0),
        "camera": camera(mi, eye, point, 0.01, 1, samples, normal),
        **{f"light{n}": light for n, light in enumerate(lights)},
    })  # fmt: skip
    return float(np.pi * seen[0] / BOARD)


def edge(
    mi: Any, size: tuple[float, ...], source_mm: float, gap_mm: float, span_mm: float, roll_deg: float = 0.0,
    tilt_deg: float = 0.0, pixels: int = 160,
) -> tuple[F, F]:  # fmt: skip
    """Places along a board (mm, + on the lit side) and its light behind a straight edge over its light without.

    Source in a plane parallel to the edge's, centred over it; the board turned about the edge's direction.
    """
    tilt = np.radians(tilt_deg)
    normal, along = np.array([-np.sin(tilt), 0.0, np.cos(tilt)]), np.array([np.cos(tilt), 0.0, np.sin(tilt)])
    side = np.array([0.0, 1.0, 0.0])
    lamp = panel(mi, np.array([0.0, 0.0, source_mm + gap_mm]), np.array([0.0, 0.0, -1.0]), size, roll_deg)
    reach = 20 * max(*size, source_mm)
    half, level = np.array([reach, 0.0, 0.0]), np.array([0.0, 0.0, 1.0])
    screen = {
        "type": "rectangle",
        "to_world": placed(mi, half, side * reach, level, gap_mm * level - half),
        "bsdf": {"type": "diffuse", "reflectance": grey(0.0)},
    }  # fmt: skip
    # From beside, nearly along the edge, so that the camera's rays stay under the screen.
    eye = 100.0 * (side + 0.1 * normal)
    seen = camera(mi, eye, np.zeros(3), span_mm, pixels, 256, normal)
    parts = {"integrator": DIRECT, "camera": seen, "board": board(mi, np.zeros(3), normal, 500.0), "lamp": lamp}
    # The picture's right is the camera's left hand when it looks back along y: read it against the board's own x.
    right = np.cross(-eye, normal)
    places = (np.arange(pixels) + 0.5) / pixels * 2 * span_mm - span_mm
    places = places if right @ along > 0 else -places
    order = np.argsort(places)
    return places[order], (row(mi, {**parts, "screen": screen}) / row(mi, parts))[order]


def skin(reflectance: float, roughness: float) -> Scene:
    """rho/pi and a Beckmann lobe of index 1.4 on top: a metal that absorbs nothing mirrors as Fresnel's glass does."""
    return {
        "type": "blendbsdf",
        "weight": 0.5,  # half of twice each: the sum of the two
        "matt": {"type": "diffuse", "reflectance": grey(2 * reflectance)},
        "sheen": {
            "type": "roughconductor", "distribution": "beckmann", "alpha": roughness, "eta": grey(1.4), "k": grey(0.0),
            "specular_reflectance": {"type": "uniform", "value": 2.0},
        },
    }  # fmt: skip


def groove(mi: Any, aspect: float, material: Scene) -> Any:
    """A straight groove one millimetre wide at half its depth along y, smooth, as a mesh in 16 mm of flat skin."""
    x = np.concatenate((np.linspace(-8, -2, 25)[:-1], np.linspace(-2, 2, 801), np.linspace(2, 8, 25)[1:]))
    bell = aspect * np.exp(-4 * np.log(2) * x**2)
    rise = 8 * np.log(2) * x * bell  # slope of z = -bell
    normals = np.stack((-rise, np.zeros_like(x), np.ones_like(x)), axis=-1)
    normals /= np.linalg.norm(normals, axis=-1, keepdims=True)
    n = len(x)
    corners = np.concatenate([np.stack((x, np.full(n, y), -bell), axis=-1) for y in (-8.0, 8.0)])
    first = np.arange(n - 1)
    faces = np.concatenate((
        np.stack((first, first + 1, first + n + 1), axis=-1), np.stack((first, first + n + 1, first + n), axis=-1)
    ))  # fmt: skip
    held = mi.Properties()
    held["bsdf"] = mi.load_dict(material)
    mesh = mi.Mesh("groove", vertex_count=2 * n, face_count=len(faces), has_vertex_normals=True, props=held)
    kept = mi.traverse(mesh)
    kept["vertex_positions"] = corners.ravel()
    kept["vertex_normals"] = np.concatenate((normals, normals)).ravel()
    kept["faces"] = faces.ravel()
    kept.update()
    return mesh


def groove_stops(
    mi: Any, aspect: float, material: Scene, lights: list[Scene], samples: int = 1024
) -> tuple[float, float]:
    """Stops of a groove's darkest place under, and of its brightest over, the flat skin; all light paths."""
    pixels = PIXELS_OVER_WIDTH * WIDTHS_SEEN
    up = np.array([0.0, 1.0, 0.0])
    seen = camera(mi, np.array([0.0, 0.0, 20.0]), np.zeros(3), WIDTHS_SEEN / 2, pixels, samples, up)
    found = row(mi, {
        "integrator": {"type": "path", "max_depth": 10, "rr_depth": 50}, "camera": seen,
        "groove": groove(mi, aspect, material), **{f"light{n}": light for n, light in enumerate(lights)},
    })  # fmt: skip
    flat = float(np.concatenate((found[:PIXELS_OVER_WIDTH], found[-PIXELS_OVER_WIDTH:])).mean())
    # Three pixels together: the noise of one would be taken for the darkest place.
    window = np.convolve(found[PIXELS_OVER_WIDTH:-PIXELS_OVER_WIDTH], np.ones(3) / 3, "valid")
    return float(np.log2(flat / window.min())), float(np.log2(window.max() / flat))
