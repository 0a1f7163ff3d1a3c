"""The packing rows of a set-up and of a day: things once each, along the path of the picture, with their mounts proved.

The plan's own list says what and how many; here it is only sorted, named and joined. For several sittings the most of
each thing is packed once, since they follow one another.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from shotplans.planner.request import Request
from shotplans.sheets.content import PackingGroup, PackingRow
from studio.tongue import gettext as _
from studio.tongue import noop

Entry = Mapping[str, Any]
GROUPS = (
    (noop("Ground"), ("backgrounds",)),
    (noop("Stands, booms and weights"), ("stands", "weights")),
    (noop("Heads and modifiers"), ("heads", "modifiers", "adapters")),
    (noop("Panels"), ("panels", "flags")),
    (noop("Camera"), ("cameras", "lenses", "triggers")),
    (noop("Seats"), ("seats", "risers")),
)
SMALL = noop("Small things")
WORDS_OF = {
    "Ground": ("crossbar",),
    "Stands, booms and weights": ("counterweight", "safety cord", "sandbag", "boom arm", "flag for the arm"),
    "Panels": ("panel clamp",),
    "Heads and modifiers": ("mains cable", "spare mains cable", "charged battery"),
    "Camera": ("trigger", "lens cloth", "spare memory card"),
}


def name(item: str, request: Request) -> str:
    """What a piece is called; one without a name goes by its code."""
    return next((str(x.label) for x in (*request.kit.heads, *request.kit.modifiers) if x.id == item), item)


def for_setup(document: Entry, setup: Entry, request: Request) -> tuple[PackingRow, ...]:
    """What this set-up needs of the plan's list; small words that every sitting needs are kept."""
    used = _used(setup)
    letters, kit = {x["letter"] for x in setup["lights"]}, _kit(request)
    return tuple(
        PackingRow(
            item=row["item"],
            label=_label(row),
            used_for=", ".join(used.get(row["item"], ())) or _letters_here(row["for"], letters),
            count=row["count"],
            fits=_fits(row["item"], [setup], request),
        )
        for row in document["packing"]
        if row["item"] in used or row["item"] not in kit or _shared(row["item"], request)
    )


def for_day(parts: Sequence[tuple[str, Entry, Request]]) -> tuple[PackingGroup, ...]:
    """One list for several sittings, grouped; `used_for` names each sitting with its letters."""
    joined: dict[str, PackingRow] = {}
    kinds: dict[str, str] = {}
    for sitting, document, request in parts:
        kit = _kit(request)
        for row in document["packing"]:
            item, letters = row["item"], row["for"]
            use = sitting if letters == "set" else f"{sitting} {letters}"
            known = joined.get(item)
            kinds[item] = kit.get(item) or _group(item)
            joined[item] = PackingRow(
                item=item,
                label=_label(row),
                used_for=f"{known.used_for}; {use}" if known else use,
                count=max(row["count"], known.count if known else 0),
                fits=_joined([known.fits if known else "", _fits(item, document["setups"], request)]),
            )
    everywhere = "; ".join(sitting for sitting, _, _ in parts)
    rows = [replace(r, used_for=_("all")) if r.used_for == everywhere else r for r in joined.values()]
    names = [*(group for group, _ in GROUPS), SMALL]
    found = (PackingGroup(_(group), tuple(r for r in rows if kinds[r.item] == group)) for group in names)
    return tuple(group for group in found if group.rows)


def _label(row: Entry) -> str:
    return str(row["label"]) if row["label"] != row["item"] else ""


def _used(setup: Entry) -> dict[str, list[str]]:
    """Kit ids of this set-up with the letters of the lights they serve."""
    found: dict[str, list[str]] = {}
    for light in setup["lights"]:
        for key in ("head", "modifier", "adapter", "stand", "panel"):
            if light[key]:
                found.setdefault(light[key], []).append(light["letter"])
    for item in _unlettered(setup):
        found.setdefault(item, [])
    return found


def _unlettered(setup: Entry) -> Iterator[str]:
    if setup["camera"] is not None:
        yield from (setup["camera"]["body"], setup["camera"]["lens"], setup["background"]["id"])
    for block in setup["blocks"]:
        yield block["id"]
        if block.get("stand"):  # a plan frozen before blocks named their stands has none here
            yield block["stand"]
    yield from (sitter["seat"] for sitter in setup["sitters"] if sitter["seat"])


def _letters_here(used_for: str, letters: set[str]) -> str:
    here = [x for x in used_for.split(", ") if x in letters]
    return ", ".join(here) or _("set")


def _kit(request: Request) -> dict[str, str]:
    """Each piece of the kit by its id, with its group."""
    return {str(x.id): group for group, kinds in GROUPS for kind in kinds for x in getattr(request.kit, kind)}


def codes(request: Request) -> set[str]:
    """The ids of all pieces of the kit."""
    return {*_kit(request)} | {str(w.id) for w in request.kit.triggers}


def _shared(item: str, request: Request) -> bool:
    """Things that serve the whole set and are not named in a set-up: weights and triggers."""
    return any(str(x.id) == item for x in (*request.kit.weights, *request.kit.triggers))


def _group(item: str) -> str:
    """That of a thing which is no piece of the kit."""
    return next((group for group, words in WORDS_OF.items() if item.startswith(words)), SMALL)


def _fits(item: str, setups: Sequence[Entry], request: Request) -> str:
    """How a modifier or a ring is proved on its head: by the same mount, or by a ring from one to the other."""
    lights = (light for setup in setups for light in setup["lights"])
    paired = [x for x in lights if x["head"] is not None and item in (x["modifier"], x["adapter"])]
    if not paired:
        return ""
    mounts = {x.id: x.mount for x in (*request.kit.heads, *request.kit.modifiers)}
    proofs = []
    for light in paired:
        head, modifier = mounts[light["head"]], mounts[light["modifier"]]
        ring = light["adapter"] if item == light["modifier"] else None
        on = (
            _("on {head}").format(head=light["head"])
            if item == light["modifier"]
            else _("{head} to {modifier}").format(head=light["head"], modifier=light["modifier"])
        )
        way = head if head == modifier else _("{head} to {modifier}").format(head=head, modifier=modifier)
        proofs.append(f"{on}: {_('{way}, ring {ring}').format(way=way, ring=ring) if ring else way}")
    return _joined(proofs)


def _joined(texts: Iterable[str]) -> str:
    """Each text once, in order."""
    return "; ".join(dict.fromkeys(part for text in texts for part in text.split("; ") if part))
