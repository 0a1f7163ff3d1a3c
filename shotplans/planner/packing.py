"""What must be packed for the plan, along the path of the picture: ground, lights, panels, camera, power, metering.

Every kit id the plan uses appears, with the letters of the lights it is for; small things that stop a job when they are
missing come as words, and one spare of each. For several set-ups the most of each is packed once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from shotplans.planner import ballast, consequences, flags
from shotplans.planner.batteries import on_battery
from shotplans.planner.plan import Light, Solved
from shotplans.planner.request import Request

ALWAYS = (
    ("meter", 1),
    ("spare batteries: meter, camera", 1),
    ("grey card", 1),
    ("tape measure", 1),
    ("marking tape", 1),
    ("lens cloth", 1),
    ("spare memory card", 2),
    ("setup sheet", 2),
)
Thing = tuple[str, str, int]  # item, letters, count


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
    for item, count in (*_spares(solved), *consequences.brought(request, solved), *ALWAYS):
        rows.setdefault(item, {"item": item, "label": item, "for": "set", "count": count})
    return list(rows.values())


def _things(one: Solved, request: Request) -> Iterator[Thing]:
    if one.ground is not None:
        yield one.ground.item.id, "", 1
        if one.ground.item.kind != "wall":
            yield "crossbar with two stands and clamps", "", 1
    for light in one.lights:
        yield from _of_light(light)
    for block in one.blocks:
        yield block.panel.id, "", 1
        if block.stand:
            yield block.stand, "", 1
        yield "panel clamp", "", 1
    yield from flags.packed(one)
    yield from _weights(one)
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
    for step in dict.fromkeys(s.step for s in one.pose.seated if s.step):
        yield step, "", 1


def _of_light(light: Light) -> Iterator[Thing]:
    """All that one light asks for, from the floor up: stand, arm, head, modifier, ring, cable or battery."""
    emitter, held = light.emitter, light.mounting
    if held and held.stand:
        yield held.stand, light.letter, 1
    if held and held.boom:
        yield "boom arm with grip", light.letter, 1
        yield f"counterweight {held.counterweight_kg:g} kg", light.letter, 1
        yield "safety cord", light.letter, 1
        yield "flag for the arm's end", light.letter, 1
    if emitter is None:
        if light.panel:
            yield light.panel.id, light.letter, 1
            yield "panel clamp", light.letter, 1
        return
    yield emitter.head.id, light.letter, 1
    yield emitter.modifier.id, light.letter, 1
    if emitter.adapter:
        yield emitter.adapter, light.letter, 1
    if on_battery(emitter.head):
        yield f"charged battery for {emitter.head.id}", light.letter, 1
    else:
        yield "mains cable", light.letter, 1


def _weights(one: Solved) -> Iterator[Thing]:
    """The bags each stand gets; for a stand that gets none, one in words."""
    for rig in ballast.rigs(one):
        for bag in rig.bags:
            yield bag, rig.letter, 1
        if not rig.bags:
            yield "sandbag", "", 1


def _spares(solved: Sequence[Solved]) -> Iterator[tuple[str, int]]:
    """One spare of what stops the job and is small enough to take twice."""
    heads = [x.emitter.head for one in solved for x in one.lights if x.emitter]
    for head in dict.fromkeys(h.id for h in heads if on_battery(h)):
        yield f"spare battery for {head}, charged", 1
    if any(not on_battery(h) for h in heads):
        yield "spare mains cable", 1
        yield "extension lead", 1
        yield "cable cover", 1


def _labels(request: Request) -> dict[str, str]:
    kit = request.kit
    heads = {h.id: str(h.label or h.id) for h in kit.heads}
    return heads | {m.id: str(m.label or m.id) for m in kit.modifiers}
