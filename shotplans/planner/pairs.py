"""Which heads and modifiers of a kit mount together, each pair as a source of light.

Belongs here: mounts, rings, heat, corrections and measured beams, until a pair is an `Emitter`. Not here: its light.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

import numpy as np

from shotplans.light import heads as heads_light
from shotplans.planner import kit as owned
from shotplans.planner.emitters import Emitter


def both_ways(found: Iterable[Emitter]) -> list[Emitter]:
    """The same pairs, and those with unequal sides a second time, turned a quarter about their axis."""
    turned: list[Emitter] = []
    for emitter in found:
        turned.append(emitter)
        if not emitter.disc and emitter.width_m != emitter.height_m:
            turned.append(replace(emitter, roll_deg=90.0))
    return turned


def emitters(
    kit: owned.Kit,
    corrections: Iterable[owned.Correction],
    *,
    steady: bool,
    heads: Iterable[owned.Head] | None = None,
    modifiers: Iterable[owned.Modifier] | None = None,
    adapters: Iterable[owned.Adapter] | None = None,
    any_heat: bool = False,
    measured: Iterable[owned.MeasuredBeam] = (),
) -> list[Emitter]:
    """Every head and modifier that mount together, by the same mount or an owned ring; equal pairs appear once.

    `heads`, `modifiers`, `adapters` narrow the kit to what is still free; the first of equal things is taken.
    """
    known = {(c.head, c.modifier): c for c in corrections}
    shapes = {(b.head, b.modifier): b.shares for b in measured}
    shapers = [(m, spec(m)) for m in (kit.modifiers if modifiers is None else modifiers)]
    rings = list(kit.adapters if adapters is None else adapters)
    found: list[Emitter] = []
    seen: set[tuple[object, ...]] = set()
    for head in kit.heads if heads is None else heads:
        if (head.light == "steady") != steady:
            continue
        made_like, bare = spec(head), _bare_1m(head)
        for modifier, shape in shapers:
            ring = None
            if not any_heat and too_hot(head, modifier):
                continue
            if head.mount != modifier.mount:
                ring = next((r.id for r in rings if r.from_ == head.mount and r.to == modifier.mount), None)
                if ring is None:
                    continue
            correction, beam = known.get((head.id, modifier.id)), shapes.get((head.id, modifier.id))
            same = (
                made_like,
                shape,
                ring is None,
                (correction.offset_stops, correction.standard_error_stops) if correction else None,
                beam,
            )
            if same not in seen:
                seen.add(same)
                made = _emitter(head, modifier, ring, bare, correction)
                found.append(made if beam is None else replace(made, measured=beam))
    return found


def too_hot(head: owned.Head, modifier: owned.Modifier) -> bool:
    """Whether a steady lamp gives more watts than the modifier bears; a flash's modelling lamp is turned down."""
    limit = modifier.max_modelling_watts
    return head.light == "steady" and limit is not None and float(head.watts or 0.0) > limit


@lru_cache(maxsize=4096)
def spec(thing: owned.Head | owned.Modifier) -> str:
    """Everything of a piece but its name: two with one spec do the same."""
    return thing.model_dump_json(exclude={"id", "label"})


def _bare_1m(head: owned.Head) -> float:
    """Exposure at a metre as the head is rated."""
    if head.light == "steady":
        return float(head.lux_1m or 0.0)
    return float(heads_light.flash_exposure_1m_lxs(float(head.f_number_1m_iso100 or 0.0), 0.0))


def _emitter(
    head: owned.Head, modifier: owned.Modifier, ring: str | None, bare_1m: float, correction: owned.Correction | None
) -> Emitter:
    offset, error = 0.0, 0.3  # an uncorrected pair is good to about a third of a stop: common practice
    if correction is not None:
        offset = float(correction.offset_stops)
        # What the readings leave open, with a floor for setting the same light up again.
        error = float(np.hypot(correction.standard_error_stops, 0.1))
    return Emitter(head, modifier, ring, bare_1m * 2.0 ** (offset - float(modifier.loss_stops)), error)
