"""Where a head meets its modifier: proved by equal mounts, or by a ring that goes from the one to the other and is
to be had. Belongs here: the proof of each pair, what breaks it, and the rings that would mend
it. Not here: rows or pages."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]


@dataclass(frozen=True)
class Ring:
    """A ring as it is owned: from the head's mount to the modifier's."""

    id: str
    from_mount: str
    to_mount: str

    def joins(self, head_mount: str, modifier_mount: str) -> bool:
        return (self.from_mount, self.to_mount) == (head_mount, modifier_mount)


@dataclass(frozen=True)
class Joint:
    """One pair of a plan. `ring` is what goes between, empty for none; `fault` says what breaks it, empty where it is
    proved; `rings` are those that would do instead, the first to be tried first."""

    letters: str
    head: str
    modifier: str
    ring: str
    head_mount: str
    modifier_mount: str
    fault: str = ""
    rings: tuple[str, ...] = ()

    @property
    def is_proved(self) -> bool:
        return not self.fault


FAULTS = {
    "no_ring": noop("needs a ring from {head_mount} to {modifier_mount}"),
    "gone": noop("its ring {ring} is not to be had"),
    "wrong": noop("{ring} does not go from {head_mount} to {modifier_mount}"),
    "unknown": noop("one of the two is no longer in the kit"),
}


def joints(
    setups: Iterable[Entry], mounts: Mapping[str, str], rings: Sequence[Ring], instead: Mapping[str, str] | None = None
) -> list[Joint]:
    """Every pair of the set-ups once, proved by the mounts as they are today.

    `mounts` are those of heads and modifiers by id; `rings` are those to be had; `instead` is what was taken in a
    ring's place. A ring is offered where no other pair of the same set-up has it.
    """
    owned, swapped = {r.id: r for r in rings}, instead or {}
    found: dict[tuple[str, str, str], Joint] = {}
    for setup in setups:
        pairs = [x for x in setup["lights"] if x["head"] and x["modifier"]]
        taken = {swapped.get(x["adapter"], x["adapter"]) for x in pairs if x["adapter"]}
        for light in pairs:
            key = (light["head"], light["modifier"], light["adapter"] or "")
            letters = f"{found[key].letters}, {light['letter']}" if key in found else light["letter"]
            if key in found and light["letter"] in found[key].letters.split(", "):
                continue
            ring = swapped.get(key[2], key[2])
            found[key] = _joint(letters, key[0], key[1], ring, mounts, owned, taken)
    return list(found.values())


def _joint(
    letters: str, head: str, modifier: str, ring: str, mounts: Mapping[str, str], owned: Mapping[str, Ring],
    taken: set[str],
) -> Joint:  # fmt: skip
    there, wanted = mounts.get(head, ""), mounts.get(modifier, "")
    said = {"ring": ring, "head_mount": there, "modifier_mount": wanted}
    fault = ""
    if not there or not wanted:
        fault = "unknown"
    elif ring and ring not in owned:
        fault = "gone"
    elif ring and not owned[ring].joins(there, wanted):
        fault = "wrong"
    elif not ring and there != wanted:
        fault = "no_ring"
    if fault in ("gone", "wrong") and there == wanted:
        fault = ""  # it fits without
    offered = tuple(sorted(r.id for r in owned.values() if r.joins(there, wanted) and r.id not in taken - {ring}))
    words = _(FAULTS[fault]).format(**said) if fault else ""
    return Joint(letters, head, modifier, ring, there, wanted, words, offered if fault and fault != "unknown" else ())
