"""Other ways to do a set-up that differ in kind: modifier, number of lights, what is packed, side, way of facing.

Each is built and judged by the plan's own functions, and breaks no limit that the plan keeps. Of those that can be
built, the two are shown that differ most from the plan and from each other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations
from typing import Any

from shotplans.planner import document, moves, space, words
from shotplans.planner.free import Free
from shotplans.planner.key import Choice
from shotplans.planner.outcome import Outcome, outcome
from shotplans.planner.plan import Light, Solved
from shotplans.planner.request import Request
from shotplans.planner.solve_setup import Answer, sided
from shotplans.planner.words import sides
from studio.tongue import gettext as _
from studio.tongue import noop

AXES = {"width": noop("width"), "depth": noop("depth")}
GOOD = 0.6  # of a score of 1: below, a plan one would not show (common practice, no source)
MOST = 2
TRIES = 12  # keys tried until one can be built from kit that is packed


@dataclass(frozen=True)
class Way:
    """Another way: what kind it is, the set, and the values of its sentence."""

    request: Request
    kind: str
    solved: Solved
    values: dict[str, Any]

    @cached_property
    def outcome(self) -> Outcome:
        return outcome(self.request, self.solved)


def alternatives(
    request: Request, answer: Answer, ours: Outcome, others: Sequence[Solved]
) -> list[dict[str, Any]]:
    """Up to two other ways, printed. `others` are the other set-ups of the plan, whose kit is packed anyway."""
    may_break = {p.limit for p in ours.problems}
    ways = list(_ways(request, answer, others, may_break))
    broken: set[int] = set()

    def good(number: int) -> bool:
        if number not in broken and not {p.limit for p in ways[number].outcome.problems} <= may_break:
            broken.add(number)
        return number not in broken

    for pair in _by_difference(answer.best, ways):
        if all(good(n) for n in pair):
            return [_printed(answer.best, ways[n], ours) for n in pair]
    return []


def _by_difference(best: Solved, ways: Sequence[Way]) -> list[tuple[int, ...]]:
    """Twos of different kinds, those first that differ most from the plan and from each other; then single ones."""
    found: list[tuple[int, ...]] = [
        pair for pair in combinations(range(len(ways)), MOST) if ways[pair[0]].kind != ways[pair[1]].kind
    ]
    found += [(n,) for n in range(len(ways))]

    def apart(chosen: tuple[int, ...]) -> int:
        sets = [best, *(ways[n].solved for n in chosen)]
        return sum(differing(a, b) for a, b in combinations(sets, 2))

    return sorted(found, key=lambda chosen: (-len(chosen), -apart(chosen), chosen))


def differing(one: Solved, other: Solved) -> int:
    """In how many kinds two sets differ: key's modifier, side, lights with heads, what fills, other kit, the facing."""
    return sum(a != b for a, b in zip(_traits(one), _traits(other), strict=True))


def _traits(solved: Solved) -> tuple[object, ...]:
    key, fill = solved.lights[0], solved.light("fill")
    kind = key.emitter.modifier.kind if key.emitter else ""
    filled = "none" if fill is None else "head" if fill.emitter else "panel"
    heads = sum(x.emitter is not None for x in solved.lights)
    return (kind, key.bearing_deg < 0, heads, filled, frozenset(_pieces(solved)), solved.box.axis)


def _pieces(solved: Solved) -> Iterator[str]:
    """Ids of what lights the set: heads, modifiers, rings and panels."""
    for light in solved.lights:
        if light.emitter:
            yield from (light.emitter.head.id, light.emitter.modifier.id)
            if light.emitter.adapter:
                yield light.emitter.adapter
        elif light.panel:
            yield light.panel.id
    yield from (b.panel.id for b in solved.blocks)


def _ways(request: Request, answer: Answer, others: Sequence[Solved], may_break: set[str]) -> Iterator[Way]:
    """One way of each kind that can be built, the most telling first; `may_break` are limits the plan breaks itself."""
    yield from _fewer(request, answer)
    yield from _packed(request, answer, others)
    yield from _modifier(request, answer, may_break)
    yield from _facing(request, answer)
    yield from _side(request, answer)


def _modifier(request: Request, answer: Answer, may_break: set[str]) -> Iterator[Way]:
    """The best key of another kind of modifier that breaks nothing the plan keeps; two kinds are tried."""
    key = answer.best.lights[0]
    kinds = {key.emitter.modifier.kind} if key.emitter else set()
    for choice in answer.choices:
        kind = choice.emitter.modifier.kind
        if kind in kinds or choice.broken > 0 or choice.score < GOOD:
            continue
        kinds.add(kind)
        made = answer.built(choice, answer.free)
        way = Way(request, "modifier", made, {}) if made is not None else None
        if way is not None and {p.limit for p in way.outcome.problems} <= may_break:
            yield way
            return
        if len(kinds) > MOST:
            return


