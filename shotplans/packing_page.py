"""Reads for the packing page: a day's lists as on paper, each thing with the newest tap about it and its state today,
and whether every pair of head and modifier is proved. Belongs here: putting those together in a few questions, however
many pieces there are. Not here: taps (`actions.packing`), words on paper (`sheets`)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, NamedTuple

from django.utils.text import slugify

from shotplans import paper
from shotplans.models import PackingTap, Plan
from shotplans.models.packing import MOST_ITEM
from shotplans.planner.joints import Joint, Ring, joints
from shotplans.sheets.content import PackingRow, PackingSheet
from shotplans.workbench import Planned, plans_of
from studio.models import Adapter, Head, KitItem, Modifier, Profile

STUDIO = ""  # the list of what is packed in the house


@dataclass(frozen=True)
class Thing:
    """A row of a list with what became of it."""

    row: PackingRow
    piece: KitItem | None
    tap: PackingTap | None
    instead: str = ""  # what went in its place

    @property
    def anchor(self) -> str:
        """Where it stands on its page."""
        return slugify(self.row.item)

    @property
    def is_out(self) -> bool:
        return self.tap is not None and self.tap.what == PackingTap.What.OUT

    @property
    def is_back(self) -> bool:
        return self.tap is not None and self.tap.what == PackingTap.What.BACK

    @property
    def is_open(self) -> bool:
        return not (self.is_out or self.is_back)

    @property
    def cannot(self) -> str:
        """Why it cannot go out: its state, as words; empty where it can."""
        away = (KitItem.State.REPAIR, KitItem.State.LOST)
        if self.piece is None or self.piece.state not in away or self.instead:
            return ""
        return str(self.piece.get_state_display())


@dataclass(frozen=True)
class PackedGroup:
    name: str
    things: tuple[Thing, ...]


@dataclass(frozen=True)
class PackingList:
    """One list of a day: `where` is empty for the studio's own, else the number of the sitting it is for."""

    where: str
    sheet: PackingSheet
    plans: tuple[Plan, ...]
    groups: tuple[PackedGroup, ...]
    joints: tuple[Joint, ...]
    packed: PackingTap | None

    @property
    def things(self) -> list[Thing]:
        return [thing for group in self.groups for thing in group.things]

    @property
    def out(self) -> int:
        return sum(not thing.is_open for thing in self.things)

    @property
    def back(self) -> int:
        return sum(thing.is_back for thing in self.things)

    @property
    def unproved(self) -> list[Joint]:
        return [one for one in self.joints if not one.is_proved]

    @property
    def is_packed(self) -> bool:
        """Said so, and nothing was taken back since."""
        return self.packed is not None and not self.unproved and not any(thing.is_open for thing in self.things)


def lists(day: date, planned: Iterable[Planned], profile: Profile) -> list[PackingList]:
    """The day's lists: the studio's, then one for each sitting away from it."""
    plans = by_list(plans_of(planned))
    if not plans:
        return []
    taps = _newest(PackingTap.objects.filter(day=day).select_related("by"))
    pieces = paper.pieces_of([plan for found in plans.values() for plan in found])
    today = _Today(pieces, taps, *_mounts(plans))
    return [_list(where, found, today, profile) for where, found in sorted(plans.items())]


class _Today(NamedTuple):
    """What is known of the kit today, asked once for all lists of a day."""

    pieces: dict[str, KitItem]
    taps: dict[tuple[str, str], PackingTap]
    mounts: dict[str, str]
    rings: list[Ring]


def by_list(plans: Iterable[Plan]) -> dict[str, list[Plan]]:
    """Which plans of a day are packed together: those in the studio, and each away from it by its sitting's number."""
    found: dict[str, list[Plan]] = {}
    for plan in plans:
        found.setdefault(plan.sitting.number if plan.sitting.room.away else STUDIO, []).append(plan)
    return found


def _newest(taps: Iterable[PackingTap]) -> dict[tuple[str, str], PackingTap]:
    return {(tap.where, tap.item): tap for tap in taps}  # the model's order is the oldest first


def _list(where: str, plans: Sequence[Plan], today: _Today, profile: Profile) -> PackingList:
    sheet = paper.packing_list(plans, profile, pieces=today.pieces)
    pieces, taps = today.pieces, today.taps
    swapped = {item: tap.instead for (of, item), tap in taps.items() if of == where and tap.instead}
    groups = tuple(
        PackedGroup(group.name, tuple(
            Thing(row, pieces.get(row.item), taps.get((where, row.item[:MOST_ITEM])), swapped.get(row.item, ""))
            for row in group.rows
        ))
        for group in sheet.groups
    )  # fmt: skip
    setups = [setup for plan in plans for setup in plan.setups]
    pairs = tuple(joints(setups, today.mounts, today.rings, swapped))
    return PackingList(where, sheet, tuple(plans), groups, pairs, taps.get((where, "")))


def _mounts(plans: dict[str, list[Plan]]) -> tuple[dict[str, str], list[Ring]]:
    """Today's mounts of what the plans pair, and the rings that are ready: three questions."""
    lights = [x for found in plans.values() for plan in found for s in plan.setups for x in s["lights"]]
    heads, modifiers = ({str(x[key]) for x in lights if x[key]} for key in ("head", "modifier"))
    if not heads:
        return {}, []
    found: dict[str, Any] = dict(Head.objects.filter(code__in=heads).values_list("code", "mount"))
    found |= dict(Modifier.objects.filter(code__in=modifiers).values_list("code", "mount"))
    rings = [Ring(*row) for row in Adapter.objects.free().values_list("code", "from_mount", "to_mount")]
    return found, rings
