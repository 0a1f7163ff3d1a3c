"""What must be packed for the plan, along the path of the picture: ground, lights, panels, camera, power, metering.

Every kit id the plan uses appears, with the letters of the lights it is for; small things that stop a job when they are
missing come as words. For several set-ups the most of each is packed once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from shotplans.planner.plan import Solved
from shotplans.planner.request import Request

ALWAYS = (
    ("meter", 1),
    ("spare battery for the meter", 1),
    ("grey card", 1),
    ("tape measure", 1),
    ("marking tape", 1),
    ("cable cover", 1),
    ("lens cloth", 1),
    ("spare memory card", 2),
    ("setup sheet", 2),
)


def packing(solved: Sequence[Solved], request: Request) -> list[dict[str, Any]]:
    """Rows item, label, for, count; kit first in the order of building, then words."""
    labels = _labels(request)
    rows: dict[str, dict[str, Any]] = {}
    for one in solved:
        seen: dict[str, int] = {}
        for item, letters, count in _things(one, request):
            seen[item] = seen.get(item, 0) + count
            row = rows.setdefault(item, {"item": item, "label": labels.get(item, item), "for": "set", "count": 0})
            if letters:
                known = set() if row["for"] == "set" else set(row["for"].split(", "))
                row["for"] = ", ".join(sorted(known | {letters}))
            row["count"] = max(row["count"], seen[item])
    for item, count in ALWAYS:
        rows.setdefault(item, {"item": item, "label": item, "for": "set", "count": count})
    return list(rows.values())


def _things(one: Solved, request: Request) -> Iterator[tuple[str, str, int]]:
    if one.ground is not None:
        yield one.ground.item.id, "", 1
        if one.ground.item.kind != "wall":
            yield "crossbar with two stands and clamps", "", 1
    for light in one.lights:
        emitter, held = light.emitter, light.mounting
        if held and held.stand:
            yield held.stand, light.letter, 1
        if emitter is None:
            if light.panel:
                yield light.panel.id, light.letter, 1
                yield "panel clamp", light.letter, 1
            continue
        yield emitter.head.id, light.letter, 1
        yield emitter.modifier.id, light.letter, 1
        if emitter.adapter:
            yield emitter.adapter, light.letter, 1
        yield "mains cable", light.letter, 1
        if held and held.boom:
            yield f"counterweight {held.counterweight_kg:g} kg", light.letter, 1
            yield "safety cord", light.letter, 1
    for block in one.blocks:
        yield block.panel.id, "", 1
        if block.stand:
            yield block.stand, "", 1
        yield "panel clamp", "", 1
    yield from _weights(one, request)
    yield one.camera.body.id, "", 1
    yield one.camera.lens.id, "", 1
    if not one.steady:
        if request.kit.triggers:
            yield str(request.kit.triggers[0].id), "", 1
            if len(request.kit.triggers) > 1:
                yield str(request.kit.triggers[1].id), "", 1
        else:
            yield "trigger with a spare battery", "", 1
    for seat in dict.fromkeys(s.person.seat for s in one.pose.seated):  # people in turn share one
        if seat:
            yield seat, "", 1


def _weights(one: Solved, request: Request) -> Iterator[tuple[str, str, int]]:
    """A sandbag for each stand while there are any."""
    bags = [str(w.id) for w in request.kit.weights if w.id]
    held = [x.letter for x in one.lights if x.mounting and x.mounting.stand]
    for letter, bag in zip(held, bags, strict=False):
        yield bag, letter, 1
    if len(held) > len(bags):
        yield "sandbag", "", len(held) - len(bags)


def _labels(request: Request) -> dict[str, str]:
    kit = request.kit
    heads = {h.id: str(h.label or h.id) for h in kit.heads}
    return heads | {m.id: str(m.label or m.id) for m in kit.modifiers}