def _fewer(request: Request, answer: Answer) -> Iterator[Way]:
    """The same key with fewer heads: alone with panels and the room, or with its fill only."""
    heads = [x for x in answer.best.lights if x.emitter]
    for count in range(1, len(heads)):
        held = {x.emitter.head.id for x in heads[:count] if x.emitter}
        free = replace(answer.free, heads=tuple(h for h in answer.free.heads if h.id in held))
        made = answer.built(answer.chosen, free)
        if made is not None and sum(x.emitter is not None for x in made.lights) == count:
            yield Way(request, "fewer", made, {"heads": count, "was": len(heads)})
            return


def _packed(request: Request, answer: Answer, others: Sequence[Solved]) -> Iterator[Way]:
    """From what the other set-ups use, nothing more: where this one needs pieces of its own."""
    packed = {piece for other in others for piece in _pieces(other)}
    spared = [piece for piece in dict.fromkeys(_pieces(answer.best)) if piece not in packed]
    if not packed or not spared:
        return
    free = answer.free
    left = replace(
        free,
        heads=tuple(x for x in free.heads if x.id in packed),
        modifiers=tuple(x for x in free.modifiers if x.id in packed),
        adapters=tuple(x for x in free.adapters if x.id in packed),
        panels=tuple(x for x in free.panels if x.id in packed),
    )
    for choice in _with(left, answer)[:TRIES]:
        made = answer.built(choice, left)
        if made is not None:
            yield Way(request, "packed", made, {"spared": ", ".join(spared)})
            return


def _with(free: Free, answer: Answer) -> list[Choice]:
    """The good keys that the free kit can make, the head being any that gives the same light."""
    pairs = free.emitters(answer.best.steady)
    found = []
    for choice in answer.choices:
        if choice.broken > 0 or choice.score < GOOD:
            continue
        wanted = choice.emitter
        for pair in pairs:
            alike = abs(pair.exposure_1m - wanted.exposure_1m) < 1e-9 * wanted.exposure_1m
            if pair.modifier.id == wanted.modifier.id and alike:
                found.append(replace(choice, emitter=replace(wanted, head=pair.head, adapter=pair.adapter)))
                break
    return found


def _side(request: Request, answer: Answer) -> Iterator[Way]:
    """The same set mirrored, where the side is open and serves nobody in particular."""
    if request.brief.key_side != "either" or sided(request.sitters, answer.best.setup):
        return
    made = answer.best.mirrored()
    bearing = made.lights[0].bearing_deg
    if bearing:
        yield Way(request, "side", made, {"side": sides.said("right" if bearing > 0 else "left")})


def _facing(request: Request, answer: Answer) -> Iterator[Way]:
    """The same set along the other side of the room, where every light still finds its stand."""
    best, axes = answer.best, space.axes(request.room)
    other = next((a for a in axes if a != best.box.axis), None)
    if other is None or best.ground is None:
        return
    box = space.box(request.room, other, best.ground.distance_m, best.ground.item.kind == "wall")
    made = replace(best, box=replace(box, ground_from_wall_m=best.box.ground_from_wall_m))
    lights = tuple(moves.held(request, made, x) for x in made.lights)
    if all(x.mounting is not None for x in lights):
        yield Way(request, "facing", replace(made, lights=lights), {"axis": _(AXES[other])})


def _printed(best: Solved, way: Way, ours: Outcome) -> dict[str, Any]:
    """Another way with its own numbers, and what it costs against the plan's."""
    block, key = way.outcome.expected, way.solved.lights[0]
    assert key.emitter is not None
    values = way.values | {
        "modifier": key.emitter.modifier.label or key.emitter.modifier.id,
        "distance": f"{key.distance_m:.2f}",
        "size": f"{block['apparent_size_deg']:.0f}",
    }
    without = [x.role for x in _missing(best.lights, way.solved.lights)]
    return {
        "kind": way.kind,
        "differs": words.alternative(way.kind, values),
        "lights": [document.light(way.solved, x) for x in way.solved.lights],
        "blocks": document.blocks(way.solved),
        "expected": block,
        "costs": words.costs(_weighed(way.solved, block), _weighed(best, ours.expected), without),
    }


def _missing(ours: Sequence[Light], theirs: Sequence[Light]) -> list[Light]:
    """The lights of the plan whose role the other way leaves empty."""
    held = {x.role for x in theirs}
    return [x for x in ours if x.role not in held]


def _weighed(solved: Solved, block: dict[str, Any]) -> dict[str, Any]:
    """The numbers two ways are weighed by, of one of them."""
    relief = [s["relief_stops"] for s in block["per_sitter"]]
    assert solved.ground is not None
    return {
        "edge": block["shadow_edge_mm"],
        "relief": round(sum(relief) / len(relief), 2),
        "fill": block["fill_below_key_stops"],
        "faces": block["evenness_stops"] if block["worst_pair"] else None,
        "ground": round(solved.ground.lightness),
        "iso": solved.camera.iso,
        "heads": sum(x.emitter is not None for x in solved.lights),
    }
