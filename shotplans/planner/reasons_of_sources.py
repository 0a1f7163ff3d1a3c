"""What the shape of the key's modifier does, how it hangs and is aimed, and what windows add. Called by reasons.py."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from shotplans.light import windows
from shotplans.light.sources import apparent_deg
from shotplans.planner import sitter_view
from shotplans.planner.expect import Meter, main_sitter
from shotplans.planner.plan import Light, Solved
from shotplans.planner.readings import direct
from shotplans.planner.reason import OPTICS, RELIEF, TRADE, Reason
from shotplans.planner.words.sources import WAY_WHY
from studio.tongue import gettext as _
from studio.tongue import noop

HOT_STOPS = 1.0  # a middle this much brighter than the edge is worth a word: common practice, no source
SKY = noop("overcast sky [CIE-OVERCAST], [SPHERE]")
BEAM = noop("beam as a power of the cosine [LAMBERT-ORDER]")
KIT = ("kit.modifiers",)


def sources(solved: Solved, meter: Meter, expected: dict[str, Any]) -> Iterator[Reason]:
    """The key's grid, core, spill, hang and aim, as far as there are any; windows without blinds."""
    key = solved.lights[0]
    yield from _grid(solved, key)
    yield from _core(key)
    yield from _spill(key, expected)
    yield from _way(solved, meter, key, expected)
    yield from _aim(solved, meter, key)
    yield from _windows(solved)


def _grid(solved: Solved, key: Light) -> Iterator[Reason]:
    emitter, ground = key.emitter, solved.ground
    if emitter is None or emitter.grid_deg is None or ground is None:
        return
    middle = np.array([0.0, solved.pose.eye_m, -ground.distance_m])
    way = (middle - key.at) / np.linalg.norm(middle - key.at)
    off = float(np.degrees(np.arccos(np.clip(way @ key.axis, -1.0, 1.0))))
    cut = emitter.grid_deg / 2
    values = {"cut": f"{cut:.0f}", "off": f"{off:.0f}"}
    if off >= cut:
        yield Reason("lights[0].grid", "grid_clear", KIT, OPTICS, values)
        return
    bare = replace(key, emitter=replace(emitter, modifier=emitter.modifier.model_copy(update={"grid_deg": None})))
    got, had = (float(np.linalg.norm(direct(x, middle))) for x in (key, bare))
    values["less"] = f"{np.log2(had / got):.1f}"
    yield Reason("lights[0].grid", "grid_partly", KIT, TRADE, values)


def _core(key: Light) -> Iterator[Reason]:
    emitter = key.emitter
    if emitter is None or emitter.core_stops < HOT_STOPS or not emitter.disc:
        return
    values = {
        "core": f"{emitter.core_stops:.1f}",
        "even": f"{emitter.even_sides[0]:.2f}",
        "size": f"{emitter.width_m:.2f}",
    }
    yield Reason("lights[0].modifier", "core", KIT, OPTICS, values)


def _spill(key: Light, expected: dict[str, Any]) -> Iterator[Reason]:
    if key.emitter is not None and key.emitter.spill:
        values = {"share": f"{100 * key.emitter.spill:.0f}", "bounce": expected["bounce_below_key_stops"]}
        yield Reason("expected.bounce_below_key_stops", "spill", KIT, TRADE, values)


def _way(solved: Solved, meter: Meter, key: Light, expected: dict[str, Any]) -> Iterator[Reason]:
    """Which way a front with unequal sides hangs, with the relief it would draw hung the other way."""
    emitter = key.emitter
    if emitter is None or emitter.disc or emitter.width_m == emitter.height_m:
        return
    turned = replace(key, emitter=replace(emitter, roll_deg=90.0 - emitter.roll_deg))
    sitter, band = main_sitter(solved), solved.targets.row.relief
    other = replace(solved, lights=(turned, *solved.lights[1:]))
    after = float(sitter_view.view(other, replace(meter, solved=other), sitter)["relief_stops"])
    now = float(next(p["relief_stops"] for p in expected["per_sitter"] if p["label"] == sitter.person.label))
    missed = [max(band.low - r, r - band.high, 0.0) for r in (now, after)]
    why = "relief" if missed[0] < missed[1] - 0.005 else "alike" if missed[0] < missed[1] + 0.005 else "place"
    values = {
        "way": _("Upright") if emitter.height_m > emitter.width_m else _("Across"),
        "wide": f"{float(apparent_deg(emitter.width_m, key.distance_m)):.0f}",
        "tall": f"{float(apparent_deg(emitter.height_m, key.distance_m)):.0f}",
        "label": sitter.person.label,
        "relief": f"{now:.2f}",
        "other": f"{after:.2f}",
        "why": _(WAY_WHY[why]),
    }
    yield Reason("lights[0].modifier", "way", KIT, RELIEF, values)


def _aim(solved: Solved, meter: Meter, key: Light) -> Iterator[Reason]:
    """A key aimed past the near face, with how even the faces would be if it were aimed between them."""
    place = np.array(key.distance_to or key.aim) - key.at
    off = float(np.degrees(np.arccos(np.clip(place @ key.axis / np.linalg.norm(place), -1.0, 1.0))))
    if off < 1.0 or key.emitter is None:
        return
    straight = replace(key, aim=key.distance_to or key.aim)
    plain = replace(solved, lights=(straight, *solved.lights[1:]))
    turned = _by_beam(solved, key, straight)
    if turned is None:
        yield Reason("lights[0].feather_deg", "feathered_cut", KIT, BEAM, {"turn": f"{off:.0f}"})
        return
    near, far = turned
    values = {
        "turn": f"{off:.0f}",
        "near": f"{near:+.2f}",
        "far": f"{far:+.2f}",
        "even": f"{_spread(meter):.2f}",
        "straight": f"{_spread(replace(meter, solved=plain)):.2f}",
        "beam": f"{key.emitter.beam_deg:.0f}",
    }
    yield Reason("lights[0].feather_deg", "feathered", KIT, BEAM, values)


def _by_beam(solved: Solved, turned: Light, straight: Light) -> tuple[float, float] | None:
    """What turning a key does to the nearest and the farthest face, in stops; None where a narrow beam misses one."""
    assert turned.emitter is not None
    emitter = turned.emitter
    rays = [np.array(s.face_m) - turned.at for s in solved.pose.together]
    faces = sorted(rays, key=lambda v: float(np.linalg.norm(v)))
    found = []
    for ray in (faces[0], faces[-1]):
        before, after = (float(np.degrees(np.arccos(ray @ x.axis / np.linalg.norm(ray)))) for x in (straight, turned))
        cut = min(90.0, (emitter.grid_deg or 180.0) / 2)
        if max(before, after) >= cut - 0.1:
            return None
        found.append(emitter.turned_stops(before, after))
    return (found[0], found[1]) if np.isfinite(found).all() else None


def _spread(meter: Meter) -> float:
    """Stops from the brightest to the dimmest face, as reckoned."""
    levels = [meter.setting(np.array(s.face_m)) for s in meter.solved.pose.together]
    return float(np.log2(max(levels) / min(levels)))


def _windows(solved: Solved) -> Iterator[Reason]:
    lux = float(solved.notes["windows_lux"])  # type: ignore[arg-type]
    if lux > 0 and not solved.steady:
        values = {
            "lux": f"{lux:.0f}",
            "doubt": f"{windows.UNCERTAINTY_STOPS:g}",
            "below": f"{float(solved.notes['ambient_below_stops']):.1f}",  # type: ignore[arg-type]
        }
        yield Reason("camera.shutter_s", "windows", ("room.windows",), SKY, values)
