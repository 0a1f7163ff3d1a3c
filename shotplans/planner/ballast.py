"""What keeps each stand on its legs: the load and where it hangs, the bag it wants, the bags there are, what tips it.

Reckoned across the line between two feet, the worst way; a leg under the load is better than that. The bag hangs on
the column. A stand's own weight is what the kit says, else the light end of what is sold.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from shotplans.light import rigging
from shotplans.planner import kit as owned
from shotplans.planner.emitters import HEAD_LENGTH_M
from shotplans.planner.flags import FLAG_KG
from shotplans.planner.mounting import PANEL_KG, arm_centre_m, counter_arm_m
from shotplans.planner.plan import Light, Mounting, Solved
from studio.tongue import gettext as _

PUSH_N = 10.0  # a sleeve or a cable that catches, about a kilogram's pull at the light: common practice, no source
COLUMN_BEHIND_FRONT_M = 0.1  # the column stands this far behind the modifier's back, under the head
OWN_KG_PER_M = 1.0  # of a stand whose weight is not known, for each metre it reaches up: value from memory


@dataclass(frozen=True)
class Rig:
    """One stand as loaded: kilograms, metres, newtons. `letter` is empty for black panels and flags."""

    letter: str
    what: str
    stand: str
    load_kg: float
    overhang_m: float
    own_kg: float
    height_m: float
    footprint_m: float
    inside_m: float
    wanted_kg: float
    bags: tuple[str, ...] = ()
    bag_kg: float = 0.0

    @property
    def free_margin_nm(self) -> float:
        """Moment left about the legs' edge with its bags and nobody pushing."""
        beyond = self.overhang_m - self.inside_m
        return float(rigging.tipping_margin_nm(self.load_kg, beyond, self.own_kg + self.bag_kg, self.inside_m))

    @property
    def margin_nm(self) -> float:
        """Moment left under the stated push at the light's height."""
        return self.free_margin_nm - PUSH_N * self.height_m

    @property
    def tips_at_n(self) -> float:
        """The push at the light's height that tips it."""
        return float(rigging.push_that_tips_n(self.free_margin_nm, self.height_m))

    @property
    def short_kg(self) -> float:
        """How much the bags that are free for it fall short of what it wants."""
        return max(0.0, self.wanted_kg - self.bag_kg)


def rigs(solved: Solved) -> list[Rig]:
    """Every stand of a set-up with the bags it gets: lights in the order of their letters, black panels, flags."""
    if "rigs" not in solved.kept:  # asked for once a light and once a check
        solved.kept["rigs"] = _rigs(solved)
    found: list[Rig] = solved.kept["rigs"]
    return found


def _rigs(solved: Solved) -> list[Rig]:
    stands: dict[str, owned.Stand] = {s.id: s for s in solved.notes["stands"]}  # type: ignore[attr-defined]
    return _bagged([_wants(r) for r in _stood(solved, stands)], _counterweighted(solved)[0])


def printed(solved: Solved, light: Light) -> dict[str, float | None]:
    """The bag a light's stand wants, and the moment left under the stated push with the bags it gets; rounded down."""
    rig = next((r for r in rigs(solved) if r.letter == light.letter), None)
    if rig is None:
        return {"sandbag_kg": None, "tipping_margin_nm": None}
    return {"sandbag_kg": round(rig.wanted_kg, 1) + 0.0, "tipping_margin_nm": float(np.floor(rig.margin_nm)) + 0.0}


def load_kg(light: Light) -> float:
    """What hangs on the stand: head with modifier, or a panel with its arm."""
    return light.emitter.mass_kg if light.emitter else PANEL_KG


def counterweight_short_kg(solved: Solved) -> dict[str, float]:
    """Kilograms missing on the short end of each boom, by its light's letter, after the bags that are free."""
    return _counterweighted(solved)[1]


def _stood(solved: Solved, stands: dict[str, owned.Stand]) -> Iterator[Rig]:
    for light in solved.lights:
        held = light.mounting
        stand = stands.get(str(held.stand)) if held else None
        if held is None or stand is None:
            continue
        load, overhang = _hung(light, held, stand)
        what = _("Light {letter}").format(letter=light.letter)
        yield _rig(light.letter, stand, load, overhang, float(light.position[1]), what)
    for block in solved.blocks:
        stand = stands.get(str(block.stand))
        if stand is not None:
            yield _rig("", stand, PANEL_KG, 0.0, float(block.at_m[1]), _("The black panel"))
    for flag in solved.flags:
        stand = stands.get(str(flag.stand))
        if stand is not None:
            yield _rig("", stand, FLAG_KG, 0.0, float(flag.at_m[1]), _("The flag"))


