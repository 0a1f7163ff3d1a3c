"""Light that cannot be, told where it is entered: heads and modifiers of the kit against the energy in the tube.

Belongs here: which pairs mount and what is said beside the field. Not here: the sum itself (`light.heads`), or the same
check on a brief (`planner.consistency`).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import product
from typing import Any

from django.utils.translation import gettext as _

from shotplans.light.heads import LUMENS_PER_WATT, least_loss_stops
from shotplans.light.sources import disc_factor, rect_factor
from shotplans.planner.consistency import DIFFUSE
from studio.models import Adapter, Head, KitItem, Modifier

DUST = 1e-9


def checker() -> Callable[[KitItem], Iterator[tuple[str, str]]]:
    """What is impossible of a piece beside the other kit, which is read once, when a light is asked about first."""
    owned = cache(Kit.owned)
    return lambda row: faults(row, owned)


def faults(row: KitItem, owned: Callable[[], Kit]) -> Iterator[tuple[str, str]]:
    """The field and the sentence for every number of a piece that makes more light than there is, the worst alone."""
    if not isinstance(row, Head | Modifier | Adapter):
        return  # asked of every line of a list: what makes no light asks the database nothing
    found = [
        (over, field, sentence)
        for head, modifier in owned().pairs(row)
        if (over := _over_stops(head, modifier)) > DUST
        for field, sentence in (_said(row, head, modifier, over),)
    ]
    for _over, field, sentence in sorted(found, key=lambda f: -f[0])[:1]:
        yield field, sentence


@dataclass(frozen=True)
class Kit:
    """Heads and modifiers, of equal ones the first, by their mounts, and what adapters join; pieces that are lost count
    too, for they may be found."""

    heads: dict[str, list[Head]]
    modifiers: dict[str, list[Modifier]]
    joined: set[tuple[str, str]]

    @classmethod
    def owned(cls) -> Kit:
        """Three questions."""
        heads = _by_mount(Head.objects.all(), "light", "energy_ws", "f_number_1m_iso100")
        modifiers = _by_mount(
            Modifier.objects.all(), "kind", "shape", "diameter_m", "width_m", "height_m", "loss_stops"
        )
        return cls(heads, modifiers, set(Adapter.objects.values_list("from_mount", "to_mount")))

    def pairs(self, row: Head | Modifier | Adapter) -> Iterator[tuple[Head, Modifier]]:
        """The pairs a piece would be half of, or would join."""
        if isinstance(row, Adapter):
            yield from product(self.heads.get(row.from_mount, ()), self.modifiers.get(row.to_mount, ()))
            return
        joined = {*self.joined, (row.mount, row.mount)}
        if isinstance(row, Head):
            mounts = [there for here, there in joined if here == row.mount]
            yield from ((row, modifier) for mount in mounts for modifier in self.modifiers.get(mount, ()))
        else:
            mounts = [here for here, there in joined if there == row.mount]
            yield from ((head, row) for mount in mounts for head in self.heads.get(mount, ()))


def _by_mount(pieces: Iterable[Any], *numbers: str) -> dict[str, list[Any]]:
    found: dict[str, dict[tuple[Any, ...], Any]] = {}
    for piece in pieces:
        found.setdefault(piece.mount, {}).setdefault(tuple(getattr(piece, name) for name in numbers), piece)
    return {mount: list(alike.values()) for mount, alike in found.items()}


def _over_stops(head: Head, modifier: Modifier) -> float:
    """Stops by which a pair gives more light than the tube makes; below zero where it is possible or not known."""
    energy, number = head.energy_ws, head.f_number_1m_iso100
    front = _front(modifier)
    if head.light != Head.Light.FLASH or energy is None or number is None or front is None:
        return -math.inf
    return float(least_loss_stops(number, energy, *front)) - float(modifier.loss_stops)


def _front(modifier: Modifier) -> tuple[float, float] | None:
    """Area in m2 and configuration factor at 1 m of a front that scatters."""
    if modifier.kind not in DIFFUSE:
        return None
    if modifier.shape == Modifier.Shape.DISC:
        across = modifier.diameter_m
        return None if across is None else (math.pi * across**2 / 4, float(disc_factor(1.0, across)))
    if modifier.width_m is None or modifier.height_m is None:
        return None
    return modifier.width_m * modifier.height_m, float(rect_factor(1.0, modifier.width_m, modifier.height_m))


def _said(row: KitItem, head: Head, modifier: Modifier, over_stops: float) -> tuple[str, str]:
    """The field that is at fault and what is wrong with it."""
    stored = {"energy": f"{head.energy_ws:g}", "lumens": f"{float(head.energy_ws or 0) * LUMENS_PER_WATT:,.0f}"}
    if isinstance(row, Modifier):
        least = math.ceil(10 * (float(modifier.loss_stops) + over_stops) - DUST) / 10
        return "loss_stops", _(
            "With %(head)s this would be more light than its %(energy)s Ws can make (%(lumens)s lumen seconds): "
            "the loss is at least %(least)s stops."
        ) % {**stored, "head": head, "least": f"{least:.1f}"}
    most = math.floor(10 * float(head.f_number_1m_iso100 or 0) * 2 ** (-over_stops / 2) + DUST) / 10
    if isinstance(row, Head):
        return "f_number_1m_iso100", _(
            "With %(modifier)s this would be more light than %(energy)s Ws can make (%(lumens)s lumen seconds): "
            "f/%(most)s at most, or the modifier loses more than its %(loss)s stops."
        ) % {**stored, "modifier": modifier, "most": f"{most:g}", "loss": f"{modifier.loss_stops:g}"}
    return "to_mount", _(
        "It would join %(head)s and %(modifier)s, which by their numbers give more light than %(energy)s Ws can make: "
        "mend those first."
    ) % {**stored, "head": head, "modifier": modifier}
