"""A second fill where the first cannot do it alone: a white panel beside the face, or one more head over the lens.

Only looked for when the first, at full power, leaves the shadows deeper than wanted. Key, first fill and second are
then dialled for their sum. Canonical set, common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from shotplans.planner import dial, fill_head, fill_panel
from shotplans.planner.dial import Dialled
from shotplans.planner.free import Free, one_each
from shotplans.planner.intents import Band
from shotplans.planner.plan import Light
from shotplans.planner.readings import reading, wanted_exposure
from shotplans.planner.scene import Filled, Scene, key_level

FULL_STOPS = 0.1  # a head within this of full power has no more to give
BEST_STOPS = 1.2  # a second that misses what is wanted by up to this much still helps
SHORT_STOPS = 0.25  # a fill that misses its band by less is left alone; the same as the check's


def solve(scene: Scene, dialled: Dialled, filled: Filled, left: Free, steady: bool) -> tuple[Light, Light] | None:
    """The key at its new power and the second fill, or None where none is needed or none can be had."""
    first = dialled.fill
    if first is None or first.emitter is None or first.power_stops > FULL_STOPS:
        return None
    now = replace(scene, key=dialled.key, camera=dialled.camera)
    key = key_level(now)
    share = max(0.0, _sum(now, [dialled.key, first], ()) / key - 1)
    if -np.log2(max(share, 1e-9)) <= filled.wanted.high + SHORT_STOPS:
        return None
    least = Band(filled.wanted.high, filled.wanted.high)
    found = _panel(now, least, share, key, left) or _head(now, least, share, key, left, first, steady)
    return _dialled(now, dialled, found, filled) if found is not None else None


def _sum(scene: Scene, heads: Sequence[Light], panels: Sequence[Light]) -> float:
    """What the meter of the house reads at the mark."""
    return reading(scene.mark, scene.axis, heads, scene.box, panels=panels, recessed=scene.recessed)


def _panel(scene: Scene, least: Band, share: float, key: float, left: Free) -> Light | None:
    """A white panel beside one sitter; several people it would fill unevenly."""
    if len(scene.pose.together) > 1:
        return None
    found = fill_panel.solve(scene, least, share, key, left.panels, left.stands)
    return found.light if found is not None and found.level_stops <= least.high + SHORT_STOPS else None


def _head(
    scene: Scene, least: Band, share: float, key: float, left: Free, first: Light, steady: bool
) -> Light | None:
    emitters = one_each(left.emitters(steady))
    found = fill_head.solve(scene, least, share, emitters, left.stands, key, BEST_STOPS, (first,))
    return found.light if found is not None else None


def _dialled(scene: Scene, dialled: Dialled, second: Light, filled: Filled) -> tuple[Light, Light]:
    """Both on their steps: the second for the least fill wanted, the key for what the sum then leaves it."""
    first, full = dialled.fill, replace(dialled.key, power_stops=0.0)
    assert first is not None
    assert full.emitter is not None
    wanted = wanted_exposure(scene.camera, bool(full.emitter.steady))
    panels = [second] if second.emitter is None else []
    fixed = _sum(scene, [first], panels)
    if second.emitter is not None:
        share = 2.0**-filled.wanted.high
        missing = max(wanted * share / (1 + share) - fixed, 1e-6 * wanted)
        second = replace(second, power_stops=0.0)
        ideal = float(np.log2(_sum(scene, [second], ()) / missing))
        power = dial.nearest(second.emitter, max(0.0, ideal)) if second.emitter else 0.0
        second = replace(second, power_stops=power)
        fixed += _sum(scene, [second], ())
    ideal = float(np.log2(_sum(scene, [full], panels) / max(wanted - fixed, 1e-6 * wanted)))
    return replace(dialled.key, power_stops=dial.nearest(full.emitter, max(0.0, ideal))), second
