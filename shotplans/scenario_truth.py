"""What the demo's lamps truly give, which its people can only read. Belongs here: hidden offsets from the rated values
and the meter's scatter, the same at each building. Pure: numbers in, numbers out. Not here: rows (`scenario_past`)."""

from __future__ import annotations

import copy
import random
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from shotplans.light.exposure import stops_between
from shotplans.light.heads import dial_text
from shotplans.light.units import round_to
from shotplans.records import remedies

Tree = dict[str, Any]
Known = Mapping[tuple[str, str], float]
NOISE_STOPS = 0.1  # one standard deviation of one reading
HEADS = {"h400-1": -0.15, "h400-2": 0.1, "h400-3": -0.05, "h400-4": 0.05, "steady350-1": -0.1}
RESTS = {
    ("h400-1", "octa150-1"): -0.1, ("h400-1", "dish55"): 0.15, ("h400-2", "umb180"): 0.15,
    ("h400-2", "strip30x120-1"): -0.15, ("h400-3", "strip30x120-1"): -0.1, ("h400-3", "dish55"): 0.1,
}  # fmt: skip
TIRED, TIRED_STOPS, TIRED_DAYS = "h400-4", -0.4, 125  # its tube began to fail so many days before the demo's day
CLOTH = 190  # the sitting so many days ago was read once with a cloth nobody had seen
CLOTH_STOPS = -1.1
TURNED_FROM = 0.2  # a light farther off its target was turned to it


def offset_stops(head: str, modifier: str, ago: int) -> float:
    """Stops over (+) or under (-) the rated output that a head with a modifier truly gives, `ago` days before the
    demo's day. Invented."""
    tired = TIRED_STOPS if head == TIRED and ago < TIRED_DAYS else 0.0
    return HEADS.get(head, 0.0) + RESTS.get((head, modifier), 0.0) + tired


def reading(setup: Tree, step: Tree, known: Known, ago: int) -> tuple[Decimal, Tree | None, float]:
    """What the meter said at a step: stops from f/1 to a tenth, the light it was of where it was one alone, and its
    exact target. `known` are the corrections the plan stood on."""
    target = float(stops_between(1.0, float(step["target"]["f_number"])))
    light = remedies.light_of(setup, step)
    chance = random.Random(f"{ago} {setup['name']} {step['step']}")
    off = chance.gauss(0.0, NOISE_STOPS if light else 0.06)
    if light is not None:
        pair = (str(light["head"]), str(light["modifier"]))
        off += offset_stops(*pair, ago) - known.get(pair, 0.0)
        off += CLOTH_STOPS if ago == CLOTH and step["step"] == 1 and light["role"] == "key" else 0.0
    return Decimal(str(float(round_to(target + off, 0.1)))).quantize(Decimal("0.1")), light, target


def dialled(document: Tree, kit: Mapping[str, Any], then: Known, now: Known) -> Tree:
    """A plan of like light with its dials moved by what was learned since: `then` and `now` are corrections."""
    found, heads = copy.deepcopy(document), {h["id"]: h for h in kit["heads"]}
    for setup in found["setups"]:
        for light in setup["lights"]:
            pair = (light["head"], light["modifier"])
            moved = now.get(pair, 0.0) - then.get(pair, 0.0)
            if light["head"] and moved:
                below = light["power_below_full_stops"] + moved
                light |= {"power_below_full_stops": round(max(0.0, below), 2), "dial": dial(heads, light, moved)}
    return found


def dial(heads: Mapping[str, Tree], light: Tree, down_stops: float) -> str:
    """A light's dial so many stops further down (up where negative), in its head's own writing."""
    head = heads[light["head"]]
    most = float(head["range_stops"])
    below = float(round_to(min(most, max(0.0, light["power_below_full_stops"] + down_stops)), 0.1))
    scale = head["dial"]
    return dial_text(str(scale["scale"]), float(scale.get("step") or 0.1), most, head.get("energy_ws"), below)
