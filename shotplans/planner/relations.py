"""Who belongs to whom: generations, households, couples and leaders, read from ages, relations and households.

Belongs here: sets of people only. Not here: which of them make a picture (`pictures`). Common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from shotplans.planner.brief import Sitter

GENERATION_YEARS = 15.0  # a gap in age from which on a new generation begins
ADULT_YEARS = 18.0
SMALL_YEARS = 6.0  # small: placed last, taken first


@dataclass(frozen=True)
class Family:
    """Labels by generation from the oldest on, and by household; both in the order of the brief."""

    generations: tuple[tuple[str, ...], ...]
    households: tuple[tuple[str, tuple[str, ...]], ...]
    children: tuple[str, ...]
    couples: tuple[tuple[str, str], ...]
    siblings: tuple[str, ...]
    leaders: tuple[str, ...] = ()

    @property
    def grandparents(self) -> tuple[str, ...]:
        return self.generations[0] if len(self.generations) >= 3 else ()

    @property
    def is_family(self) -> bool:
        """Whether combinations make sense: two households or generations at least, and three people."""
        people = sum(len(g) for g in self.generations)
        return people >= 3 and (len(self.households) > 1 or len(self.generations) > 1)


def family(people: Sequence[Sitter]) -> Family:
    """What is known of how they belong together; somebody without age or household stands in none."""
    by_age = _generations(people)
    homes: dict[str, list[str]] = {}
    for one in people:
        if one.household:
            homes.setdefault(str(one.household), []).append(one.label)
    children = tuple(s.label for s in people if s.age_years is not None and s.age_years < ADULT_YEARS)
    return Family(
        generations=by_age,
        households=tuple((name, tuple(who)) for name, who in homes.items()),
        children=children,
        couples=tuple(_couples(people, by_age)),
        siblings=_siblings(people, by_age),
        leaders=tuple(s.label for s in people if leads(s)),
    )


def is_small(sitter: Sitter) -> bool:
    """Whether somebody is so small that they are placed last, and stay no longer than it is fun."""
    return sitter.posture == "lap" or (sitter.age_years is not None and sitter.age_years < SMALL_YEARS)


LEADERS = frozenset(("leader", "director", "manager", "head", "chair", "chairman", "chairwoman", "founder", "owner"))


def leads(sitter: Sitter) -> bool:
    """Whether somebody leads a company, by a word of what they are to the others: "leader", "managing director"."""
    return not LEADERS.isdisjoint(re.findall(r"\w+", str(sitter.relation or "").casefold()))


def _generations(people: Sequence[Sitter]) -> tuple[tuple[str, ...], ...]:
    """Ages in falling order, parted wherever the gap is that of a generation."""
    aged = sorted((s for s in people if s.age_years is not None), key=lambda s: -float(s.age_years))
    found: list[list[Sitter]] = []
    for one in aged:
        if not found or float(found[-1][-1].age_years) - float(one.age_years) >= GENERATION_YEARS:
            found.append([])
        found[-1].append(one)
    place = {s.label: n for n, s in enumerate(people)}
    return tuple(tuple(sorted((s.label for s in g), key=place.__getitem__)) for g in found)


def _couples(people: Sequence[Sitter], generations: Sequence[Sequence[str]]) -> list[tuple[str, str]]:
    """The two grown-ups of one generation in one household, where there are just two."""
    home = {s.label: s.household for s in people}
    grown = {s.label for s in people if s.age_years is not None and s.age_years >= ADULT_YEARS}
    found = []
    for generation in generations:
        for name in dict.fromkeys(home[w] for w in generation if w in grown and home[w]):
            two = [w for w in generation if w in grown and home[w] == name]
            if len(two) == 2:
                found.append((two[0], two[1]))
    return found


def _siblings(people: Sequence[Sitter], generations: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """Sons and daughters of the house that are grown, without those who married in."""
    said = {s.label: str(s.relation or "").casefold() for s in people}
    middle = generations[1] if len(generations) >= 3 else ()
    born = tuple(w for w in middle if said[w].startswith(("son", "daughter")) and "law" not in said[w])
    return born if len(born) >= 2 else ()
