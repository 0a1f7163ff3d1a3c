"""Claims about the sentences of `words.rigs`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from tests.planner import briefs
from tests.planner.briefs import car

Tree = dict[str, Any]

G = 9.80665  # m/s2, SI


def lit(s: Tree, letter: str) -> Tree:
    return next(x for x in s["lights"] if x["letter"] == letter)


def arm(v: Tree, s: Tree) -> bool:
    """The lever law (values.md G11, G12): weight x short end = load x arm (+ the arm's own), up to 100 g more."""
    light = lit(s, v["letter"])
    short_end = float(v["counter_arm"])
    own = float(v.get("arm_kg", 0)) * (3 * short_end - short_end) / 2  # a rod of 4 parts, 3 of them before the pivot
    exact = (float(v["load"]) * float(v["arm"]) + own) / short_end
    same = float(v["weight"]) == light["counterweight_kg"] and float(v["arm"]) == light["arm_m"]
    # load to 0.1 kg, short end to a centimetre: as printed
    slack = 0.11 + exact * (0.05 / float(v["load"]) + 0.005 / short_end)
    return same and -slack <= float(v["weight"]) - exact <= slack + 0.1


def steadiness(v: Tree, s: Tree) -> bool:
    """The moment left, by its own printed numbers: what tips it is the margin, given back the stated push."""
    light = lit(s, v["letter"])
    margin = (float(v["tips"]) - float(v["push"])) * float(v["height"])
    # the push to the newton, the margin rounded down to the newton metre
    near = abs(margin - light["tipping_margin_nm"] - 0.5) <= 0.5 * float(v["height"]) + 0.55
    # at most all that stands on it, a quarter of the legs' width from their edge; what hangs over makes it less
    most = (float(v["load"]) + float(v["own"]) + float(v["have"])) * G * float(v["legs"]) / 4
    others = [x for x in s["lights"] if x["tipping_margin_nm"] is not None]
    least = min(x["tipping_margin_nm"] / x["centre_height_m"] for x in others) + float(v["push"])
    bounded = margin + float(v["push"]) * float(v["height"]) <= most + 0.5 * float(v["height"]) + 0.3
    # a light's centre may lie low: a newton metre is then several newtons
    return near and bounded and light["sandbag_kg"] == float(v["bag"]) and float(v["tips"]) <= least + 0.5 + 1 / 0.4


def load(v: Tree, s: Tree) -> bool:
    row = next(r for r in s["expected"]["load"] if r["circuit"] == v["circuit"])
    most = max(r["watts"] / r["limit_watts"] for r in s["expected"]["load"])
    return (
        row["watts"] / row["limit_watts"] == most
        and v["letters"] == ", ".join(row["letters"])
        and (float(v["peak"]), float(v["staggered"])) == (row["peak_amps"], row["staggered_amps"])
    )


def smeared(v: Tree, s: Tree, lasting_s: float) -> bool:
    """Speed times time (values.md F21), and as much larger or smaller as the print is than the field."""
    blur = 1000 * float(v["speed"]) * lasting_s
    shown = blur * float(v["print_cm"]) / 100 / s["expected"]["field_width_m"]
    # 1/part is rounded to a whole part, the field to a centimetre
    here = abs(float(v["blur"]) - blur) <= 0.06 + 0.005 * blur
    return here and abs(float(v["on_print"]) - shown) <= 0.02 * shown + 0.01


def ambient(v: Tree, s: Tree) -> bool:
    """C N^2 / (t S) with C = 250 (values.md E07, F25) over the room's lux, in stops."""
    c = s["camera"]
    set_lux = 250 * c["aperture"] ** 2 / (c["shutter_s"] * c["iso"])
    # the f-number to two decimals, the lux to three figures
    return abs(math.log2(set_lux / float(v["lux"])) - float(v["below"])) <= 0.07


TRUE: dict[str, Callable[[Tree, Tree], bool]] = {
    "boom": lambda v, s: arm(v, s) and "arm_kg" not in v,
    "boom_with_arm": arm,
    "steadiness": steadiness,
    "load": load,
    # the briefs' head recycles in 1.2 s at full power; half the energy, half the time (values.md F09)
    "charge": lambda v, s: v["frames"] > 0 and abs(float(v["ready"]) - 1.2 * 2 ** -float(v["below"])) <= 0.1
    and abs(lit(s, v["letter"])["power_below_full_stops"] - float(v["below"])) <= 0.051,
    "freeze": lambda v, s: smeared(v, s, 1 / float(v["part"])),
    "steady_blur": lambda v, s: smeared(v, s, s["camera"]["shutter_s"]) and v["shutter"].startswith("1/"),
    "ambient_under": ambient,
}
OF_NOTES: set[str] = set()


def flash(**more: Any) -> Tree:
    return briefs.studio_kit()["heads"][0] | more


def one(who: Tree | None = None, **rest: Any) -> Tree:
    rest.setdefault("kit", briefs.one_light_kit())
    return briefs.request(briefs.setup("even"), who or briefs.sitter("Mirela"), **rest)


BOOM = {"id": "boom", "kind": "boom", "max_height_m": 3, "min_height_m": 1, "max_load_kg": 10, "reach_m": 2,
        "counterweight_kg": 20}  # fmt: skip
STURDY = {"id": "stand", "kind": "stand", "max_height_m": 3, "min_height_m": 1, "max_load_kg": 25, "footprint_m": 1.4}
SAID: dict[str, Tree] = {
    "a boom alone": one(kit=car(stands=[BOOM])),
    "a boom whose arm is weighed": one(kit=car(stands=[BOOM | {"arm_kg": 2.0, "counterweight_kg": 30}])),
    "a flash on a battery": one(kit=car(heads=[flash(battery_ws=80_000)])),
    "a flash whose maker counts": one(kit=car(heads=[flash(battery_full_power_shots=150)])),
    "hands at rest under steady light": one(kit=briefs.steady_kit()),
    "a room that is not dark": one(where=briefs.room(ambient_lux=100)),
    "a toddler who may run": one(briefs.sitter("Wilf", age_years=2, height_cm=87, posture="standing")),
}
WHITE = [{"id": "octa95-1", "kind": "octabox", "shape": "disc", "diameter_m": 0.95, "loss_stops": 2.3,
          "mount": "bayonet S", "mass_kg": 1.4, "depth_m": 0.42, "max_modelling_watts": 65}]  # fmt: skip
DISH = {"id": "dish30", "kind": "dish", "shape": "disc", "diameter_m": 0.3, "loss_stops": 1.0, "mount": "bayonet S",
        "mass_kg": 0.6, "depth_m": 0.02, "min_distance_m": 0.3}  # fmt: skip
CAUTIOUS: dict[str, Tree] = {
    "no circuits known": one(where=briefs.room(circuits=[])),
    "a small breaker": briefs.request(
        briefs.setup("soft", "half"), briefs.sitter("Mirela"),
        briefs.room(circuits=[{"label": "circuit 1", "volts": 230, "breaker_amps": 8}]),
    ),
    "a lamp near its modifier's limit": one(kit=car(modifiers=WHITE)),
    "a battery": SAID["a flash on a battery"],
    "a slow head": one(kit=car(heads=[flash(recycle_s=9.0, range_stops=2)])),
    "a wheelchair": one(briefs.sitter("Osric", posture="wheelchair")),
    "haze": one(haze=True),
    "a child": one(briefs.sitter("Wilf", age_years=7, height_cm=122)),
    "a heavy head": one(kit=car(heads=[flash(mass_kg=12)], stands=[STURDY])),
    "a boom by itself": SAID["a boom alone"],
    "a low room": one(where=briefs.room(9, 6, 2.2)),
    "a small dish, near": one(kit=car(modifiers=[DISH])),
}  # fmt: skip
