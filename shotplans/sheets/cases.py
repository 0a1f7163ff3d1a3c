"""What is carried: the things of a list by the case they travel in, each case with its mass; each stand with its load
and its bag; what only a place away from the studio asks for. Belongs here: those sums and rules. Not here: rows of the
house, layout."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from shotplans.planner.mounting import PANEL_KG
from shotplans.planner.request import Request
from shotplans.sheets.content import Case, PackingGroup, PackingRow, StandLoad
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
LIFT_ALONE_KG = 16.0
"""Above this, kg, a case is shared or put on the trolley: a cautious figure for one person lifting at waist height;
value from memory, common practice, no source. What can be lifted depends on task, person, load and place."""
NEAR_FULL_SHARE = 0.8  # a stand loaded beyond this of what it carries is said: common practice, no source
LOOSE = noop("without a case")
AWAY = (
    (noop("trolley"), 1),
    (noop("second extension lead"), 1),
    (noop("cable mats"), 1),
    (noop("floor protection"), 1),
    (noop("first-aid kit"), 1),
    (noop("coins or card for parking"), 1),
)  # what job and practice ask for away from the studio: common practice, no source


@dataclass(frozen=True)
class Owned:
    """What the house knows of a piece today."""

    label: str
    mass_kg: float | None
    case: str


def completed(
    groups: Sequence[PackingGroup], requests: Sequence[Request], owned: Mapping[str, Owned], *, away: bool
) -> tuple[PackingGroup, ...]:
    """The groups with a spare of what is vital and owned, with what a place away from the studio asks for, and with the
    house's names, masses and cases of today; a mass the house does not know is the frozen input's."""
    packed = {row.item for group in groups for row in group.rows}
    spares = list(_spares(requests, packed, away=away))
    aids = [
        PackingRow(item=item, label=_other(item), used_for=_("set"), count=n) for item, n in AWAY if item not in packed
    ]
    found = [*groups, *([PackingGroup(_("Spares"), tuple(spares))] if spares else [])]
    found += [PackingGroup(_("For a place away from the studio"), tuple(aids))] if away else []
    known = _masses(requests)
    return tuple(PackingGroup(g.name, tuple(_weighed(row, owned, known) for row in g.rows)) for g in found)


def _other(item: str) -> str:
    """What one of our own words is called where that is otherwise: the word itself is what it is ticked by."""
    said = _(item)
    return said if said != item else ""


def _spares(requests: Sequence[Request], packed: set[str], *, away: bool) -> Iterator[PackingRow]:
    """The rule of one: one more of each ring, and away from the studio of head, trigger and camera, where another is
    owned that does the same."""
    if not requests:
        return
    kit = requests[-1].kit
    alike = [(r.id, (r.from_, r.to), str(getattr(r, "label", "") or "")) for r in kit.adapters]
    if away:
        alike += [(h.id, ("head", h.mount, h.light), str(h.label or "")) for h in kit.heads]
        alike += [(t.id, ("trigger",), "") for t in kit.triggers] + [(c.id, ("camera",), "") for c in kit.cameras]
    for sort in dict.fromkeys(key for item, key, _label in alike if item in packed):
        spare = next(((item, label) for item, key, label in alike if key == sort and item not in packed), None)
        if spare is not None:
            yield PackingRow(item=spare[0], label=spare[1], used_for=_("spare"), count=1)


def _masses(requests: Sequence[Request]) -> dict[str, float | None]:
    known: dict[str, float | None] = {}
    for request in requests:
        kit = request.kit
        known |= {x.id: x.mass_kg for x in (*kit.heads, *kit.modifiers, *kit.stands)}
        known |= {w.id: w.kg for w in kit.weights}
    return known


def _weighed(row: PackingRow, owned: Mapping[str, Owned], known: Mapping[str, float | None]) -> PackingRow:
    piece = owned.get(row.item)
    mass = piece.mass_kg if piece and piece.mass_kg is not None else known.get(row.item)
    return replace(
        row, label=row.label or (piece.label if piece and piece.label != row.item else ""),
        mass_kg=None if mass is None else round(float(mass) * row.count, 2), case=piece.case if piece else "",
    )  # fmt: skip


def by_case(groups: Sequence[PackingGroup]) -> tuple[Case, ...]:
    """The things with a mass or a case, case by case in the order they first come, what has no case last."""
    found: dict[str, list[PackingRow]] = {}
    for row in (row for group in groups for row in group.rows if row.mass_kg is not None or row.case):
        found.setdefault(row.case or _(LOOSE), []).append(row)
    names = sorted(found, key=lambda name: name == _(LOOSE))
    return tuple(_case(name, found[name]) for name in names)


def _case(name: str, rows: Sequence[PackingRow]) -> Case:
    mass = round(sum(row.mass_kg or 0.0 for row in rows), 1)
    unknown = sum(row.mass_kg is None for row in rows)
    heavy = mass > LIFT_ALONE_KG if name != _(LOOSE) else any((row.mass_kg or 0.0) > LIFT_ALONE_KG for row in rows)
    return Case(name, tuple(row.item for row in rows), mass, unknown, heavy)


def stands(parts: Sequence[tuple[str, Entry, Request]]) -> tuple[StandLoad, ...]:
    """Every stand that carries a light in any of the sittings, once: the most that hangs on it and the heaviest bag it
    wants, heaviest load first."""
    found: dict[str, StandLoad] = {}
    for sitting, document, request in parts:
        kit = request.kit
        masses = {x.id: float(x.mass_kg) for x in (*kit.heads, *kit.modifiers)} | {p.id: PANEL_KG for p in kit.panels}
        most = {s.id: float(s.max_load_kg) for s in kit.stands}
        for light in (x for setup in document["setups"] for x in setup["lights"] if x["stand"]):
            load = round(sum(masses.get(light[key], 0.0) for key in ("head", "modifier", "panel")), 1)
            one = StandLoad(
                light["stand"], f"{sitting} {light['letter']}", load, most.get(light["stand"], 0.0),
                float(light.get("sandbag_kg") or 0.0), float(light.get("counterweight_kg") or 0.0),
                load > NEAR_FULL_SHARE * most.get(light["stand"], load),
            )  # fmt: skip
            found[one.stand] = _most(found[one.stand], one) if one.stand in found else one
    return tuple(sorted(found.values(), key=lambda one: (-one.load_kg, one.stand)))


def _most(a: StandLoad, b: StandLoad) -> StandLoad:
    used = dict.fromkeys([*a.used_for.split("; "), *b.used_for.split("; ")])
    return StandLoad(
        a.stand, "; ".join(used), max(a.load_kg, b.load_kg), max(a.carries_kg, b.carries_kg),
        max(a.bag_kg, b.bag_kg), max(a.counterweight_kg, b.counterweight_kg), a.near_full or b.near_full,
    )  # fmt: skip
