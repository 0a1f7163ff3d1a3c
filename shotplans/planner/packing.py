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
from studio.tongue import gettext as _
from studio.tongue import noop

ALWAYS = (
    (noop("meter"), 1),
    (noop("spare batteries: meter, camera"), 1),
    (noop("grey card"), 1),
    (noop("tape measure"), 1),
    (noop("marking tape"), 1),
    (noop("lens cloth"), 1),
    (noop("spare memory card"), 2),
    (noop("setup sheet"), 2),
)
COUNTERWEIGHT = noop("counterweight {mass} kg")
CHARGED, SPARE = noop("charged battery for {head}"), noop("spare battery for {head}, charged")
Thing = tuple[str, str, int]  # item, letters, count


def packing(solved: Sequence[Solved], request: Request) -> list[dict[str, Any]]:
    """Rows item, label, for, count; kit first in the order of building, then words.

    An item is a piece's id or our own word, by which it is ticked and counted; its label is what is read.
    """
    labels = _labels(solved, request)
    rows: dict[str, dict[str, Any]] = {}
    for one in solved:
        seen: dict[str, int] = {}
        for item, letters, count in _things(one, request):
            seen[item] = seen.get(item, 0) + count
            row = rows.setdefault(item, {"item": item, "label": labels.get(item) or _(item), "for": "set", "count": 0})
            if letters:
                known = set() if row["for"] == "set" else set(row["for"].split(", "))
                row["for"] = ", ".join(sorted(known | {letters}))
            row["count"] = max(row["count"], seen[item])
    for item, count in (*_spares(solved), *consequences.brought(request, solved), *ALWAYS):
        rows.setdefault(item, {"item": item, "label": labels.get(item) or _(item), "for": "set", "count": count})
    return list(rows.values())


def _things(one: Solved, request: Request) -> Iterator[Thing]:
    if one.ground is not None:
        yield one.ground.item.id, "", 1
        if one.ground.item.kind != "wall":
            yield noop("crossbar with two stands and clamps"), "", 1
    for light in one.lights:
        yield from _of_light(light)
    for block in one.blocks:
        yield block.panel.id, "", 1
        if block.stand:
            yield block.stand, "", 1
        yield noop("panel clamp"), "", 1
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
            yield noop("trigger with a spare battery"), "", 1
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
        yield noop("boom arm with grip"), light.letter, 1
        yield COUNTERWEIGHT.format(mass=f"{held.counterweight_kg:g}"), light.letter, 1
        yield noop("safety cord"), light.letter, 1
        yield noop("flag for the arm's end"), light.letter, 1
    if emitter is None:
        if light.panel:
            yield light.panel.id, light.letter, 1
            yield noop("panel clamp"), light.letter, 1
        return
    yield emitter.head.id, light.letter, 1
    yield emitter.modifier.id, light.letter, 1
    if emitter.adapter:
        yield emitter.adapter, light.letter, 1
    if on_battery(emitter.head):
        yield CHARGED.format(head=emitter.head.id), light.letter, 1
    else:
        yield noop("mains cable"), light.letter, 1


def _weights(one: Solved) -> Iterator[Thing]:
    """The bags each stand gets; for a stand that gets none, one in words."""
    for rig in ballast.rigs(one):
        for bag in rig.bags:
            yield bag, rig.letter, 1
        if not rig.bags:
            yield noop("sandbag"), "", 1


def _spares(solved: Sequence[Solved]) -> Iterator[tuple[str, int]]:
    """One spare of what stops the job and is small enough to take twice."""
    heads = [x.emitter.head for one in solved for x in one.lights if x.emitter]
    for head in dict.fromkeys(h.id for h in heads if on_battery(h)):
        yield SPARE.format(head=head), 1
    if any(not on_battery(h) for h in heads):
        yield noop("spare mains cable"), 1
        yield noop("extension lead"), 1
        yield noop("cable cover"), 1


def _labels(solved: Sequence[Solved], request: Request) -> dict[str, str]:
    """What is read of an item whose label is not our word alone: a piece's name or id, a prop, a word with a value."""
    kit = request.kit
    ids = [piece["id"] for pieces in kit.model_dump().values() for piece in pieces]
    props = [str(p.label) for p in request.brief.props if p.label]
    named = {h.id: str(h.label or h.id) for h in kit.heads} | {m.id: str(m.label or m.id) for m in kit.modifiers}
    masses = [f"{x.mounting.counterweight_kg:g}" for one in solved for x in one.lights if x.mounting]
    blanks = [(COUNTERWEIGHT, {"mass": mass}) for mass in masses]
    blanks += [(words, {"head": h.id}) for h in kit.heads for words in (CHARGED, SPARE)]
    with_value = {words.format(**blank): _(words).format(**blank) for words, blank in blanks}
    return {name: name for name in (*props, *ids)} | named | with_value
