"""What of the kit is still free while a set-up is put together: nothing is used twice."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shotplans.planner import kit as owned
from shotplans.planner.emitters import Emitter
from shotplans.planner.pairs import emitters, spec
from shotplans.planner.plan import Block, Flag, Light
from shotplans.planner.request import Request


@dataclass(frozen=True)
class Free:
    """Heads, modifiers, rings, stands, panels and flags not yet used in this set-up."""

    request: Request
    heads: tuple[owned.Head, ...]
    modifiers: tuple[owned.Modifier, ...]
    adapters: tuple[owned.Adapter, ...]
    stands: tuple[owned.Stand, ...]
    panels: tuple[owned.Panel, ...]
    flags: tuple[owned.Flag, ...]

    @classmethod
    def all_of(cls, request: Request) -> Free:
        kit = request.kit
        return cls(
            request,
            tuple(kit.heads),
            tuple(kit.modifiers),
            tuple(kit.adapters),
            tuple(kit.stands),
            tuple(kit.panels),
            tuple(kit.flags),
        )

    def without(self, *used: Light | Block | Flag) -> Free:
        """The kit less what these lights, blocks and flags take."""
        left = self
        for thing in used:
            if isinstance(thing, Flag):
                left = left.less(flag=thing.item.id, panel=thing.item.id, stand=thing.stand)
                continue
            if isinstance(thing, Block):
                left = left.less(panel=thing.panel.id, stand=thing.stand)
                continue
            stand = thing.mounting.stand if thing.mounting else None
            if thing.emitter is None:
                left = left.less(panel=thing.panel.id if thing.panel else None, stand=stand)
            else:
                e = thing.emitter
                left = left.less(head=e.head.id, modifier=e.modifier.id, adapter=e.adapter, stand=stand)
        return left

    def less(
        self,
        *,
        head: str | None = None,
        modifier: str | None = None,
        adapter: str | None = None,
        stand: str | None = None,
        panel: str | None = None,
        flag: str | None = None,
    ) -> Free:
        """The kit less single pieces by their ids."""
        return replace(
            self,
            heads=tuple(x for x in self.heads if x.id != head),
            modifiers=tuple(x for x in self.modifiers if x.id != modifier),
            adapters=tuple(x for x in self.adapters if x.id != adapter),
            stands=tuple(x for x in self.stands if x.id != stand),
            panels=tuple(x for x in self.panels if x.id != panel),
            flags=tuple(x for x in self.flags if x.id != flag),
        )

    def only(self, modifiers: set[str]) -> Free:
        """The kit with no other modifiers than these and those that do the same."""
        wanted = {spec(x) for x in self.modifiers if x.id in modifiers}
        return replace(self, modifiers=tuple(x for x in self.modifiers if spec(x) in wanted))

    def emitters(self, steady: bool, any_heat: bool = False) -> list[Emitter]:
        """Every pair that can still be put together."""
        return emitters(
            self.request.kit,
            self.request.corrections,
            steady=steady,
            heads=self.heads,
            modifiers=self.modifiers,
            adapters=self.adapters,
            any_heat=any_heat,
            measured=self.request.beams,
        )

    def strongest(self, steady: bool) -> tuple[list[Emitter], list[Emitter]]:
        """Pairs with the strongest head for each modifier, and all the others."""
        every = self.emitters(steady)
        best: dict[str, Emitter] = {}
        for e in every:
            held = best.get(e.modifier.id)
            if held is None or e.exposure_1m > held.exposure_1m * 1.0001:
                best[e.modifier.id] = e
        chosen = set(map(id, best.values()))
        return list(best.values()), [e for e in every if id(e) not in chosen]


def one_each(found: Sequence[Emitter]) -> list[Emitter]:
    """One pair for each modifier: the strongest head."""
    best: dict[str, Emitter] = {}
    for e in found:
        held = best.get(e.modifier.id)
        if held is None or e.exposure_1m > held.exposure_1m * 1.0001:
            best[e.modifier.id] = e
    return list(best.values())
