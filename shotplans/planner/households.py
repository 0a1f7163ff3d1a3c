"""The order of people in a row: households side by side and in one column through the rows, the central in the middle.

A wheelchair stands inside its row, never at an end of it. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from shotplans.planner.people import Person


def homes(people: Sequence[Person]) -> dict[str, str]:
    """Each label's household; who is to be kept with somebody joins theirs, who has none is one of their own."""
    home = {p.label: str(p.sitter.household or f"\0{p.label}") for p in people}
    for p in people:
        other = home.get(str(p.sitter.keep_with))
        mine = home[p.label]
        if other is None or other == mine:
            continue
        # whole households move together only where one person alone is a household
        moved = [p.label] if p.sitter.household else [label for label, name in home.items() if name == mine]
        home |= dict.fromkeys(moved, other)
    return home


def columns(people: Sequence[Person], home: dict[str, str]) -> dict[str, int]:
    """A column for each household, 0 in the middle, then right and left in turn: the central ones first."""
    members: dict[str, list[Person]] = {}
    for p in people:
        members.setdefault(home[p.label], []).append(p)
    order = sorted(members, key=lambda h: (-sum(bool(p.sitter.central) for p in members[h]), members[h][0].index))
    return {name: (n + 1) // 2 * (1 if n % 2 else -1) for n, name in enumerate(order)}


def ordered(row: Sequence[Person], home: dict[str, str], column: dict[str, int]) -> list[Person]:
    """A row from camera left to right."""
    blocks: dict[str, list[Person]] = {}
    for p in row:
        blocks.setdefault(home[p.label], []).append(p)
    names = sorted(blocks, key=lambda name: column[name])
    central = [name for name in names if any(p.sitter.central for p in blocks[name])]
    if central:
        names = _about(central[0], names, {name: len(blocks[name]) for name in names})
    pivot = names.index(central[0]) if central else len(names) // 2
    line: list[Person] = []
    for n, name in enumerate(names):
        inward = sorted(blocks[name], key=lambda p: (not p.sitter.central, -p.eye_m, p.index))
        line += inward if n > pivot else inward[::-1] if n < pivot else _outward(inward)
    return _wheels_inside(line)


def _about(middle: str, names: list[str], size: dict[str, int]) -> list[str]:
    """The households of a row, moved from end to end until the middle one has as many on either side as can be."""
    names = list(names)
    for _ in range(len(names)):
        place = names.index(middle)
        left, right = sum(size[n] for n in names[:place]), sum(size[n] for n in names[place + 1 :])
        end = names[-1] if right > left else names[0]
        if end == middle or abs(left - right) <= abs(abs(left - right) - 2 * size[end]):
            break
        names.remove(end)
        names.insert(0 if right > left else len(names), end)
    return names


def _outward(people: list[Person]) -> list[Person]:
    """The first in the middle, the others right and left of it in turn."""
    line: list[Person] = []
    for n, p in enumerate(people):
        line = [*line, p] if n % 2 else [p, *line]
    return line


def _wheels_inside(line: list[Person]) -> list[Person]:
    """A wheelchair at an end changes places with the nearest other person, as long as there is one for each end."""
    line = list(line)
    others = [p for p in line if p.posture != "wheelchair"]
    for end, way in ((0, 1), (len(line) - 1, -1)):
        if line[end].posture != "wheelchair" or len(others) < 2:
            continue
        k = end
        while line[k].posture == "wheelchair":
            k += way
        line[end], line[k] = line[k], line[end]
    return line
