"""What a bright ground does to sitter and lens: light on the back, wrap round the edges, a veil over the blacks.

Reckoned from the finished plan. The ground is cut into cells, each a matt surface lit by key, fill and ground lights;
the room's own bounce is kept apart, and what walls beside the ground throw back is in it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from shotplans.light import background, flare
from shotplans.light.sources import rect_factor
from shotplans.light.units import round_to
from shotplans.planner import anatomy
from shotplans.planner.behind import BLACK
from shotplans.planner.expect import MOST_BELOW_STOPS, Meter
from shotplans.planner.ground import FACING
from shotplans.planner.plan import Solved
from shotplans.planner.readings import bounce_plane, direct, plane

F = NDArray[np.float64]
CELLS = (4, 3)
BACK_BELOW_EYES_M = 0.30  # between the shoulder blades, where the trade holds the meter
EDGE_M = 0.08  # half a head's breadth
TORSO_M = 0.45  # width of a body in the picture under the shoulders
SHOULDERS_BELOW_EYES_M = 0.25


@dataclass(frozen=True)
class Glow:
    """The back against the face reading and the edge under the key, in stops; the veil as stops of lift of a black.

    `share` is the part of the picture that is ground.
    """

    back_over_face: float
    wrap_below_key: float
    black_lift: float
    share: float


def glow(meter: Meter) -> Glow:
    """All of it for a finished plan, reckoned once for a meter."""
    if "glow" not in meter.kept:
        meter.kept["glow"] = _reckoned(meter)
    found: Glow = meter.kept["glow"]
    return found


def _reckoned(meter: Meter) -> Glow:
    solved = meter.solved
    cells, size, exposures = _lit_cells(solved)
    mark, setting = solved.mark_eyes, meter.setting()
    back = mark + np.array([0.0, -BACK_BELOW_EYES_M, -2 * EDGE_M])
    edges = mark + np.array([[EDGE_M, 0.0, 0.0], [-EDGE_M, 0.0, 0.0]])
    points = np.concatenate([back[None], edges])
    normals = np.array([-FACING, [1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]])
    assert solved.ground is not None
    got = background.glow(
        points, normals, cells, exposures, cell_width_m=size[0], cell_height_m=size[1],
        reflectance=solved.ground.item.reflectance,
    )  # fmt: skip
    # What spills past the ground lights' fronts strikes the back itself; the room's bounce is there anyway.
    spill = sum(max(0.0, float(-direct(x, back) @ FACING)) for x in solved.by_role("background") if x.emitter)
    even = bounce_plane(meter.lights, solved.box, solved.blocks)
    key = meter.direct(solved.lights[0])
    wrap = float(np.log2(key / max(float(got[1:].max()), 1e-9 * key)))
    share = ground_share(solved)
    luminance = solved.ground.item.reflectance * 2.0**solved.ground.reading_above_setting
    lift = float(flare.black_lift_stops(BLACK, flare.veil(share, luminance)))
    return Glow(float(np.log2((float(got[0]) + spill + even) / setting)), min(wrap, MOST_BELOW_STOPS), lift, share)


def _lit_cells(solved: Solved) -> tuple[F, tuple[float, float], F]:
    """Middles (n, 3) of the ground's cells, their size, and what falls on each."""
    hung = solved.ground
    assert hung is not None
    width, height = hung.item.width_m, min(float(hung.item.height_m or 2.5), solved.box.ceiling_m)
    xs = ((np.arange(CELLS[0]) + 0.5) / CELLS[0] - 0.5) * width
    ys = (np.arange(CELLS[1]) + 0.5) / CELLS[1] * height
    x, y = (a.ravel() for a in np.meshgrid(xs, ys))
    cells = np.stack([x, y, np.full_like(x, -hung.distance_m)], axis=-1)
    on = [x for x in solved.by_role("key", "fill", "background") if x.emitter]
    got = plane(cells, FACING, on, solved.box, blocks=solved.blocks, flags=solved.flags)
    return cells, (width / CELLS[0], height / CELLS[1]), got


def ground_share(solved: Solved) -> float:
    """Part of the picture that is ground: the frame less heads and bodies as an ellipse and a column for each."""
    camera = solved.camera
    _, low, _ = camera.field_at(0.0)
    taken = 0.0
    for s in solved.pose.together:
        body = max(0.0, s.face_m[1] - SHOULDERS_BELOW_EYES_M - max(low, 0.0))
        taken += np.pi / 4 * 0.15 * anatomy.HEAD_HEIGHT_M + TORSO_M * body
    return float(np.clip(1 - taken / (camera.field_width_m * camera.field_height_m), 0.1, 0.95))


def further_m(solved: Solved, less_stops: float) -> float:
    """Metres that the ground would hang further behind for so many stops less on the back, its own reading kept."""
    hung = solved.ground
    assert hung is not None
    width, height = hung.item.width_m, float(hung.item.height_m or 2.5)
    now = float(rect_factor(hung.distance_m, width, height))
    return background.distance_for_glow(now * 2.0**-less_stops, width, height) - hung.distance_m


def printed(meter: Meter) -> dict[str, Any]:
    """The ground's part of the document beyond its tone: evenness, the back, the edge and the veil, to a tenth."""
    hung = meter.solved.ground
    assert hung is not None
    found = glow(meter)
    return {
        "evenness_stops": _tenth(hung.spread_stops),
        "lowest_below_setting_stops": _tenth(-hung.lowest_above_setting),
        "back_below_face_stops": _tenth(-found.back_over_face),
        "wrap_below_key_stops": _tenth(found.wrap_below_key),
        "black_lift_stops": _tenth(found.black_lift),
    }


def _tenth(value: float) -> float:
    return float(round_to(value, 0.1)) + 0.0