def _rig(letter: str, stand: owned.Stand, load: float, overhang: float, height: float, what: str) -> Rig:
    own = float(stand.mass_kg if stand.mass_kg is not None else OWN_KG_PER_M * stand.max_height_m)
    legs = max(float(stand.footprint_m or 0.0), 0.1)
    inside = float(rigging.edge_inside_m(legs))
    return Rig(letter, what, stand.id, load, overhang, own, max(height, 0.1), legs, inside, 0.0)


def _hung(light: Light, held: Mounting, stand: owned.Stand) -> tuple[float, float]:
    """Mass on the column and how far from it that mass's centre hangs, level."""
    load = load_kg(light)
    if held.boom:
        arm, counter = float(stand.arm_kg or 0.0), held.counterweight_kg
        whole = load + arm + counter
        moment = load * held.arm_m + arm * arm_centre_m(stand) - counter * counter_arm_m(stand)
        return whole, abs(moment) / max(whole, 1e-9)
    if light.emitter is None:
        return load, 0.0
    head, modifier = light.emitter.head, light.emitter.modifier
    ahead = float(modifier.depth_m or 0.0) / 2 + COLUMN_BEHIND_FRONT_M
    behind = HEAD_LENGTH_M / 2 - COLUMN_BEHIND_FRONT_M
    level = float(np.hypot(light.axis[0], light.axis[2]))
    moment = float(modifier.mass_kg) * ahead - float(head.mass_kg) * behind
    return load, level * abs(moment) / max(load, 1e-9)


def _wants(rig: Rig) -> Rig:
    found = rigging.sandbag_kg(
        rig.load_kg, rig.overhang_m - rig.inside_m, rig.own_kg, rig.inside_m, rig.inside_m, PUSH_N * rig.height_m
    )
    return replace(rig, wanted_kg=float(np.ceil(float(found) * 10 - 1e-6) / 10))


def _counterweighted(solved: Solved) -> tuple[list[owned.Weight], dict[str, float]]:
    """The bags that no boom needs on its short end, where the heaviest go first, and what each boom then lacks."""
    stands: dict[str, owned.Stand] = {s.id: s for s in solved.notes["stands"]}  # type: ignore[attr-defined]
    weights: Sequence[owned.Weight] = solved.notes["weights"]  # type: ignore[assignment]
    left = sorted(weights, key=lambda w: float(w.kg or 0.0))
    short: dict[str, float] = {}
    for light in solved.lights:
        held = light.mounting
        stand = stands.get(str(held.stand)) if held and held.boom else None
        missing = held.counterweight_kg - float(stand.counterweight_kg or 0.0) if held and stand else 0.0
        while missing > 1e-6 and left:
            missing -= float(left.pop().kg or 0.0)
        if missing > 1e-6:
            short[light.letter] = missing
    kept = {id(w) for w in left}
    return [w for w in weights if id(w) in kept], short


def _bagged(rigs: list[Rig], free: list[owned.Weight]) -> list[Rig]:
    """The bags given out: the neediest first, each the smallest that will do; then one for each that has none."""
    given: dict[int, list[owned.Weight]] = {n: [] for n in range(len(rigs))}
    for n in sorted(given, key=lambda n: (-rigs[n].wanted_kg, n)):
        need = rigs[n].wanted_kg
        while need > 1e-9 and free:
            enough = [w for w in free if float(w.kg or 0.0) >= need - 1e-9]
            by_mass = sorted(enough or free, key=lambda w: float(w.kg or 0.0))
            taken = by_mass[0] if enough else by_mass[-1]
            free = [w for w in free if w is not taken]
            given[n].append(taken)
            need -= float(taken.kg or 0.0)
    for bags in given.values():
        if not bags and free:
            bags.append(free[0])
            free = free[1:]
    return [
        replace(r, bags=tuple(str(w.id) for w in given[n]), bag_kg=sum(float(w.kg or 0.0) for w in given[n]))
        for n, r in enumerate(rigs)
    ]
