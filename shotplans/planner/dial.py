"""Step 4: the dial. Powers of key and fill for the setting reading, on the steps each head really has; ISO if needed.

The lights are dialled for their sum (key + fill + bounce + panels), so each alone reads less than the aperture.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from numpy.typing import NDArray

from shotplans.light.heads import dial_ladder
from shotplans.planner.emitters import Emitter
from shotplans.planner.frame import CLOSED_MOST, THIRDS, Camera, stop_for_depth
from shotplans.planner.plan import Block, Light
from shotplans.planner.readings import reading, wanted_exposure
from shotplans.planner.scene import Scene, key_level

F = NDArray[np.float64]
FILL_ERROR_SHARE = 0.3  # a tenth on the sum counts more than a tenth on the fill
OPEN_START = 2.8


@dataclass(frozen=True)
class Dialled:
    """Key and fill at powers a hand can set, the camera with its ISO and aperture, and what is still missing."""

    key: Light
    fill: Light | None
    camera: Camera
    short_stops: float
    error_stops: float
    over_stops: dict[str, float]  # by role: how much further down a head would have to go than it can


def ladder(emitter: Emitter) -> F:
    """Settable powers of a head, in stops below full, ascending."""
    dial = emitter.head.dial
    return np.asarray(
        dial_ladder(str(dial.scale), float(dial.step or 0.1), float(emitter.head.range_stops), emitter.head.energy_ws)
    )


def nearest(emitter: Emitter, power_stops: float) -> float:
    """The settable power nearest to an ideal one."""
    steps = ladder(emitter)
    return float(steps[int(np.argmin(np.abs(steps - power_stops)))])


def solve(
    scene: Scene,
    fill: Light | None,
    blocks: Sequence[Block],
    wanted_fill: float,
    *,
    steady: bool,
    max_iso: float,
    iso_fixed: bool,
    aperture_fixed: bool,
) -> Dialled:
    """Powers for the setting reading; ISO goes up in whole stops, then the aperture moves, before it gives up."""
    key, camera = replace(scene.key, power_stops=0.0), scene.camera
    panel = fill if fill is not None and fill.emitter is None else None
    head = replace(fill, power_stops=0.0) if fill is not None and fill.emitter is not None else None
    panels = [panel] if panel else []
    key_all = reading(scene.mark, scene.axis, [key], scene.box, panels=panels, blocks=blocks, recessed=scene.recessed)
    key_only = key_level(replace(scene, key=key))
    head_all = (
        reading(scene.mark, scene.axis, [head], scene.box, blocks=blocks, recessed=scene.recessed) if head else 0.0
    )
    share = 2.0**-wanted_fill
    # k and f are the powers as ratios: k key_all + f head_all = wanted, and fill plus bounce = share x key.
    k_unit = 1.0 / (key_only * (1 + share)) if head else 1.0 / key_all
    f_unit = max(share * key_only - (key_all - key_only), 1e-6 * key_only) * k_unit / head_all if head else 0.0
    camera = _settings(
        camera, steady, k_unit, f_unit, key, head, max_iso=max_iso, iso_fixed=iso_fixed, aperture_fixed=aperture_fixed
    )
    wanted = wanted_exposure(camera, steady)
    ideal_key = float(-np.log2(k_unit * wanted))
    ideal_fill = float(-np.log2(f_unit * wanted)) if head else 0.0
    short = max(0.0, -ideal_key, -ideal_fill if head else 0.0)
    over = _over({"key": (key, ideal_key), "fill": (head, ideal_fill)})
    best: tuple[float, float, float, float] | None = None
    fills = _near(head.emitter, ideal_fill) if head and head.emitter else [0.0]
    assert key.emitter is not None
    for pk, pf in product(_near(key.emitter, ideal_key), fills):
        error = float(np.log2((2.0**-pk * key_all + 2.0**-pf * head_all) / wanted))
        cost = abs(error) + (FILL_ERROR_SHARE * abs((pf - pk) - (ideal_fill - ideal_key)) if head else 0.0)
        if best is None or (round(cost, 9), pk, pf) < best[:3]:
            best = (round(cost, 9), pk, pf, error)
    assert best is not None
    return Dialled(
        replace(key, power_stops=best[1]),
        replace(head, power_stops=best[2]) if head else panel,
        camera,
        max(short, over.get("key", 0.0)),
        best[3],
        over,
    )


def _over(ideals: Mapping[str, tuple[Light | None, float]]) -> dict[str, float]:
    """How much further down than its dial each of these heads would have to go, in stops, where it would."""
    asked = {
        role: ideal - float(light.emitter.head.range_stops)
        for role, (light, ideal) in ideals.items()
        if light is not None and light.emitter is not None
    }
    return {role: stops for role, stops in asked.items() if stops > 0}


def _near(emitter: Emitter, ideal: float) -> list[float]:
    steps = ladder(emitter)
    at = int(np.argmin(np.abs(steps - ideal)))
    return [float(x) for x in steps[max(0, at - 2) : at + 3]]


def _settings(
    camera: Camera,
    steady: bool,
    k_unit: float,
    f_unit: float,
    key: Light,
    head: Light | None,
    *,
    max_iso: float,
    iso_fixed: bool,
    aperture_fixed: bool,
) -> Camera:
    def short(c: Camera) -> float:
        need = wanted_exposure(c, steady)
        return float(np.log2(max(k_unit, f_unit) * need))

    def over(c: Camera) -> float:
        need = wanted_exposure(c, steady)
        spare = [-np.log2(k_unit * need) - float(key.emitter.head.range_stops)] if key.emitter else []
        if head is not None and head.emitter is not None:
            spare.append(-np.log2(max(f_unit, 1e-12) * need) - float(head.emitter.head.range_stops))
        return float(max(spare, default=0.0))

    if not iso_fixed:
        while short(camera) > 1e-9 and camera.iso * 2 <= max_iso:
            camera = replace(camera, iso=camera.iso * 2)
    if not aperture_fixed and short(camera) > 1e-9:
        widest = stop_for_depth(camera, OPEN_START, camera.lens)
        for n in reversed(THIRDS):
            if widest - 1e-9 <= n < camera.aperture - 1e-9:
                camera = replace(camera, aperture=float(n))
                if short(camera) <= 1e-9:
                    break
    if not aperture_fixed and over(camera) > 1e-9:
        smallest = min(CLOSED_MOST, float(camera.lens.min_aperture or CLOSED_MOST))
        for n in THIRDS:
            if camera.aperture + 1e-9 < n <= smallest * 1.001:
                camera = replace(camera, aperture=float(n))
                if over(camera) <= 1e-9:
                    break
    return camera
