"""Plans without what they tell of people. Belongs here: which parts of a frozen input and document come from notes, and
what stands there once they are blanked. Pure: values in, values out. Numbers of light, camera and kit stay."""

from __future__ import annotations

import copy
from collections.abc import Collection, Iterable, Mapping
from typing import Any

Tree = dict[str, Any]
STAYS = ("label", "posture", "household", "central", "keep_with")  # where somebody was, and beside whom
BLANK = "blanked"
EMPTIED = ("consequences", "cautions", "assumptions", "retouch")
PER_FACE = ("glasses",)


def request(given: Tree, labels: Collection[str], names: Mapping[str, str]) -> Tree:
    """The frozen input without what was known of these people; `names` are to stand in place of the former."""
    found = copy.deepcopy(given)
    found["sitters"] = [
        {key: one[key] for key in STAYS if key in one} if one["label"] in labels else one for one in found["sitters"]
    ]
    return renamed(found, names) if names else found


def document(given: Tree, names: Mapping[str, str]) -> Tree:
    """The plan without its words: reasons and what follows from notes name nobody apart, so all of them go."""
    found = copy.deepcopy(given)
    for part in EMPTIED:
        if part in found:
            found[part] = []
    found["problems"] = [one | {"says": BLANK, "mend": BLANK} for one in found["problems"]]
    for shot in found["shots"]:
        shot["cue"] = ""
        shot |= {part: "" for part in ("words",) if part in shot}
        shot |= {part: {} for part in ("pose",) if part in shot}
        shot |= {part: [] for part in ("last",) if part in shot}
    for setup in found["setups"]:
        setup["reasons"], setup["alternatives"] = [], []
        for block in setup["blocks"]:
            block["why"] = BLANK
        for face in (setup["expected"] or {}).get("per_sitter", []):
            face |= {part: [] for part in PER_FACE if part in face}
    for moved in found.get("by_hand") or ():  # a reason is a photographer's own words
        moved["rows"] = [row | {"reason": BLANK} for row in moved["rows"]]
        for face in (moved["suggested"]["expected"] or {}).get("per_sitter", []):
            face |= {part: [] for part in PER_FACE if part in face}
    return renamed(found, names) if names else found


def of_others(documents: Iterable[Tree], labels: Collection[str]) -> set[str]:
    """The set-ups, by name, that none of these people sits in, in any version of a plan: their pictures show others."""
    seats: dict[str, set[str]] = {}
    for one in documents:
        for setup in one["setups"]:
            seats.setdefault(setup["name"], set()).update(x["label"] for x in setup["sitters"])
    return {name for name, who in seats.items() if not who & set(labels)}


def renamed(tree: Any, names: Mapping[str, str]) -> Any:
    """The same with every former name replaced: as a value, as a key, and inside words."""
    if isinstance(tree, dict):
        return {names.get(key, key): renamed(value, names) for key, value in tree.items()}
    if isinstance(tree, list):
        return [renamed(value, names) for value in tree]
    if isinstance(tree, str):
        for before in sorted(names, key=len, reverse=True):
            tree = tree.replace(before, names[before])
    return tree
