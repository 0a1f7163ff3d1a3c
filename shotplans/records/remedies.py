"""What to do about a reading off its target: likely causes first, then the dial or the distance, then what that does
to every other reading of the round.

Belongs here: codes with values out of a plan's own document and input. Not here: words, rows, or what counts as off.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from shotplans.light.heads import dial_ladder, dial_text
from shotplans.light.units import round_to
from shotplans.planner.candidates import STEP_M
from shotplans.planner.kit import MOST_CORRECTION_STOPS, Correction
from shotplans.planner.request import Request
from shotplans.planner.whatif import Change, Refused, what_if
from shotplans.records.readings import TENTH, stops_of

Tree = Mapping[str, Any]
DEAD_STOPS = Decimal("-2.5")  # so far under, a light has not fired or hardly glows: common practice, no source
CLOTH_STOPS = (Decimal("0.4"), Decimal("1.6"))  # what one cloth takes: common practice, no source
MOST_CAUSES = 4


@dataclass(frozen=True)
class Cause:
    """Something that may be amiss on the set, to be asked before anything is turned or moved."""

    code: str
    values: tuple[tuple[str, Any], ...] = ()


@dataclass(frozen=True)
class Power:
    """The dial that would bring a light to its target: stops up (+) or down (-), the setting in the head's own
    writing, and what would still be missing (+ under) where the dial ends or steps."""

    stops: Decimal
    dial: str
    below_full_stops: float
    missing_stops: Decimal


@dataclass(frozen=True)
class Distance:
    """The distance that would bring a light to its target, on 5 cm, and the way there in cm: + is closer."""

    metres: float
    closer_cm: int


@dataclass(frozen=True)
class Effect:
    """One other reading of the round: what is off there as things stand, and what will be once the mend is made."""

    step: int
    now: Decimal
    then: Decimal


def light_of(setup: Tree, step: Tree) -> Tree | None:
    """The one light that a step reads; None where several are on."""
    if len(step["on"]) != 1 or step["sets_camera"]:
        return None
    return next((x for x in setup["lights"] if x["letter"] == step["on"][0] and x["head"]), None)


def causes(setup: Tree, step: Tree, off: Decimal, modifiers: Sequence[Tree]) -> list[Cause]:
    """What to ask first, likeliest first, of a reading `off` stops over (+) or under (-) its target."""
    light = light_of(setup, step)
    found = _of_one(light, step, off, modifiers) if light else _of_several(setup, step, off)
    if abs(off) >= Decimal("0.9") and abs(off - round(off)) <= TENTH:
        found.insert(1 if found else 0, Cause("meter_set", (("iso", setup["camera"]["iso"]),)))
    return found[:MOST_CAUSES]


def _of_one(light: Tree, step: Tree, off: Decimal, modifiers: Sequence[Tree]) -> list[Cause]:
    letter = ("letter", light["letter"])
    at = round_to(float(light["distance_m"]) * 2.0 ** (float(-off) / 2), STEP_M)
    distance = Cause("distance", (letter, ("planned_m", light["distance_m"]), ("reads_like_m", float(at))))
    dial = Cause("dial", (letter, ("dial", light["dial"])))
    dome = Cause("dome", (("dome", step["dome"]), ("toward", step["toward"])))
    if off <= DEAD_STOPS:
        return [Cause("fired", (letter,)), dial, distance, dome]
    shaper = next((m for m in modifiers if m["id"] == light["modifier"]), None)
    cloths = bool(shaper and (shaper.get("inner_cloth") or shaper.get("outer_cloth")))
    first: list[Cause] = []
    if off > 0:
        first.append(Cause("others_off", (("off", tuple(step["on"])),)))
        if cloths and CLOTH_STOPS[0] <= off <= CLOTH_STOPS[1]:
            first.insert(0, Cause("cloth_missing", (letter,)))
    elif CLOTH_STOPS[0] <= -off <= CLOTH_STOPS[1]:
        first.append(Cause("cloth_extra", (letter, ("grid", bool(light["grid"])))))
    return [*first, distance, dial, dome]


def _is_all_on(setup: Tree, step: Tree) -> bool:
    """Whether lights are on that the setting reading leaves off: those from behind."""
    return bool(set(step["on"]) - {x for one in setup["meter_round"] if one["sets_camera"] for x in one["on"]})


def _of_several(setup: Tree, step: Tree, off: Decimal) -> list[Cause]:
    letters = tuple(step["on"])
    if step["sets_camera"]:
        first = [Cause("singles", (("on", letters),)), Cause("panels", (("panels", step["panels"]),))]
    elif _is_all_on(setup, step):
        first = [Cause("spill", ()), Cause("singles", (("on", letters),))]
    else:
        first = [Cause("mark", ()), Cause("shaded", ())]
    if off < 0:
        first.append(Cause("fired_all", (("on", letters),)))
    return [*first, Cause("dome", (("dome", step["dome"]), ("toward", step["toward"])))]


def power(light: Tree, heads: Sequence[Tree], off: Decimal) -> Power | None:
    """The settable power nearest to what brings the light to its target. None where the head is not in the input.

    `off` in stops over (+) or under (-); a dial is stops below full, so what is missing is taken off that number.
    """
    head = next((h for h in heads if h["id"] == light["head"]), None)
    if head is None or not head.get("dial"):
        return None
    dial = str(head["dial"]["scale"]), float(head["dial"].get("step") or 0.1), float(head["range_stops"])
    energy = head.get("energy_ws")
    before = float(light["power_below_full_stops"])
    wanted = before + float(off)
    steps = dial_ladder(*dial, energy)
    at = float(min(steps, key=lambda s: (abs(s - wanted), s)))
    up = _tenths(before - at)
    return Power(up, dial_text(*dial, energy, at), round(at, 4), _tenths(at - wanted))


def distance(light: Tree, off: Decimal, least_m: float) -> Distance | None:
    """Where the light would have to stand, by the inverse square from the plan's distance [textbook], on 5 cm.

    None where that is less than a step away, nearer than `least_m`, or more than half as far again: then the picture
    would be another one.
    """
    before = float(light["distance_m"])
    after = float(round_to(before * 2.0 ** (float(off) / 2), STEP_M))
    closer = round(100 * (before - after))
    if abs(closer) < 5 or after < least_m or not 0.5 <= after / before <= 1.5:
        return None
    return Distance(round(after, 2), closer)


def effects(
    request: Request, document: dict[str, Any], setup_name: str, step: int, off: Decimal, change: Change
) -> list[Effect]:
    """What every other reading of the round is off by, if the light read at `step` gives `off` more (+) or less (-)
    than planned: as it stands, and after `change`. Empty where the plan cannot be asked (printed too long ago), and
    where the lamp would be further off its rating than a request may say (`is_beyond`)."""
    setup = next(s for s in document["setups"] if s["name"] == setup_name)
    row = next(s for s in setup["meter_round"] if s["step"] == step)
    light = light_of(setup, row)
    if light is None or is_beyond(request, light, off):
        return []
    really = request.model_copy(update={"corrections": _corrected(request, light, float(off))})
    try:
        now = what_if(really, document, setup_name, None).setup["meter_round"]
        then = what_if(really, document, setup_name, change).setup["meter_round"]
    except Refused:
        return []
    found = []
    for planned, as_is, mended in zip(setup["meter_round"], now, then, strict=True):
        if planned["step"] != step and (light["letter"] in planned["on"]):
            target = stops_of(planned["target"]["f_number"])
            found.append(Effect(planned["step"], _over(as_is, target), _over(mended, target)))
    return found


def _over(step: Tree, target: Decimal) -> Decimal:
    return stops_of(step["target"]["f_number"]) - target


def is_beyond(request: Request, light: Tree, off: Decimal) -> bool:
    """Whether a light that reads `off` would be further off its rating than any lamp: nothing can be foretold of it."""
    return abs(_offset(request, light, float(off))) > MOST_CORRECTION_STOPS


def _offset(request: Request, light: Tree, off: float) -> float:
    pair = (light["head"], light["modifier"])
    before = next((c.offset_stops for c in request.corrections if (c.head, c.modifier) == pair), 0.0)
    return float(before) + off


def _corrected(request: Request, light: Tree, off: float) -> tuple[Correction, ...]:
    """The input's corrections with one pair giving `off` stops more: the lamp as the meter found it."""
    pair = (light["head"], light["modifier"])
    kept = [c for c in request.corrections if (c.head, c.modifier) != pair]
    sum_ = _offset(request, light, off)
    mine = Correction(head=pair[0], modifier=pair[1], offset_stops=sum_, standard_error_stops=0.1, readings=1)
    return (*kept, mine)


def _tenths(stops: float) -> Decimal:
    return Decimal(str(round(stops, 6))).quantize(TENTH) + Decimal("0.0")
