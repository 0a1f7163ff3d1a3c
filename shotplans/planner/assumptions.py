"""Puts the stated defaults in and says so. Belongs here: walking the request by the table in `gaps` and
wording each kind of gap once, with everything it was assumed for. Not here: the defaults themselves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from shotplans.planner.gaps import GAPS, NUMBERED, WHOLES, Gap, Value
from shotplans.planner.request import Request
from studio.tongue import gettext as _

Entry = dict[str, Any]


def fill(request: Request) -> tuple[Request, list[str]]:
    """The request with every stated default in its place, and one sentence for each kind of gap.

    A request that is full already comes back equal, with only the sentences on what is not used yet.
    """
    tree = request.model_dump()
    said = _everybody(tree) + _wishes(tree)
    for path, key in WHOLES:
        for _whose, entry in _places(tree, path):
            if entry[key] is None:
                entry[key] = {}
    for path, key, word in NUMBERED:
        _number(tree, path, key, word)
    for path, key in (("kit.heads[]", "label"), ("kit.modifiers[]", "label")):
        for _whose, entry in _places(tree, path):
            entry[key] = entry[key] or entry["id"]
    for gap in GAPS:
        said += _fill_gap(tree, gap)
    return Request.model_validate(tree), said


def _places(tree: Entry, path: str) -> Iterator[tuple[str, Entry]]:
    """Every entry at a path, with the name of the nearest thing that has one; nulls are passed over."""
    found: list[tuple[str, Any]] = [("", tree)]
    for step in path.split(".") if path else ():
        inner = [(name, entry[step.removesuffix("[]")]) for name, entry in found]
        if step.endswith("[]"):
            inner = [(name, item) for name, items in inner for item in items]
        found = [(_name(entry) or name, entry) for name, entry in inner if entry is not None]
    yield from found


def _name(entry: Any) -> str:
    if not isinstance(entry, dict):
        return ""
    # A piece of kit goes by its id, because several may share a label.
    return str(entry.get("id") or entry.get("name") or entry.get("label") or "")


def _everybody(tree: Entry) -> list[str]:
    """Set-ups without people are for all of them."""
    labels = [sitter["label"] for sitter in tree["sitters"]]
    open_setups = [(name, setup) for name, setup in _places(tree, "brief.setups[]") if not setup["people"]]
    for _whose, setup in open_setups:
        setup["people"] = labels
    if not open_setups or len(labels) == 1:
        return []
    names = ", ".join(name for name, _entry in open_setups)
    said = _("{what} not given for {whom}: {so}")
    return [said.format(what="brief.setups[].people", whom=names, so=_("planned for everybody"))]


def _wishes(tree: Entry) -> list[str]:
    """A wish that names no feature cannot be followed."""
    said = []
    for name, sitter in _places(tree, "sitters[]"):
        kept = [wish for wish in sitter["wishes"] if wish["note"] is not None]
        if len(kept) < len(sitter["wishes"]):
            told = _("a wish of {name} names no feature and is left aside: ask what it is about")
            said.append(told.format(name=name))
        sitter["wishes"] = kept
    return said


def _number(tree: Entry, path: str, key: str, word: str) -> None:
    taken = {name for name, _entry in _places(tree, path)} | _ids(tree)
    count = 0
    for _whose, entry in _places(tree, path):
        while not entry[key]:
            count += 1
            name = f"{word} {count}"
            if name not in taken:
                entry[key] = name
                taken.add(name)


def _ids(tree: Entry) -> set[str]:
    return {str(entry["id"]) for entries in tree["kit"].values() for entry in entries}


def _fill_gap(tree: Entry, gap: Gap) -> list[str]:
    """Fills one row's gaps; the sentences group what was assumed alike."""
    alike: dict[Value, list[str]] = {}
    for name, entry in _places(tree, gap.path):
        is_open = entry.get(gap.key) in (None, "not noted")
        if is_open and gap.applies(entry):
            value = gap.value(entry, tree) if callable(gap.value) else gap.value
            entry[gap.key] = value
            names = alike.setdefault(value, [])
            if name not in names:
                names.append(name)
    if gap.says is None:
        return []
    return [_sentence(gap, value, names) for value, names in alike.items()]


def _sentence(gap: Gap, value: Value, names: list[str]) -> str:
    so = _(gap.says or "").format(value=_(value) if isinstance(value, str) else value)
    whom = ", ".join(name for name in names if name)
    if gap.path.startswith("sitters[]"):
        said = _("{what} not noted for {whom}: {so}") if whom else _("{what} not noted: {so}")
        return said.format(what=_(gap.called or ""), whom=whom, so=so)
    said = _("{what} not given for {whom}: {so}") if whom else _("{what} not given: {so}")
    return said.format(what=f"{gap.path}.{gap.key}", whom=whom, so=so)
